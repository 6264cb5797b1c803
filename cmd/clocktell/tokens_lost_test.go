package main

import "testing"

// TestTokensAreNotLost: where a link could not be written, no token is made or renewed, since
// it would be shown to nobody.
func TestTokensAreNotLost(t *testing.T) {
	file := keptTokens(t, "")
	const wrong = "8600" // no host
	if code, out, _ := call(t, "tokens", "--config", file, "--listen", wrong); code != exitFailed || out != "" {
		t.Errorf("exit %d: %s", code, out)
	}
	_, first, _ := call(t, "tokens", "--config", file)
	if got := len(tokenIn.FindAllString(first, -1)); got != 5 { // the viewers' twice
		t.Errorf("after a call that failed %d tokens are shown, want all of them:\n%s", got, first)
	}
	c, err := loadConfig(file, "test", t.Output())
	if err != nil {
		t.Fatal(err)
	}
	before, err := openEntrance(c)
	if err != nil {
		t.Fatal(err)
	}
	if code, _, _ := call(t, "tokens", "--config", file, "--listen", wrong, "--renew", "all"); code != exitFailed {
		t.Errorf("exit %d", code)
	}
	if roles, err := before.keys.Refresh(); err != nil || len(roles) > 0 {
		t.Errorf("renewed for nobody: %v, %v", roles, err)
	}
}
