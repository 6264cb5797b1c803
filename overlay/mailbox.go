package overlay

import "sync"

// request is what a page wants to hear: a pong, the whole of a board, or who sits at the
// panels now that it has named itself.
type request struct {
	pong  []byte // as pongBegun makes it
	who   bool
	again int
}

// mailbox is all that waits for a page. Of the show that is one signal, for the newest state
// takes the place of all before it; what the page has asked for is answered in order; and
// its end, once that has come.
type mailbox struct {
	wake chan struct{} // at most one signal waits; never closed

	mu    sync.Mutex // protects following
	asked []request  // requestsMost at most
	anew  bool       // more boards were asked for than that: the page is sent all of them again
	over  error      // why the page has to go; nil: it has not
}

func newMailbox() *mailbox { return &mailbox{wake: make(chan struct{}, 1)} }

func (m *mailbox) signal() {
	select {
	case m.wake <- struct{}{}:
	default:
	}
}

// ask queues a request; past the limit a page that floods is not answered. A board that it
// lacks it gets all the same, for it asks once only.
func (m *mailbox) ask(r request) {
	m.mu.Lock()
	switch {
	case len(m.asked) < requestsMost:
		m.asked = append(m.asked, r)
	case r.again != 0:
		m.anew = true
	}
	m.mu.Unlock()
	m.signal()
}

// end has the page go; the first reason counts.
func (m *mailbox) end(why error) {
	m.mu.Lock()
	if m.over == nil {
		m.over = why
	}
	m.mu.Unlock()
	m.signal()
}

// ended reports that the page has to go.
func (m *mailbox) ended() bool {
	m.mu.Lock()
	defer m.mu.Unlock()
	return m.over != nil
}

// take appends what the page has asked for to a slice and forgets it; anew is for all boards
// again. The error is the page's end.
func (m *mailbox) take(into []request) (requests []request, anew bool, over error) {
	m.mu.Lock()
	defer m.mu.Unlock()
	requests, anew = append(into, m.asked...), m.anew
	clear(m.asked)
	m.asked, m.anew = m.asked[:0], false
	return requests, anew, m.over
}
