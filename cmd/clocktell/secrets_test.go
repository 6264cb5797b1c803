package main

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"io/fs"
	"log/slog"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/coder/websocket"

	"clocktell/overlay/access"
)

// lines is a log that is written to by many.
type lines struct {
	mu   sync.Mutex // protects text
	text bytes.Buffer
}

func (l *lines) Write(p []byte) (int, error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.Write(p)
}

func (l *lines) String() string {
	l.mu.Lock()
	defer l.mu.Unlock()
	return l.text.String()
}

// TestNoSecretIsWrittenDown uses tokens rightly, wrongly and in the wrong places, and then looks
// for every one of them, and for half of each, in all that the show writes down or says: the log
// at its most talkative, the journal, the file of tokens, the metrics and what refuses say.
func TestNoSecretIsWrittenDown(t *testing.T) {
	c, err := loadConfig(keptTokens(t, ""), "test", io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	c.Journal.Dir = filepath.Join(t.TempDir(), "journal")
	var log lines
	talkative, err := newLog(&log, slog.LevelDebug.String())
	if err != nil {
		t.Fatal(err)
	}
	var said []string
	var secrets []string
	t.Run("a session", func(t *testing.T) {
		st, address := startStation(t, c, talkative)
		for _, role := range access.Roles {
			secrets = append(secrets, tokenFor(st.way.made, role))
		}
		said = useTokens(t, address, secrets)
		renewed, err := st.way.keys.Renew(access.Viewer)
		if err != nil {
			t.Fatal(err)
		}
		secrets = append(secrets, renewed.Text)
		said = append(said, refusals(t, address, "GET", "/scene/board?token="+secrets[0], "", nil))
	})
	written := map[string]string{"the log": log.String(), "what refuses said": strings.Join(said, "\n")}
	for _, dir := range []string{c.Journal.Dir, c.Access.Dir} {
		err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
			if err == nil && !entry.IsDir() {
				text, readErr := os.ReadFile(path)
				written[path], err = string(text), readErr
			}
			return err
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if len(written) < 4 || !strings.Contains(written["the log"], "page came") || !strings.Contains(written["the log"], "entry refused") || len(said) < 15 {
		t.Errorf("looks at too little: %d texts, %d refusals, log\n%s", len(written), len(said), written["the log"])
	}
	for where, text := range written {
		for _, secret := range secrets {
			if strings.Contains(text, secret[:len(secret)/2]) || strings.Contains(text, secret[len(secret)/2:]) {
				t.Errorf("%s holds a token", where)
			}
		}
	}
}

// useTokens uses the tokens of all roles in every way, and returns what was said to those refused.
func useTokens(t *testing.T, address string, tokens []string) []string {
	t.Helper()
	viewer, panel, desk, producer := tokens[0], tokens[1], tokens[2], tokens[3]
	bearer := func(token string) http.Header { return http.Header{"Authorization": {"Bearer " + token}} }
	var said []string
	ask := func(method, path, body string, head http.Header) {
		said = append(said, refusals(t, address, method, path, body, head))
	}
	for _, token := range tokens {
		for _, path := range []string{"/panel?token=" + token, "/health?token=" + token, "/metrics?token=" + token, "/" + token, "/api/actions/" + token, "/static/" + token} {
			ask("GET", path, "", nil)
		}
		ask("GET", "/metrics", "", bearer(token)) // the producer is told the figures
		ask("GET", "/metrics", "", bearer(token+"x"))
		ask("POST", "/api/access/"+token, "", bearer(producer))
		ask("POST", "/by-hand", `{"`+token+`":1}`, bearer(producer))
		ask("POST", "/by-hand", `{"id":"a","board":1,"act":"`+token+`"}`, bearer(producer))
		ask("POST", "/at-panel", `{"id":"b","who":"N","act":"take","prompt":"`+token+`"}`, bearer(panel))
		ask("POST", "/api/actions/put-line", `{"who":"N","san":"`+token+`"}`, bearer(desk))
		ask("POST", "/push/hall", "x", bearer(token))
	}
	for _, frame := range []string{`{"type":"` + panel + `"}`, `{"type":"again","board":"` + panel + `"}`, panel} {
		conn := socket(t, address, "page=panel", bearer(panel))
		_ = conn.Write(t.Context(), websocket.MessageText, []byte(frame))
		said = append(said, untilClosed(t.Context(), conn))
	}
	conn := socket(t, address, "page=scene/wall&boards="+viewer+"&token="+viewer, nil)
	said = append(said, untilClosed(t.Context(), conn))
	conn = socket(t, address, "page=scene/board&token="+viewer, nil)
	_ = conn.Close(websocket.StatusInternalError, viewer)
	return said
}

func socket(t *testing.T, address, query string, head http.Header) *websocket.Conn {
	t.Helper()
	conn, _, err := websocket.Dial(t.Context(), "ws://"+address+"/live?"+query, &websocket.DialOptions{HTTPHeader: head})
	if err != nil {
		t.Fatal(err)
	}
	return conn
}

// untilClosed returns the reason why the relay closed a socket.
func untilClosed(ctx context.Context, conn *websocket.Conn) string {
	for {
		if _, _, err := conn.Read(ctx); err != nil {
			return err.Error()
		}
	}
}

// refusals sends a request and returns all that is said, but for the cookie of who has come in.
func refusals(t *testing.T, address, method, path, body string, head http.Header) string {
	t.Helper()
	request, err := http.NewRequestWithContext(t.Context(), method, "http://"+address+path, strings.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	for name, values := range head {
		request.Header[name] = values
	}
	if body != "" {
		request.Header.Set("Content-Type", "application/json")
	}
	response, err := (&http.Transport{DisableKeepAlives: true}).RoundTrip(request)
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	text, err := io.ReadAll(response.Body)
	if err != nil {
		t.Fatal(err)
	}
	response.Header.Del("Set-Cookie")
	return fmt.Sprint(response.Status, response.Header, string(text))
}
