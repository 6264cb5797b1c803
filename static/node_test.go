package static_test

import (
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestModules runs the unit tests of the pages' modules in Node. Without Node it
// is skipped, but where CLOCKTELL_TESTS=all (as in .ci/run) it fails.
func TestModules(t *testing.T) {
	node, err := exec.LookPath("node")
	if err != nil {
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatal("node is missing; install Debian's package nodejs")
		}
		t.Skip("node is missing; install it to test the pages' modules")
	}
	files, err := filepath.Glob("test/*.test.mjs")
	if err != nil || len(files) == 0 {
		t.Fatalf("no module tests found: %v", err)
	}
	out, err := exec.Command(node, append([]string{"--test"}, files...)...).CombinedOutput()
	if err != nil {
		t.Errorf("%v\n%s", err, out)
	}
	t.Logf("%s", out)
}
