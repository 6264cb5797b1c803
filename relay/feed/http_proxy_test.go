package feed

import (
	"context"
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"strings"
	"testing"
)

// asksAlone names the address that a process of its own asks instead of running tests:
// net/http reads the proxy of the environment once.
const asksAlone = "CLOCKTELL_TEST_ASK"

// askAlone asks address once and prints what it heard.
func askAlone(address string) {
	h, err := NewHTTP(HTTPOptions{URL: address})
	if err != nil {
		fmt.Println(err)
		return
	}
	got := &recorder{limit: 1}
	ctx, cancel := got.context(context.Background())
	defer cancel()
	h.Run(ctx, got)
	fmt.Printf("heard %q %q %q\n", got.events[0].reason, got.events[0].body, got.events[0].err)
}

// ask asks an address in a process with these variables and returns what it prints.
func ask(t *testing.T, address string, env ...string) string {
	t.Helper()
	program, err := os.Executable()
	if err != nil {
		t.Fatal(err)
	}
	c := exec.Command(program)
	c.Env = append([]string{asksAlone + "=" + address, "GOCOVERDIR=" + t.TempDir(), "GORACE=atexit_sleep_ms=0"}, env...)
	out, err := c.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return string(out)
}

// How a proxy is asked: with the whole address [RFC 9112 §3.2.2], or with CONNECT for https
// [RFC 9110 §9.3.6]. The variables are common practice.
func TestHTTPProxyFromEnvironment(t *testing.T) {
	asked := make(chan string, 9)
	proxy := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		asked <- r.Method + " " + r.RequestURI + " " + r.Header.Get("Proxy-Authorization")
		if r.Method == http.MethodConnect {
			w.WriteHeader(http.StatusForbidden)
			return
		}
		io.WriteString(w, pgn)
	}))
	defer proxy.Close()
	arena := httptest.NewServer(text("[White \"Direct\"]"))
	defer arena.Close()
	down := httptest.NewServer(nil)
	down.Close()
	withUser := strings.Replace(proxy.URL, "http://", "http://hall:hidden@", 1)

	for _, row := range []struct {
		name, address string
		env           []string
		heard, asked  string
	}{
		{"http", "http://arena.example/games.pgn", []string{"HTTP_PROXY=" + proxy.URL}, fmt.Sprintf("heard %q %q", "", pgn), "GET http://arena.example/games.pgn "},
		{"https", "https://arena.example/games.pgn", []string{"HTTPS_PROXY=" + withUser}, `heard "connect"`, "CONNECT arena.example:443 Basic aGFsbDpoaWRkZW4="},
		{"never for this machine itself", arena.URL, []string{"HTTP_PROXY=" + proxy.URL}, `heard "" "[White \"Direct\"]"`, ""},
		{"a proxy that is down", "http://arena.example/games.pgn", []string{"HTTP_PROXY=" + strings.Replace(down.URL, "http://", "http://hall:hidden@", 1)}, `heard "connect"`, ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			out := ask(t, row.address, row.env...)
			if !strings.Contains(out, row.heard) || strings.Contains(out, "hidden") {
				t.Errorf("got %s\nwant %s and no secret", out, row.heard)
			}
			got := ""
			for len(asked) > 0 {
				got += <-asked
			}
			if got != row.asked {
				t.Errorf("the proxy was asked %q, want %q", got, row.asked)
			}
		})
	}
}
