package overlay

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
	"testing"

	"clocktell/static"
)

// leanly is a script or style of the pages as it is sent.
func leanly(t *testing.T, name string, whole []byte) []byte {
	t.Helper()
	out, err := newMinify().Bytes(textTypes[path.Ext(name)], bytes.Clone(whole)) // it writes in what it reads
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	return out
}

// seams reads, for each file named, two texts by other readers than the server's: acorn as
// ECMAScript 2022, css-tree. Of a script it prints what it imports, exports and is made of:
// classes, their members, functions; of private members, and of functions within functions, only
// how many there are: they may be called otherwise; of a style its rules.
const seams = `
import { readFileSync } from 'node:fs';
import { parse as script, tokenizer } from 'acorn';
import { parse as style, walk } from 'css-tree';
const of = { ecmaVersion: 2022, sourceType: 'module' };
const ofScript = (text) => {
  const found = [];
  const look = (n, inside) => {
    if (!n || typeof n !== 'object') return;
    if (Array.isArray(n)) return n.forEach((m) => look(m, inside));
    if (/^(Import|Export)/.test(n.type)) found.push(n.type + ' ' + (n.source?.value ?? n.exported?.name ?? n.imported?.name ?? n.declaration?.id?.name ?? ''));
    if (/^(Class|Function)Declaration$/.test(n.type)) found.push(n.type + ' ' + (inside ? '#' + found.length : n.id?.name));
    if (/^(Method|Property)Definition$/.test(n.type)) found.push(n.type + ' ' + (n.key.type === 'PrivateIdentifier' ? '#' + found.length : n.key.name));
    const within = inside || /Function/.test(n.type);
    Object.values(n).forEach((m) => look(m, within));
  };
  look(script(text, of));
  return [...new Set(found)].sort();
};
const ofStyle = (text) => {
  const found = [];
  const unread = (e) => { throw e; };
  walk(style(text, { onParseError: unread }), (n) => ['Rule', 'Atrule'].includes(n.type) && found.push(n.type + (n.name ?? '')));
  return found;
};
const comments = (text) => { const found = []; for (const _ of tokenizer(text, { ...of, onComment: found })); return found.length; };
const out = {};
for (const [name, [whole, lean]] of Object.entries(JSON.parse(readFileSync(0, 'utf8')))) {
  const read = name.endsWith('.js') ? ofScript : ofStyle;
  const [a, b] = [read(whole), read(lean)];
  const [gone, came] = [a.filter((x) => !b.includes(x)), b.filter((x) => !a.includes(x))];
  out[name] = { parts: a.length, after: b.length, other: [...gone, ...came], comments: name.endsWith('.js') ? comments(lean) : lean.split('/*').length - 1 };
}
console.log(JSON.stringify(out));
`

// TestLeanKeepsItsSeams holds every script and style that is served to readers of others:
// shortened, it is one that Chromium 103 reads, is made of the same parts, and has no
// comment. That it does the same is what the tests in a browser hold: they load these.
func TestLeanKeepsItsSeams(t *testing.T) {
	files := make(map[string][2]string)
	err := fs.WalkDir(static.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || textTypes[path.Ext(name)] == "" {
			return err
		}
		whole, err := fs.ReadFile(static.FS, name)
		files[name] = [2]string{string(whole), string(leanly(t, name, whole))}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	var read map[string]struct {
		Parts, After, Comments int
		Other                  []string // parts of one of the two alone
	}
	if err := json.Unmarshal(nodeReads(t, seams, files), &read); err != nil {
		t.Fatal(err)
	}
	for name, r := range read {
		if r.Parts != r.After || len(r.Other) > 0 || r.Comments != 0 || r.Parts == 0 {
			t.Errorf("%s: made of %d parts and, shortened, of %d; only in one of the two: %v; comments left: %d", name, r.Parts, r.After, r.Other, r.Comments)
		}
	}
	if len(read) < 60 || len(read) != len(files) {
		t.Errorf("read %d of %d files, want at least 60", len(read), len(files))
	}
}

// nodeReads runs a module with the packages of the pages' lint. Without them the test is
// skipped, but where CLOCKTELL_TESTS=all (as in .ci/run) it fails.
func nodeReads(t *testing.T, module string, in any) []byte {
	t.Helper()
	folder, err := filepath.Abs("../static/lint")
	if err != nil {
		t.Fatal(err)
	}
	node, err := exec.LookPath("node")
	if err == nil {
		_, err = os.Stat(filepath.Join(folder, "node_modules"))
	}
	if err != nil {
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatal(err)
		}
		t.Skipf("node or the packages of static/lint are missing: %v", err)
	}
	text, err := json.Marshal(in)
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(node, "--input-type=module", "--eval", module)
	cmd.Dir, cmd.Stdin, cmd.Stderr = folder, strings.NewReader(string(text)), os.Stderr
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	return out
}
