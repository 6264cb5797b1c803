package build

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"clocktell/relay/clock"
	"clocktell/relay/pgn"
	"clocktell/relay/reference"
)

// Bounds of what tags tell; what is beyond is taken for unknown, or cut.
const (
	ratingMost = 4000
	yearLeast  = 1400
	yearMost   = 2200
	nameBytes  = 200 // of a player or an event
)

// header is what the tags of a game tell.
type header struct {
	reference.Game
	variant string
	fen     string
}

// headers reads tags. It remembers time controls, since few are used over and over.
type headers struct {
	classes map[string]clock.Class
}

// classesMost is how many time controls are remembered.
const classesMost = 4096

func newHeaders() *headers { return &headers{classes: make(map[string]clock.Class)} }

func (h *headers) read(g *pgn.Game) header {
	var out header
	year := 0
	for _, tag := range g.Tags {
		switch tag.Name {
		case "White":
			out.White = name(tag.Value)
		case "Black":
			out.Black = name(tag.Value)
		case "Event":
			out.Event = name(tag.Value)
		case "Date":
			out.Year = yearOf(tag.Value)
		case "UTCDate":
			year = yearOf(tag.Value)
		case "WhiteElo":
			out.WhiteRating = ratingOf(tag.Value)
		case "BlackElo":
			out.BlackRating = ratingOf(tag.Value)
		case "TimeControl":
			out.Class = h.classOf(tag.Value)
		case "Mode":
			out.Venue = venueOf(tag.Value)
		case "Variant":
			out.variant = tag.Value
		case "FEN":
			out.fen = tag.Value
		}
	}
	if out.Year == 0 {
		out.Year = year
	}
	out.Result = resultOf(g.Tag("Result"), g.Result)
	return out
}

// name cuts a name to nameBytes; "?" stands for none (PGN 8.1.1).
func name(s string) string {
	if s = strings.TrimSpace(s); s == "?" || s == "-" {
		return ""
	}
	if len(s) > nameBytes {
		n := nameBytes
		for !utf8.RuneStart(s[n]) {
			n--
		}
		s = s[:n]
	}
	return s
}

// yearOf reads the year of a date as PGN 8.1.1.3 writes it, "1992.08.31", or one with
// other signs between its parts.
func yearOf(date string) int {
	if len(date) < 4 || len(date) > 4 && date[4] >= '0' && date[4] <= '9' {
		return 0
	}
	n, err := strconv.Atoi(date[:4])
	if err != nil || n < yearLeast || n > yearMost {
		return 0
	}
	return n
}

func ratingOf(text string) int {
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > ratingMost {
		return 0
	}
	return n
}

// venueOf reads a Mode tag (PGN 9.8.1).
func venueOf(mode string) reference.Venue {
	switch strings.ToUpper(mode) {
	case "OTB":
		return reference.OverTheBoard
	case "PM", "EM", "ICS", "TC":
		return reference.Elsewhere
	}
	return reference.VenueUnknown
}

func (h *headers) classOf(control string) clock.Class {
	class, known := h.classes[control]
	if !known {
		c, err := clock.ParseControl(control)
		if err == nil {
			class = c.Class()
		}
		if len(h.classes) < classesMost {
			h.classes[strings.Clone(control)] = class
		}
	}
	return class
}

// resultOf puts the Result tag and the end of the moves together: where one says
// nothing the other counts, where they differ neither does.
func resultOf(tag, end string) reference.Result {
	a, b := resultWord(tag), resultWord(end)
	switch {
	case a == reference.ResultUnknown:
		return b
	case b == reference.ResultUnknown || a == b:
		return a
	}
	return reference.ResultUnknown
}

func resultWord(s string) reference.Result {
	switch s {
	case "1-0":
		return reference.WhiteWon
	case "0-1":
		return reference.BlackWon
	case "1/2-1/2":
		return reference.Drawn
	}
	return reference.ResultUnknown
}

// isStandard reports whether a Variant tag, which no standard describes, names chess as
// the Laws have it, from whatever position.
func isStandard(variant string) bool {
	switch strings.ToLower(variant) {
	case "", "?", "-", "standard", "chess", "normal", "from position":
		return true
	}
	return false
}

// left returns why a filter leaves a game out, or "".
func left(k reference.Filter, g *reference.Game) Reason {
	switch {
	case min(g.WhiteRating, g.BlackRating) < k.MinRating:
		return ReasonRating
	case (k.FromYear != 0 || k.ToYear != 0) && g.Year == 0,
		g.Year < k.FromYear, k.ToYear != 0 && g.Year > k.ToYear:
		return ReasonYear
	case k.OnlyOverTheBoard && g.Venue != reference.OverTheBoard:
		return ReasonVenue
	case k.Class != clock.ClassUnknown && g.Class != k.Class:
		return ReasonClass
	}
	return ""
}
