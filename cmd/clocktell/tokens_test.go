package main

import (
	"bytes"
	"fmt"
	"net"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"rsc.io/qr"

	"clocktell/overlay/access"
	"clocktell/relay/config"
)

// keptTokens is a configuration whose tokens are kept in a folder of the test.
func keptTokens(t *testing.T, more string) string {
	t.Helper()
	games := write(t, "games.pgn", "[White \"A\"]\n[Black \"B\"]\n\n1. e4 *\n")
	return write(t, "show.toml", fmt.Sprintf("[server]\n%s\n[access]\ndir = '%s'\n[[feed]]\nname = \"hall\"\nfile = '%s'\n", more, filepath.Join(t.TempDir(), "state"), games))
}

var tokenIn = regexp.MustCompile(`token=([A-Z2-7]{32})`)

// TestTokensVerb: made once and shown once; renewed, a new one is shown and the others stay.
func TestTokensVerb(t *testing.T) {
	file := keptTokens(t, `listen = "192.0.2.7:8600"`)
	withSecret, err := os.OpenFile(file, os.O_APPEND|os.O_WRONLY, 0)
	if err != nil {
		t.Fatal(err)
	}
	fmt.Fprintln(withSecret, `token_env = "ONLY_THE_SERVICE_HAS_THIS"`)
	withSecret.Close()
	code, first, stderr := call(t, "tokens", "--config", file)
	if code != 0 {
		t.Fatal(stderr)
	}
	for _, want := range []string{
		"viewer   http://192.0.2.7:8600/scene/board?token=", "panel    http://192.0.2.7:8600/panel?token=",
		"desk     http://192.0.2.7:8600/desk?token=", "producer http://192.0.2.7:8600/health?token=",
	} {
		if !strings.Contains(first, want) {
			t.Errorf("no %q in\n%s", want, first)
		}
	}
	if _, again, _ := call(t, "tokens", "--config", file); tokenIn.MatchString(again) || strings.Count(again, "its link was shown then") != 4 {
		t.Errorf("shown a second time:\n%s", again)
	}
	_, renewed, _ := call(t, "tokens", "--config", file, "--renew", "panel", "--listen", "relay.example:80")
	if found := tokenIn.FindAllString(renewed, -1); len(found) != 1 || strings.Contains(first, found[0]) || !strings.Contains(renewed, "http://relay.example:80/panel?"+found[0]) {
		t.Errorf("renewed:\n%s", renewed)
	}
	if _, all, _ := call(t, "tokens", "--config", file, "--renew", "all"); len(tokenIn.FindAllString(all, -1)) != 5 { // the viewers' twice
		t.Errorf("all renewed:\n%s", all)
	}
}

func TestTokensVerbRefuses(t *testing.T) {
	none := write(t, "show.toml", "[[feed]]\nname = \"hall\"\nfile = \"x\"\n")
	for _, test := range []struct {
		args []string
		code int
		want string
	}{
		{[]string{"tokens"}, 2, "needs --config"},
		{[]string{"tokens", "--config", none}, 1, "access.dir"},
		{[]string{"tokens", "--config", none, "--renew", "nobody"}, 2, "the roles are [viewer panel desk producer], or all"},
		{[]string{"tokens", "--config", keptTokens(t, ""), "--listen", "8600"}, 1, "not host:port"},
	} {
		if code, _, stderr := call(t, test.args...); code != test.code || !strings.Contains(stderr, test.want) {
			t.Errorf("%v: exit %d, %s", test.args, code, stderr)
		}
	}
}

// TestServeRefusesOpenAddress: others reach it, and nobody is asked who they are.
func TestServeRefusesOpenAddress(t *testing.T) {
	file := write(t, "show.toml", "[server]\nlisten = \"0.0.0.0:0\"\n[[feed]]\nname = \"hall\"\nfile = \"x\"\n")
	code, stdout, stderr := call(t, "serve", "--config", file)
	if code != 1 || stdout != "" || !strings.Contains(stderr, "no tokens are on") || !strings.Contains(stderr, "set access.dir") {
		t.Errorf("exit %d\n%s%s", code, stdout, stderr)
	}
}

