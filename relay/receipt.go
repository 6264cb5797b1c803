package relay

import "time"

// Receipt is when a packet came, and how long before it the feed was last heard.
type Receipt struct {
	At     time.Time
	Within time.Duration
	Late   time.Duration // how long after a move its feed usually tells of it, as learnt; 0: not known
}

// unknownWithin says that a ply may have been played at any time before.
const unknownWithin = 24 * time.Hour

// sureWithin is how exactly a receipt must tell when a ply was played, for the
// running clock and for times spent to be taken from it.
const sureWithin = 5 * time.Second

// Sure reports that the receipt of the ply tells when it was played.
func (p *Ply) Sure() bool { return p.Within <= sureWithin }
