package relay

// Subscription tells a viewer that the show has changed. It holds no state and
// no backlog: a viewer that was busy finds one signal and the newest show.
type Subscription struct {
	C     <-chan struct{} // at most one signal waits; never closed
	c     chan struct{}
	relay *Relay
	at    int // in relay.subscriptions
}

// Subscribe returns a subscription that already holds one signal, so that a
// viewer starts with the state as it is.
func (r *Relay) Subscribe() *Subscription { return r.SubscribeWith(make(chan struct{}, 1)) }

// SubscribeWith is Subscribe with a channel of the caller's, who may have other things to
// signal with it. It needs room for one signal; where one waits already, that will do.
func (r *Relay) SubscribeWith(c chan struct{}) *Subscription {
	s := &Subscription{C: c, c: c, relay: r}
	s.signal()
	r.mu.Lock()
	defer r.mu.Unlock()
	s.at = len(r.subscriptions)
	r.subscriptions = append(r.subscriptions, s)
	return s
}

// Close ends the subscription; a second time it does nothing.
func (s *Subscription) Close() {
	s.relay.mu.Lock()
	defer s.relay.mu.Unlock()
	all := s.relay.subscriptions
	if s.at >= len(all) || all[s.at] != s {
		return
	}
	last := len(all) - 1
	all[s.at], all[last].at = all[last], s.at
	all[last] = nil
	s.relay.subscriptions = all[:last]
}

func (s *Subscription) signal() {
	select {
	case s.c <- struct{}{}:
	default:
	}
}
