package overlay

import (
	"net/http"
	"time"

	"clocktell/relay"
)

// pushWait is how long a push and its answer may take together: a feed may give its body ten
// minutes, and the show as long to take it.
const pushWait = 21 * time.Minute

// pushed hands what is pushed to /push/NAME to the feed of that name, which checks its own
// token. People make these up, so an address that shows too many wrong ones is not heard for
// a while, whatever it shows; wrong tokens of pages do not count here.
func (s *Server) pushed(w http.ResponseWriter, r *http.Request) {
	feed, ok := s.Push[r.PathValue("feed")]
	if !ok {
		text := "no feed of this name takes what is pushed; set push = true for it in the configuration"
		if s.Relay.Show().Bus.Role == relay.BusFollows {
			text = "an edge takes nothing that is pushed; push to the process that leads the show"
		}
		http.Error(w, text, http.StatusNotFound)
		return
	}
	if err := s.origins.Check(r); err != nil {
		http.Error(w, "this request comes from a page of another address", http.StatusForbidden)
		return
	}
	if wait := s.failedPush.Wait(r.RemoteAddr); wait > 0 {
		refused := tooOften(wait)
		refused.headers(w.Header())
		http.Error(w, "too many wrong tokens from your address; wait, and look at what token_env holds", refused.status)
		return
	}
	_ = http.NewResponseController(w).SetWriteDeadline(s.Now().Add(pushWait))
	told := &statusSeen{ResponseWriter: w}
	feed.ServeHTTP(told, r)
	if told.status == http.StatusUnauthorized {
		s.failedPush.Note(r.RemoteAddr)
	}
}

// statusSeen remembers the status that a handler answers with.
type statusSeen struct {
	http.ResponseWriter
	status int
}

func (s *statusSeen) WriteHeader(status int) {
	s.status = status
	s.ResponseWriter.WriteHeader(status)
}

// Unwrap lets the handler set deadlines (http.ResponseController).
func (s *statusSeen) Unwrap() http.ResponseWriter { return s.ResponseWriter }
