package static_test

import (
	"io/fs"
	"os"
	"os/exec"
	"testing"

	"clocktell/static"
)

// TestNothingNewerThanChromium103 holds every served file against open data of
// what Chromium has since when: lint/lint.mjs, whose own test is TestLint. Both
// need Node and lint's packages; without them they are skipped, but where
// CLOCKTELL_TESTS=all (as in .ci/run) they fail.
func TestNothingNewerThanChromium103(t *testing.T) {
	node := lintNode(t)
	var names []string
	err := fs.WalkDir(static.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err == nil && d.Name() == "vendor" {
			return fs.SkipDir // for the health page, and made for Chromium 103 by esbuild, see its README.txt
		}
		if err == nil && !d.IsDir() {
			names = append(names, name)
		}
		return err
	})
	if err != nil || len(names) == 0 {
		t.Fatalf("found %d served files: %v", len(names), err)
	}
	out, err := exec.Command(node, append([]string{"lint/lint.mjs"}, names...)...).CombinedOutput()
	if err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	t.Logf("%s", out)
}

// TestLint plants what is too new, and what is just old enough, and wants the
// lint to tell them apart.
func TestLint(t *testing.T) {
	out, err := exec.Command(lintNode(t), "--test", "lint/lint.test.mjs").CombinedOutput()
	if err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

// TestActionsAreDescribed holds the description of the desk's actions to the schema of
// OpenAPI 3.1.
func TestActionsAreDescribed(t *testing.T) {
	out, err := exec.Command(lintNode(t), "--test", "lint/openapi.test.mjs").CombinedOutput()
	if err != nil {
		t.Errorf("%v\n%s", err, out)
	}
}

// lintNode finds Node and checks that lint's packages are installed.
func lintNode(t *testing.T) string {
	t.Helper()
	node, err := exec.LookPath("node")
	if err == nil {
		_, err = os.Stat("lint/node_modules")
	}
	if err != nil {
		const need = "node or the packages of static/lint are missing; install node and run npm ci --prefix static/lint"
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatalf("%s: %v", need, err)
		}
		t.Skip(need)
	}
	return node
}
