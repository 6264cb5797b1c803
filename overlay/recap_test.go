package overlay

import (
	"context"
	"errors"
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// TestRecapRoute: the archive comes to be saved under a name; an error comes in its place, as
// text; a server without a recap has no such address, and nobody changes anything there.
func TestRecapRoute(t *testing.T) {
	var fails error
	o := Options{Recap: func(_ context.Context, w io.Writer) error {
		if fails == nil {
			io.WriteString(w, "PK archive")
		}
		return fails
	}}
	asked := func(o Options, method string) *httptest.ResponseRecorder {
		w := httptest.NewRecorder()
		request := httptest.NewRequest(method, "/recap", nil)
		request.Host = "127.0.0.1"
		s := New(o)
		s.opened(s.doors()).ServeHTTP(w, request)
		return w
	}
	w := asked(o, http.MethodGet)
	if w.Code != http.StatusOK || w.Body.String() != "PK archive" || w.Header().Get("Content-Type") != "application/zip" ||
		!strings.Contains(w.Header().Get("Content-Disposition"), `attachment; filename="recap.zip"`) {
		t.Errorf("%d, %v: %q", w.Code, w.Header(), w.Body)
	}
	fails = errors.New("the show has no games")
	if w := asked(o, http.MethodGet); w.Code != http.StatusConflict || !strings.Contains(w.Body.String(), "no games") || w.Header().Get("Content-Disposition") != "" {
		t.Errorf("%d, %v: %q", w.Code, w.Header(), w.Body)
	}
	if w := asked(o, http.MethodPost); w.Code != http.StatusMethodNotAllowed {
		t.Errorf("POST: %d", w.Code)
	}
	if w := asked(Options{}, http.MethodGet); w.Code != http.StatusNotFound {
		t.Errorf("without a recap: %d", w.Code)
	}
}
