package feed

import (
	"crypto/sha256"
	"crypto/subtle"
	"fmt"
	"net"
	"net/http"
	"strconv"
	"strings"
	"sync"
	"time"
)

// What Retry-After says in seconds: a show starts within some, and a busy one has
// taken what waits within one.
const (
	retryNotRunning = 5
	retryBusy       = 1
)

// refusal is why a push is not taken.
type refusal struct {
	status int
	text   string // for whoever pushes
	reason Reason // of the fault; "": none, the feed is not to blame
	header [2]string
}

// ServeHTTP takes one push, and answers 204 once the Sink has taken it; after any other
// answer it may be pushed again. Any number of requests may come at once; what is
// taken last stays.
func (p *Push) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	start, show := time.Now(), p.show.Load()
	// The server reads on after a refusal, so that the time limit is not for us alone.
	// A server that cannot set one has to have its own.
	_ = http.NewResponseController(w).SetReadDeadline(start.Add(p.o.Timeout))
	refused := p.serve(w, r, show, start)
	if refused == nil {
		w.WriteHeader(http.StatusNoContent)
		return
	}
	if refused.reason != "" {
		p.report(show, refused.reason, time.Since(start), fmt.Errorf("a push from %s was answered %d: %s", sender(r), refused.status, refused.text))
	}
	if refused.header[0] != "" {
		w.Header().Set(refused.header[0], refused.header[1])
	}
	http.Error(w, refused.text, refused.status)
}

func (p *Push) serve(w http.ResponseWriter, r *http.Request, show *taking, start time.Time) *refusal {
	if r.Method != http.MethodPut && r.Method != http.MethodPost {
		return &refusal{status: http.StatusMethodNotAllowed, text: "push the whole PGN with PUT or POST", header: [2]string{"Allow", "POST, PUT"}}
	}
	if refused := p.authorize(r); refused != nil {
		return refused
	}
	if show == nil {
		return notRunning()
	}
	select {
	case p.waiting <- struct{}{}:
		defer func() { <-p.waiting }()
	default:
		return busy()
	}
	body, refused := p.read(w, r)
	if refused != nil {
		return refused
	}
	_ = http.NewResponseController(w).SetReadDeadline(time.Time{}) // or r's context ends with it
	return p.hand(r, show, body, start)
}

// authorize compares the token in a time that tells nothing of it. What it says to one
// without a token is RFC 6750 §3's.
func (p *Push) authorize(r *http.Request) *refusal {
	refused := &refusal{status: http.StatusUnauthorized, reason: ReasonRefused, text: "no token; send it as Authorization: Bearer TOKEN", header: [2]string{"WWW-Authenticate", "Bearer"}}
	scheme, token, _ := strings.Cut(r.Header.Get("Authorization"), " ")
	if !strings.EqualFold(scheme, "Bearer") {
		return refused
	}
	sum := sha256.Sum256([]byte(strings.TrimLeft(token, " ")))
	if subtle.ConstantTimeCompare(sum[:], p.token[:]) == 1 {
		return nil
	}
	refused.text = "not the token this feed was given"
	refused.header[1] = `Bearer error="invalid_token"`
	return refused
}

// hand hands body to Run and waits for what becomes of it.
func (p *Push) hand(r *http.Request, show *taking, body []byte, start time.Time) *refusal {
	result := make(chan error, 1)
	b := pushed{body: body, at: p.o.Now(), took: time.Since(start), result: result}
	late := time.NewTimer(p.o.Timeout)
	defer late.Stop()
	for pushes := show.pushes; ; {
		select {
		case pushes <- b:
			pushes = nil // taken, and now for the result
		case err := <-result:
			if err != nil { // reported by Run
				return &refusal{status: http.StatusBadRequest, text: err.Error() + "; push the whole PGN as the body"}
			}
			return nil
		case <-show.over:
			return notRunning()
		case <-late.C:
			return busy()
		case <-r.Context().Done():
			return busy() // whoever pushed has gone
		}
	}
}

func notRunning() *refusal {
	return &refusal{status: http.StatusServiceUnavailable, text: "the show is not running", header: retryIn(retryNotRunning)}
}

func busy() *refusal {
	return &refusal{status: http.StatusServiceUnavailable, text: "the show is busy; push again", header: retryIn(retryBusy)}
}

func retryIn(seconds int) [2]string { return [2]string{"Retry-After", strconv.Itoa(seconds)} }

// sender is the other end's address, without the port, which changes each time.
func sender(r *http.Request) string {
	host, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		return "an unknown address"
	}
	return host
}

// report tells the show of a fault, unless the same was told less than a second ago.
func (p *Push) report(show *taking, reason Reason, took time.Duration, err error) {
	at := p.o.Now()
	if show == nil || !p.held.pass(reason, at) {
		return
	}
	select {
	case show.faults <- Fault{At: at, Took: took, Reason: reason, Err: fmt.Errorf("feed %s: %w", p.o.Name, err)}:
	default: // the show is busy, and has enough of them waiting
	}
}

// heldBack remembers when each reason was reported last.
type heldBack struct {
	mu   sync.Mutex
	said map[Reason]time.Time
}

// pass tells whether reason may be reported at now, and notes that it is.
func (h *heldBack) pass(reason Reason, now time.Time) bool {
	h.mu.Lock()
	defer h.mu.Unlock()
	if said, found := h.said[reason]; found && now.Sub(said) < sayEvery {
		return false
	}
	if h.said == nil {
		h.said = map[Reason]time.Time{}
	}
	h.said[reason] = now
	return true
}

// release lets the next fault after a good push be reported at once, but for wrong
// tokens: they need not come from whoever pushes well.
func (h *heldBack) release() {
	h.mu.Lock()
	defer h.mu.Unlock()
	for reason := range h.said {
		if reason != ReasonRefused {
			delete(h.said, reason)
		}
	}
}
