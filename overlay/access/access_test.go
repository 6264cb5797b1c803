package access

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// clock is a time that a test sets.
type clock struct{ at time.Time }

func newClock() *clock { return &clock{time.Date(2030, 5, 4, 12, 0, 0, 0, time.UTC)} }

func (c *clock) now() time.Time { return c.at }

func opened(t *testing.T) string { return filepath.Join(t.TempDir(), "state") }

func open(t *testing.T, dir string) (*Keys, []Token) {
	t.Helper()
	k, made, err := Open(dir, newClock().now)
	if err != nil {
		t.Fatal(err)
	}
	return k, made
}

// TestTokensAreKeptHashed: made once, known again after a restart, and nothing of them in
// the folder but their hashes, for the owner alone.
func TestTokensAreKeptHashed(t *testing.T) {
	dir := opened(t)
	_, made := open(t, dir)
	again, none := open(t, dir)
	if len(made) != len(Roles) || len(none) != 0 {
		t.Fatalf("made %d tokens at first and %d then, want %d and none", len(made), len(none), len(Roles))
	}
	text, err := os.ReadFile(filepath.Join(dir, FileName))
	if err != nil {
		t.Fatal(err)
	}
	for i, token := range made {
		if got := again.RoleOf(token.Text); got != Roles[i] || token.Role != got {
			t.Errorf("the token of %v is one of %v after a restart", token.Role, got)
		}
		if bytes.Contains(text, []byte(token.Text)) {
			t.Errorf("the file holds the token of %v", token.Role)
		}
		// A letter of base 32 carries 5 bits (RFC 4648, 6).
		if bits := 5 * len(token.Text); bits < 128 || strings.Trim(token.Text, "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567") != "" {
			t.Errorf("%d letters of base 32 are %d bits, want 128 or more", len(token.Text), bits)
		}
	}
	for name, want := range map[string]fs.FileMode{dir: dirMode, filepath.Join(dir, FileName): fileMode} {
		if info, err := os.Stat(name); err != nil || info.Mode().Perm() != want {
			t.Errorf("%s: %v %v, want mode %v", name, info.Mode(), err, want)
		}
	}
	if left, err := filepath.Glob(filepath.Join(dir, "*")); err != nil || len(left) != 1 {
		t.Errorf("the folder holds %v (%v), want one file", left, err)
	}
	for _, wrong := range []string{"", "x", made[0].Text[1:], made[0].Text + "A", strings.ToLower(made[3].Text)} {
		if got := again.RoleOf(wrong); got != Nobody {
			t.Errorf("%q is taken for a token of %v", wrong, got)
		}
	}
}

// TestRenewed: the old token is worth nothing, the others stay, and another process that
// has the file open hears of it.
func TestRenewed(t *testing.T) {
	dir := opened(t)
	server, made := open(t, dir)
	verb, _ := open(t, dir)
	fresh, err := verb.Renew(Panel)
	if err != nil {
		t.Fatal(err)
	}
	if got := server.RoleOf(made[1].Text); got != Panel {
		t.Fatalf("before it looked, the server takes the old token for one of %v", got)
	}
	renewed, err := server.Refresh()
	if err != nil || fmt.Sprint(renewed) != "[panel]" {
		t.Fatalf("renewed %v, %v; want the panel's", renewed, err)
	}
	for token, want := range map[string]Role{made[1].Text: Nobody, fresh.Text: Panel, made[0].Text: Viewer, made[2].Text: Desk, made[3].Text: Producer} {
		if got := server.RoleOf(token); got != want {
			t.Errorf("a token of %v, want %v", got, want)
		}
	}
	if renewed, err := server.Refresh(); err != nil || len(renewed) > 0 {
		t.Errorf("renewed again: %v, %v", renewed, err)
	}
}

// TestRenewalThatCannotBeWritten keeps what is valid valid.
func TestRenewalThatCannotBeWritten(t *testing.T) {
	dir := opened(t)
	k, made := open(t, dir)
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	if _, err := k.Renew(Viewer); !errors.Is(err, fs.ErrNotExist) || strings.Contains(err.Error(), made[0].Text) {
		t.Errorf("err = %v, want one that names the folder and no token", err)
	}
	if k.RoleOf(made[0].Text) != Viewer || k.Viewers() != made[0].Text {
		t.Error("the old token is gone")
	}
}

// TestViewersTokenIsLearnt: it is known in clear only once it has been made or used here.
func TestViewersTokenIsLearnt(t *testing.T) {
	dir := opened(t)
	first, made := open(t, dir)
	if first.Viewers() != made[0].Text {
		t.Error("whoever made it does not know it")
	}
	again, _ := open(t, dir)
	for _, token := range made[1:] {
		again.RoleOf(token.Text)
	}
	if got := again.Viewers(); got != "" {
		t.Errorf("knows %q after a restart", got)
	}
	again.RoleOf(made[0].Text)
	if again.Viewers() != made[0].Text {
		t.Error("not learnt from a scene that used it")
	}
	if _, err := first.Renew(Viewer); err != nil {
		t.Fatal(err)
	}
	if _, err := again.Refresh(); err != nil || again.Viewers() != "" {
		t.Errorf("still hands out a token that has been renewed (%v)", err)
	}
}

