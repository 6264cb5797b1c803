package access

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

// TestRenewedByTwo: a process that renews a token before it has heard of another's renewal
// does not bring back the token that the other has ended, and still tells of it.
func TestRenewedByTwo(t *testing.T) {
	dir := opened(t)
	server, made := open(t, dir)
	verb, _ := open(t, dir)
	fresh, err := verb.Renew(Desk)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := server.Renew(Viewer); err != nil {
		t.Fatal(err)
	}
	later, _ := open(t, dir)
	for name, k := range map[string]*Keys{"the server": server, "a later start": later} {
		if got := k.RoleOf(made[2].Text); got != Nobody {
			t.Errorf("%s takes the token that was ended for the %s's", name, got)
		}
		if got := k.RoleOf(fresh.Text); got != Desk {
			t.Errorf("%s takes the new token for one of %s", name, got)
		}
	}
	renewed, err := server.Refresh()
	if err != nil || fmt.Sprint(renewed) != "[desk]" {
		t.Errorf("told of %v, %v; want the desk's, whose pages must go", renewed, err)
	}
	if renewed, err := server.Refresh(); err != nil || len(renewed) > 0 {
		t.Errorf("told again of %v, %v", renewed, err)
	}
}

// TestRenewalOverADamagedFile is refused, as a start with it is.
func TestRenewalOverADamagedFile(t *testing.T) {
	dir := opened(t)
	k, made := open(t, dir)
	file := filepath.Join(dir, FileName)
	if err := os.WriteFile(file, []byte("{}"), fileMode); err != nil {
		t.Fatal(err)
	}
	if _, err := k.Renew(Panel); err == nil || k.RoleOf(made[1].Text) != Panel {
		t.Errorf("err = %v, and the old token is one of %s", err, k.RoleOf(made[1].Text))
	}
	if text, err := os.ReadFile(file); err != nil || string(text) != "{}" {
		t.Errorf("the file is written over: %q, %v", text, err)
	}
}
