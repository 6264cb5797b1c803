package overlay

import (
	"net/url"
	"slices"
	"strconv"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// How many lines of the show log a page is sent.
const (
	logFirstMost = 100 // on connecting, the newest
	logFrameMost = 200 // in one frame
)

// logHeld is how far a page has come in the show log. The zero value is a page that
// has just connected.
type logHeld struct {
	begun bool
	seq   uint64 // of the last line sent
}

// logHeldBy says how far a page has come in the show log, which it may have been sent by another
// server of the same show. A page that says nothing of it has just come.
func (s *Server) logHeldBy(query url.Values) logHeld {
	seq, err := strconv.ParseUint(query.Get("log"), 10, 64)
	if err != nil || seq == 0 || query.Get("run") != s.Run {
		return logHeld{}
	}
	return logHeld{begun: true, seq: seq} // maybe of lines that this server has yet to hear of
}

// logFrames brings pages from one place in the show log to the next.
type logFrames struct {
	from, to logHeld
	total    uint64
	kept     int
	messages []message
}

// newLines returns the frames that bring a page every line it was not sent yet, oldest first. Pages
// that have come as far are sent the same frames.
func (f *frames) newLines(h *logHeld, show *relay.Show) []message {
	if made := f.log.Load(); made != nil && made.from == *h && made.total == show.Log.Total && made.kept == show.EngineKept() {
		*h = made.to
		return made.messages
	}
	made := &logFrames{from: *h, total: show.Log.Total, kept: show.EngineKept()}
	for _, lines := range h.newLines(show) {
		f.count.Add(1)
		made.messages = append(made.messages, framed(lines))
	}
	made.to = *h
	if len(made.messages) > 0 {
		f.log.Store(made)
	}
	return made.messages
}

// newLines returns the frames that bring the page every line it was not sent yet,
// oldest first.
func (h *logHeld) newLines(show *relay.Show) [][]byte {
	total := show.Log.Total
	if !h.begun {
		h.begun, h.seq = true, total-min(total, logFirstMost)
	}
	if h.seq >= total {
		return nil
	}
	var out [][]byte
	for lines := range slices.Chunk(show.Log.After(h.seq), logFrameMost) {
		out = append(out, encode(wire.Log{Type: wire.TypeLog, Items: logLines(lines, show.EngineKept())}))
	}
	h.seq = total
	return out
}

// logLines says notes in the words of the protocol. Of the board whose engine is kept
// back, 0 for none, nothing is told that the engine says, nor the kind of its alerts, which
// tells that there is only one move.
func logLines(notes []relay.Noted, kept int) []wire.LogLine {
	lines := make([]wire.LogLine, len(notes))
	for i, n := range notes {
		if n.Engine && kept != 0 && (n.Board == kept || n.Board == 0) {
			n.Text = ""
			if n.Kind == relay.NoteRaised || n.Kind == relay.NoteCleared {
				n.Is = wire.LogEngine
			}
		}
		lines[i] = wire.LogLine{
			Seq: n.Seq, At: n.At.UnixMilli(), Board: n.Board, Kind: string(n.Kind), Ply: n.Ply, Was: n.Was, Is: n.Is, Text: n.Text,
		}
	}
	return lines
}
