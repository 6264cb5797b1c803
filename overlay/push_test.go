package overlay

import (
	"io"
	"net/http"
	"strings"
	"testing"
)

// TestPush: what is pushed reaches the handler of its feed as it came, and nothing
// else.
func TestPush(t *testing.T) {
	var got []string
	withPush := func(_ *hall, o *Options) {
		o.Push = map[string]http.Handler{"desk": http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
			body, _ := io.ReadAll(r.Body)
			got = append(got, r.Method+" "+r.Header.Get("Authorization")+" "+string(body))
			w.WriteHeader(http.StatusAccepted)
		})}
	}
	inHallOf(t, withPush, func(t *testing.T, h *hall) {
		for _, test := range []struct {
			method, path, origin string
			status               int
			says                 string
		}{
			{"PUT", "/push/desk", "", 202, ""},
			{"POST", "/push/desk", "", 202, ""},
			{"POST", "/push/desk", "https://elsewhere.example", 403, "another address"},
			{"GET", "/push/desk", "", 405, ""},
			{"PUT", "/push/hall", "", 404, "push = true"},
			{"PUT", "/push/", "", 404, ""},
			{"PUT", "/push/desk/more", "", 404, ""},
		} {
			request, err := http.NewRequest(test.method, "http://127.0.0.1:8600"+test.path, strings.NewReader("1. e4"))
			if err != nil {
				t.Fatal(err)
			}
			request.Header.Set("Authorization", "Bearer t")
			if test.origin != "" {
				request.Header.Set("Origin", test.origin)
			}
			response, err := h.client.Do(request)
			if err != nil {
				t.Fatal(err)
			}
			body, _ := io.ReadAll(response.Body)
			response.Body.Close()
			if response.StatusCode != test.status || !strings.Contains(string(body), test.says) {
				t.Errorf("%s %s from %q: %d %q, want %d %q", test.method, test.path, test.origin, response.StatusCode, body, test.status, test.says)
			}
		}
	})
	if want := "PUT Bearer t 1. e4,POST Bearer t 1. e4"; strings.Join(got, ",") != want {
		t.Errorf("the handler got %q, want %s", got, want)
	}
}