// TestWrongPairOfTLS: a key of another certificate, or none at all, is told with both keys of
// the configuration.
func TestWrongPairOfTLS(t *testing.T) {
	cert, _ := certificate(t)
	_, other := certificate(t)
	for name, key := range map[string]string{"of another": other, "missing": filepath.Join(t.TempDir(), "none.pem"), "no key": cert} {
		file := keptTokens(t, fmt.Sprintf("listen = \"127.0.0.1:0\"\ntls_cert = '%s'\ntls_key = '%s'", cert, key))
		code, _, stderr := call(t, "serve", "--config", file)
		if code != 1 || !strings.Contains(stderr, "server.tls_cert and tls_key: ") || !strings.Contains(stderr, "its own key") {
			t.Errorf("%s: exit %d, %s", name, code, stderr)
		}
	}
}

// TestLinksHoldTheirTokens: of this run's tokens each link has its role's; of tokens that are
// kept nothing stands where a log may keep it.
func TestLinksHoldTheirTokens(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	c := config.Default()
	c.Access.ThisRun = true
	e, err := openEntrance(c)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	e.printLinks(&out, l)
	for _, link := range links {
		want := "http://" + l.Addr().String() + link.path + "?token=" + url.QueryEscape(tokenFor(e.made, link.role))
		if !strings.Contains(out.String(), want+" ") {
			t.Errorf("no %s in\n%s", want, out.String())
		}
	}
	e.kept = true
	out.Reset()
	if e.printLinks(&out, l); tokenIn.MatchString(out.String()) || !strings.Contains(out.String(), "shown on a terminal only") {
		t.Errorf("tokens go where no person reads:\n%s", out.String())
	}
	e.made = nil
	out.Reset()
	if e.printLinks(&out, l); !strings.Contains(out.String(), "tokens are on") {
		t.Errorf("a second start does not say so:\n%s", out.String())
	}
	out.Reset()
	if (entrance{}).printLinks(&out, l); strings.Contains(out.String(), "token") {
		t.Errorf("without tokens they are spoken of:\n%s", out.String())
	}
}

// TestHalfBlocks reads the drawing back, module by module, and finds the code's three eyes
// with their light edges (ISO/IEC 18004, 5.3.2 and 5.3.3) and the quiet zone (5.3.8).
func TestHalfBlocks(t *testing.T) {
	_, made := access.New(time.Now)
	code, err := qr.Encode("http://192.0.2.7:8600/panel?token="+made[1].Text, qr.L)
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]bool
	for _, line := range halfBlocks(code.Size, code.Black) {
		var upper, lower []bool
		for _, r := range line {
			upper, lower = append(upper, r == '█' || r == '▀'), append(lower, r == '█' || r == '▄')
		}
		rows = append(rows, upper, lower)
	}
	side := code.Size + 2*quietZone
	if len(rows) < side || len(rows[0]) != side {
		t.Fatalf("%d x %d modules, want %d each way", len(rows[0]), len(rows), side)
	}
	for y := range side {
		for x := range side {
			inside := x >= quietZone && y >= quietZone && x < side-quietZone && y < side-quietZone
			if want := inside && code.Black(x-quietZone, y-quietZone); rows[y][x] != want {
				t.Fatalf("module %d, %d is %v", x, y, rows[y][x])
			}
		}
	}
	for _, corner := range [][2]int{{0, 0}, {code.Size - 7, 0}, {0, code.Size - 7}} {
		for y := range 7 {
			for x := range 7 {
				ring := min(x, y, 6-x, 6-y) // 0 dark, 1 light, 2 and 3 dark
				if rows[y+corner[1]+quietZone][x+corner[0]+quietZone] != (ring != 1) {
					t.Errorf("the eye at %v is wrong at %d, %d", corner, x, y)
				}
			}
		}
	}
}

// TestTokensFileIsTheOwners: what serve leaves behind is for nobody else.
func TestTokensFileIsTheOwners(t *testing.T) {
	c := config.Default()
	c.Access.Dir = filepath.Join(t.TempDir(), "state")
	if _, err := openEntrance(c); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(filepath.Join(c.Access.Dir, access.FileName))
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("%v, %v", info.Mode(), err)
	}
}
