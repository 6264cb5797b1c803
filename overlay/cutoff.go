package overlay

import "time"

// cutOffRetry is when a page that was refused may try again.
const cutOffRetry = 2 * time.Second

// cutOff reports that pages of a kind must not be shown what this relay has, because it does
// not hear what happens. They do then what they do whenever their line is lost: clocks are
// held. The health page stays, and tells the producer.
func (s *Server) cutOff(kind pageKind) bool {
	return s.Relay.Show().Bus.CutOff() && !kind.feeds
}
