package relay

// Subscription tells a viewer that the show has changed. It holds no state and
// no backlog: a viewer that was busy finds one signal and the newest show.
type Subscription struct {
	C     <-chan struct{} // at most one signal waits; never closed
	c     chan struct{}
	relay *Relay
}

// Close ends the subscription.
func (s *Subscription) Close() {
	s.relay.mu.Lock()
	defer s.relay.mu.Unlock()
	delete(s.relay.subscriptions, s)
}

func (s *Subscription) signal() {
	select {
	case s.c <- struct{}{}:
	default:
	}
}