// TestFilesRefused: an error that says what to do, and no new tokens instead.
func TestFilesRefused(t *testing.T) {
	for name, test := range map[string]struct {
		text string
		mode fs.FileMode
		want string
	}{
		"readable by all": {"{}", 0o644, "chmod 600"},
		"no JSON":         {"tokens", 0o600, "not JSON; delete it"},
		"another version": {`{"version":2}`, 0o600, "version 2, not 1"},
		"a role missing":  {`{"version":1,"tokens":{}}`, 0o600, "no hash of the viewer's token"},
		"a short hash":    {`{"version":1,"tokens":{"viewer":{"sha256":"00"}}}`, 0o600, "no hash of the viewer's"},
		"too large":       {strings.Repeat(" ", fileMost+1), 0o600, "no file of tokens"},
	} {
		dir := t.TempDir()
		if err := os.WriteFile(filepath.Join(dir, FileName), []byte(test.text), test.mode); err != nil {
			t.Fatal(err)
		}
		if _, _, err := Open(dir, newClock().now); err == nil || !strings.Contains(err.Error(), test.want) || !strings.Contains(err.Error(), dir) {
			t.Errorf("%s: %v, want %q and the file", name, err, test.want)
		}
	}
}

func TestRolesIncludeThoseBelow(t *testing.T) {
	for i, role := range Roles {
		for j, needed := range Roles {
			if got := role.May(needed); got != (i >= j) {
				t.Errorf("%v may what %v may: %v", role, needed, got)
			}
		}
		if parsed, err := ParseRole(role.String()); err != nil || parsed != role || Nobody.May(role) {
			t.Errorf("%v is read as %v, %v", role, parsed, err)
		}
	}
	if _, err := ParseRole("nobody"); err == nil {
		t.Error("nobody has a token")
	}
}

// TestComparedInConstantTime holds the function that looks a token up to
// subtle.ConstantTimeCompare on hashes. Time itself is not measured: such a test would
// prove nothing.
func TestComparedInConstantTime(t *testing.T) {
	text, err := os.ReadFile("keys.go")
	if err != nil {
		t.Fatal(err)
	}
	_, body, found := strings.Cut(string(text), "func (k *Keys) RoleOf(")
	body, _, ends := strings.Cut(body, "\n}\n")
	if !found || !ends || strings.Count(body, "subtle.ConstantTimeCompare(hash[:], kept.hash[:])") != 1 || strings.Contains(body, "shown ==") || strings.Contains(body, "break") {
		t.Errorf("RoleOf compares otherwise:\n%s", body)
	}
}

func TestRedact(t *testing.T) {
	_, made := New(newClock().now)
	for _, token := range made {
		for _, part := range []string{token.Text, token.Text[:len(token.Text)/2]} {
			if got := Redact("x " + part + "\""); got != "x [a token]\"" {
				t.Errorf("%s is logged as %s", part, got)
			}
		}
	}
	if plain := "EOF while reading, board1-game1-TIME_TROUBLE, 127.0.0.1:8600"; Redact(plain) != plain {
		t.Errorf("%s is logged as %s", plain, Redact(plain))
	}
}

// TestHolds finds a token that is valid anywhere in a text, and no other.
func TestHolds(t *testing.T) {
	k, made := New(newClock().now)
	for text, want := range map[string]bool{
		made[1].Text: true, "x?token=" + made[0].Text + "&y": true, "AAAA" + made[2].Text + "BBBB": true,
		made[1].Text[1:]: false, strings.Repeat("A", 64): false, "": false, "Nf3": false,
	} {
		if got := k.Holds([]byte(text)); got != want {
			t.Errorf("%q: %v", text, got)
		}
	}
}

// TestRenewedByRoot: the relay's user can still read what root has renewed.
func TestRenewedByRoot(t *testing.T) {
	if os.Geteuid() != 0 {
		t.Skip("only root can give files away")
	}
	const relay = 65532
	dir := t.TempDir()
	if err := os.Chown(dir, relay, relay); err != nil {
		t.Fatal(err)
	}
	k, _ := open(t, dir)
	for range 2 { // when the folder is all there is, and when there is a file
		info, err := os.Stat(filepath.Join(dir, FileName))
		if err != nil {
			t.Fatal(err)
		}
		if owner := info.Sys().(*syscall.Stat_t); owner.Uid != relay || owner.Gid != relay || info.Mode().Perm() != fileMode {
			t.Errorf("the file is of %d and %d, mode %v", owner.Uid, owner.Gid, info.Mode())
		}
		if _, err := k.Renew(Panel); err != nil {
			t.Fatal(err)
		}
	}
}
