package metrics

import (
	"net/http"
	"net/http/httptest"
	"sync"
	"testing"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// TestScrapesAreBounded: while as many scrapes are under way as may be, a further one is
// turned away at once, and afterwards all is well.
func TestScrapesAreBounded(t *testing.T) {
	s := relaytest.NewStage()
	m := newMetrics(relay.New(s.Show, relay.NewTimebase(1)))
	started, finish := make(chan struct{}), make(chan struct{})
	pages := m.Pages
	m.Pages = func() Pages {
		started <- struct{}{}
		<-finish
		return pages()
	}
	handler := m.Handler()
	status := func() int {
		w := httptest.NewRecorder()
		handler.ServeHTTP(w, httptest.NewRequest("GET", "/metrics", nil))
		return w.Code
	}
	var group sync.WaitGroup
	for range scrapesMost {
		group.Go(func() {
			if got := status(); got != http.StatusOK {
				t.Errorf("status %d", got)
			}
		})
		<-started
	}
	if got := status(); got != http.StatusServiceUnavailable {
		t.Errorf("one more: status %d, want 503", got)
	}
	close(finish)
	group.Wait()
	m.Pages = pages
	if got := status(); got != http.StatusOK {
		t.Errorf("afterwards: status %d", got)
	}
}
