package main

// edgeSample is what one edge costs at one time.
type edgeSample struct {
	usage
	busDown, busUp, busMessages uint64 // bytes from and to the bus, and messages from it
}

// done is what the crowd has been sent, and sent, up to one time.
type done struct {
	moves                                int
	frames, bytes, wire                  uint64
	boards, boardBytes, boardWire, pongs uint64
}

// readEdges adds to a sample what the edges cost.
func (c *crowd) readEdges(s *sample) error {
	for _, e := range c.fleet {
		u, err := e.uses()
		if err != nil {
			return err
		}
		is := edgeSample{usage: u}
		if e.link != nil {
			is.busDown, is.busUp, is.busMessages = e.link.down.Load(), e.link.up.Load(), e.link.messages.Load()
		}
		s.edges = append(s.edges, is)
	}
	return nil
}

func (c *crowd) done() done {
	sum := c.tally.sum
	return done{
		moves: c.arena.moves(), frames: sum(func(n *counts) uint64 { return n.frames.Load() }),
		bytes: sum(func(n *counts) uint64 { return n.bytes.Load() }), wire: sum(func(n *counts) uint64 { return n.wire.Load() }),
		boards: sum(func(n *counts) uint64 { return n.boards.Load() }), boardBytes: sum(func(n *counts) uint64 { return n.boardBytes.Load() }),
		boardWire: sum(func(n *counts) uint64 { return n.boardWire.Load() }), pongs: sum(func(n *counts) uint64 { return n.pongs.Load() }),
	}
}

// What a frame takes on a network of its own: bytes of Ethernet (IEEE 802.3, without preamble and
// gap), IPv4 (RFC 791) and TCP with time stamps (RFC 9293, RFC 7323) for each segment, and of a
// TLS 1.3 record (RFC 8446, 5.2: head, type and tag), since pages beyond a house come by wss.
const (
	segmentHead = 14 + 4 + 20 + 20 + 12
	segmentMost = 1500 - 20 - 20 - 12
	recordHead  = 5 + 1 + 16
)

// onWire is how many bytes a payload takes on a network if nothing shares its segments.
func onWire(payload int) int {
	head := 2 // RFC 6455, 5.2
	switch {
	case payload > 0xffff:
		head += 8
	case payload > 125:
		head += 2
	}
	n := payload + head + recordHead
	return n + (n+segmentMost-1)/segmentMost*segmentHead
}
