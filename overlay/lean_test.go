package overlay

import (
	"bytes"
	"encoding/json"
	"io/fs"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"clocktell/static"
)

// seams reads, for each file named, by other readers than the server's (acorn as ECMAScript 2022,
// css-tree): the file, all that is joined in it, and what is sent. Of a script it prints what it
// exports and the members of its classes that others can see; of a style the names that its
// selectors and its own properties have, its at-rules, and what it fetches.
const seams = `
import { readFileSync } from 'node:fs';
import { parse as script, tokenizer } from 'acorn';
import { parse as style, walk } from 'css-tree';
const of = { ecmaVersion: 2022, sourceType: 'module' };
const ofScript = (text) => {
  const found = { exports: [], parts: [], open: 0 };
  const look = (n) => {
    if (!n || typeof n !== 'object') return;
    if (Array.isArray(n)) return n.forEach(look);
    if (/^Import|^ExportAll/.test(n.type) || (n.type === 'ExportNamedDeclaration' && n.source)) found.open++;
    if (n.type === 'ExportSpecifier') found.exports.push(n.exported.name);
    if (n.type === 'ExportNamedDeclaration' && n.declaration) found.exports.push(...(n.declaration.declarations ?? [n.declaration]).map((d) => d.id.name));
    if (/^(Method|Property)Definition$/.test(n.type) && n.key.type !== 'PrivateIdentifier') found.parts.push((n.static ? 'static ' : '') + (n.kind ?? 'field') + ' ' + (n.key.name ?? n.key.value));
    Object.values(n).forEach(look);
  };
  look(script(text, of));
  return found;
};
const ofStyle = (text) => {
  const found = { exports: [], parts: [], open: 0 };
  const unread = (e) => { throw e; };
  walk(style(text, { onParseError: unread }), (n) => {
    if (n.type === 'Atrule' && n.name === 'import') return found.open++, walk.skip;
    if (/Selector$|^Atrule$/.test(n.type)) found.parts.push(n.type.replace(/Pseudo.*/, 'Pseudo') + ' ' + (n.name?.name ?? n.name)); // :after is ::after
    if (n.type === 'Declaration' && n.property.startsWith('--')) found.parts.push(n.property);
    if (n.type === 'Url') found.parts.push('url ' + n.value);
  });
  found.parts = [...new Set(found.parts)];
  return found;
};
const comments = (text) => { const found = []; for (const _ of tokenizer(text, { ...of, onComment: found })); return found.length; };
const less = (a, b) => a.filter((x, i) => b.filter((y) => y === x).length < a.slice(0, i + 1).filter((y) => y === x).length);
const out = {};
for (const [name, { Own, All, Lean }] of Object.entries(JSON.parse(readFileSync(0, 'utf8')))) {
  const isScript = name.endsWith('.js');
  const read = isScript ? ofScript : ofStyle;
  const [own, lean, every] = [read(Own), read(Lean), All.flatMap((text) => read(text).parts)];
  const all = isScript ? every : [...new Set(every)];
  out[name] = {
    parts: own.exports.length + lean.parts.length, open: lean.open, comments: isScript ? comments(Lean) : Lean.split('/*').length - 1,
    gone: [...less(own.exports, lean.exports), ...less(isScript ? own.parts : all, lean.parts)].filter((x, i, l) => l.indexOf(x) === i),
    came: [...less(lean.exports, own.exports), ...less(lean.parts, all)],
  };
}
console.log(JSON.stringify(out));
`

// joined is a file, all that is joined in it, itself included, and how it is sent.
type joined struct {
	Own  string
	All  []string
	Lean string
}

// TestLeanKeepsItsSeams holds every script and style that is served to readers of others:
// joined and shortened, it is one that Chromium 103 reads, exports what it did, has all members
// and selectors of its own and none that it or what it imports has not, and no import or comment
// is left. Of what a script imports it need not have all. That it does the same is what
// the tests in a browser hold: they load these.
func TestLeanKeepsItsSeams(t *testing.T) {
	files := make(map[string]joined)
	err := fs.WalkDir(static.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || textTypes[path.Ext(name)] == "" {
			return err
		}
		sent, err := lean(static.FS, name)
		if err != nil {
			return err
		}
		file := joined{Own: readStatic(t, name), Lean: string(sent)}
		for _, piece := range append(loadedBy(t, name), name) {
			file.All = append(file.All, readStatic(t, piece))
		}
		files[name] = file
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	var read map[string]struct {
		Parts, Open, Comments int
		Gone, Came            []string
	}
	if err := json.Unmarshal(nodeReads(t, seams, files), &read); err != nil {
		t.Fatal(err)
	}
	for name, r := range read {
		if len(r.Gone) > 0 || len(r.Came) > 0 || r.Open != 0 || r.Comments != 0 || r.Parts == 0 {
			t.Errorf("%s as it is sent: %d parts, without %v, with %v besides; imports left %d, comments %d", name, r.Parts, r.Gone, r.Came, r.Open, r.Comments)
		}
	}
	if len(read) < 60 || len(read) != len(files) {
		t.Errorf("read %d of %d files, want at least 60", len(read), len(files))
	}
}

// readStatic is a file as it is written.
func readStatic(t *testing.T, name string) string {
	t.Helper()
	text, err := fs.ReadFile(static.FS, name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
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

// TestLeanSaysWhatItCannotRead: a script that cannot be joined is sent as it is, and the log
// says so, once, with its name and why.
func TestLeanSaysWhatItCannotRead(t *testing.T) {
	var log bytes.Buffer
	broken := "import { a } from './missing.js';\na();\n"
	from := fstest.MapFS{"broken.js": {Data: []byte(broken)}, "whole.js": {Data: []byte("export const a = 1;\n")}}
	f := newFiles(from, slog.New(slog.NewTextHandler(&log, nil)))
	for _, name := range []string{"/whole.js", "/broken.js", "/broken.js"} {
		w := httptest.NewRecorder()
		f.ServeHTTP(w, httptest.NewRequest(http.MethodGet, name, nil))
		if name == "/broken.js" && w.Body.String() != broken {
			t.Errorf("%s is sent as %q, want it as it is", name, w.Body)
		}
	}
	lines := strings.Split(strings.TrimSpace(log.String()), "\n")
	if len(lines) != 1 || !strings.Contains(lines[0], "level=ERROR") || !strings.Contains(lines[0], "file=broken.js") || !strings.Contains(lines[0], "missing.js") {
		t.Errorf("the log is %q, want one error that names broken.js and missing.js", lines)
	}
}
