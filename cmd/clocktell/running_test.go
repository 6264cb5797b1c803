package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// tool runs a program of somebody else's. Without it the test is skipped, but where
// CLOCKTELL_TESTS=all (as in .ci/run) it fails. It returns what the program said, and how
// it ended.
func tool(t *testing.T, name string, args ...string) (string, error) {
	t.Helper()
	if _, err := exec.LookPath(name); err != nil {
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatal(err)
		}
		t.Skip(err)
	}
	out, err := exec.CommandContext(t.Context(), name, args...).CombinedOutput()
	return string(out), err
}

// exposureMost is how exposed the service may be by the scale of systemd-analyze security,
// 0 to 10, times ten. Its own words for up to 2.5 are that it is fine.
const exposureMost = "15"

// TestServiceUnit: systemd itself finds the unit in order and hardened, and refuses one
// that is not. The binary of the test stands in for the one that is not installed.
func TestServiceUnit(t *testing.T) {
	text, err := os.ReadFile("../../configs/clocktell.service")
	if err != nil {
		t.Fatal(err)
	}
	self, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	installed := strings.Replace(string(text), "ExecStart=/usr/local/bin/clocktell ", "ExecStart="+self+" ", 1)
	unit := func(text string) string {
		file := filepath.Join(t.TempDir(), "clocktell.service")
		if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return file
	}
	if out, err := tool(t, "systemd-analyze", "verify", "--man=no", unit(installed)); err != nil || strings.Contains(out, "clocktell.service") {
		t.Errorf("verify: %v: %s", err, out)
	}
	if out, err := tool(t, "systemd-analyze", "security", "--offline=true", "--no-pager", "--threshold="+exposureMost, unit(installed)); err != nil {
		t.Errorf("security: %v: %s", err, out)
	}
	broken := strings.Replace(installed, "ProtectSystem=strict", "ProtectSystm=strict", 1)
	if out, _ := tool(t, "systemd-analyze", "verify", "--man=no", unit(broken)); !strings.Contains(out, "ProtectSystm") {
		t.Errorf("a word that is misspelt is not found: %s", out)
	}
	open := regexp.MustCompile(`(?m)^(Protect|Restrict|Private|SystemCall|Capability|NoNew|Dynamic|Device|Lock|Memory).*$`).ReplaceAllString(installed, "")
	if out, err := tool(t, "systemd-analyze", "security", "--offline=true", "--no-pager", "--threshold="+exposureMost, unit(open)); err == nil {
		t.Errorf("a unit without any protection is fine: %s", out)
	}
	for _, verb := range regexp.MustCompile(`ExecStart=\S+ (\w+)`).FindAllStringSubmatch(installed, -1) {
		if code, _, stderr := call(t, verb[1], "-h"); code != exitFine {
			t.Errorf("the unit starts clocktell %s: %s", verb[1], stderr)
		}
	}
}

// TestContainerFile: a linter finds nothing, and what runs in the end is a static file of a
// user who is not root. No engine has built it here.
func TestContainerFile(t *testing.T) {
	if _, err := os.Stat("../../static/lint/node_modules/dockerfile-utils"); err != nil {
		const need = "the linter is missing; run npm ci --prefix static/lint"
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatalf("%s: %v", need, err)
		}
		t.Skip(need)
	}
	out, err := tool(t, "node", "../../static/lint/container.mjs", "../../configs/Containerfile")
	if err != nil || strings.Contains(out, "fault: ") {
		t.Errorf("%v: %s", err, out)
	}
	_, last, found := strings.Cut(out, "FROM scratch\n")
	if !found || !strings.Contains(last, "USER 65532:65532\n") || !strings.Contains(last, `ENTRYPOINT ["/clocktell"]`) || strings.Contains(last, "RUN ") {
		t.Errorf("what runs in the end: %s", last)
	}
	if !strings.Contains(out, "CGO_ENABLED=0 go build -trimpath") {
		t.Errorf("the binary is not static: %s", out)
	}
	broken := filepath.Join(t.TempDir(), "Containerfile")
	if err := os.WriteFile(broken, []byte("FROM scratch\nENTRYPONT [\"/clocktell\"]\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if out, err := tool(t, "node", "../../static/lint/container.mjs", broken); err != nil || !strings.Contains(out, "fault: line 2") {
		t.Errorf("a word that is misspelt is not found: %v: %s", err, out)
	}
}
