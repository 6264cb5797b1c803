package cue

import (
	"fmt"
	"strings"
)

// Limits of a cut list of the plain form. The events and the reel from memory: common
// practice, the standard (SMPTE ST 258) was not read.
const (
	edlEventsMost = 999
	edlReelMost   = 8
	edlTitleMost  = 70
	edlNoteMost   = 200
)

// EDL returns the cues of a recording as cut lists of the plain form that goes by CMX 3600:
// the recording cut at every cue, each piece from one cue to the next, with the cue's words
// in notes and a locator. Source and record times are both the recording's timecode. Cues
// of the same picture share an event. There are several lists where one would have more
// than 999 events, or pass the end of a day of timecode: a piece is cut there.
func (t Tape) EDL(title, reel string, cues []Cue) []string {
	pieces := t.pieces(t.Place(cues))
	var lists []string
	for len(pieces) > 0 {
		n, day := 0, t.day(pieces[0].in)
		for n < min(len(pieces), edlEventsMost) && t.day(pieces[n].in) == day {
			n++
		}
		lists = append(lists, t.edl(title, reel, pieces[:n]))
		pieces = pieces[n:]
	}
	return lists
}

func (t Tape) day(frame int64) int64 { return frame / t.Rate.Day() }

// piece is one event: what begins at a picture and ends before another.
type piece struct {
	in, out int64
	cues    []Placed
}

func (t Tape) pieces(placed []Placed) []piece {
	var out []piece
	for _, p := range placed {
		if n := len(out); n > 0 && out[n-1].in == p.Frame {
			out[n-1].cues = append(out[n-1].cues, p)
			continue
		}
		out = append(out, piece{in: p.Frame, cues: []Placed{p}})
	}
	for i := range out {
		out[i].out = max(out[i].in+1, t.First+t.Rate.Frames(t.Ends.Sub(t.Start)))
		if i+1 < len(out) {
			out[i].out = out[i+1].in
		}
		if end := (t.day(out[i].in) + 1) * t.Rate.Day(); out[i].out >= end {
			out[i].out = max(out[i].in+1, end-1) // its label would be 00:00:00:00, before the piece
		}
	}
	return out
}

func (t Tape) edl(title, reel string, pieces []piece) string {
	var b strings.Builder
	fcm := "NON-DROP FRAME"
	if t.Rate.Drop() {
		fcm = "DROP FRAME"
	}
	fmt.Fprintf(&b, "TITLE: %s\r\nFCM: %s\r\n\r\n", cut(title+" "+t.Rate.Name, edlTitleMost), fcm)
	for i, p := range pieces {
		in, out := t.Rate.Label(p.in), t.Rate.Label(p.out)
		fmt.Fprintf(&b, "%03d  %-*s V     C        %s %s %s %s\r\n", i+1, edlReelMost, Reel(reel), in, out, in, out)
		fmt.Fprintf(&b, "* FROM CLIP NAME: %s\r\n", cut(p.cues[0].named(), edlNoteMost))
		for _, c := range p.cues {
			fmt.Fprintf(&b, "* LOC: %s %-7s %s\r\n", in, colourOf(c.Kind), cut(c.named(), edlNoteMost))
			if c.Evidence != "" {
				fmt.Fprintf(&b, "* %s\r\n", cut("EVIDENCE: "+c.Evidence, edlNoteMost))
			}
		}
	}
	return b.String()
}

// named is a cue in one line.
func (c *Cue) named() string {
	text := c.Text
	if text == "" {
		text = c.Title
	}
	if c.Board > 0 {
		text = fmt.Sprintf("B%d %s", c.Board, text)
	}
	return strings.ToUpper(string(c.Kind)) + " " + text
}

// colourOf is the colour of a locator: names that editing programs commonly know.
func colourOf(k Kind) string {
	switch k {
	case KindSegment, KindGame, KindResult:
		return "GREEN"
	case KindLine, KindQuestion, KindAnswer, KindCaption:
		return "CYAN"
	case KindCorrection, KindFeed, KindByHand:
		return "RED"
	case KindSaid, KindNote:
		return "MAGENTA"
	}
	return "YELLOW"
}

// Reel returns a name as a cut list can have it for a reel: 8 capital letters and figures
// at most; AX, an auxiliary source, where nothing of it is left.
func Reel(name string) string {
	name = strings.Map(func(r rune) rune {
		if r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' {
			return r
		}
		return -1
	}, strings.ToUpper(name))
	if name == "" {
		return "AX"
	}
	return name[:min(len(name), edlReelMost)]
}

// cut returns a text on one line with at most so many characters.
func cut(text string, most int) string {
	if runes := []rune(oneLine(text)); len(runes) > most {
		return strings.TrimSpace(string(runes[:most-1])) + "…"
	}
	return oneLine(text)
}
