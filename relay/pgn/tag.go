package pgn

import "strings"

// sevenTags is the seven tag roster in its order (PGN 8.1.1).
var sevenTags = [7]string{"Event", "Site", "Date", "Round", "White", "Black", "Result"}

// The bits of rosterBit.
const (
	rosterEvent uint8 = 1 << iota
	rosterSite
	rosterDate
	rosterRound
	rosterWhite
	rosterBlack
	rosterResult
)

// rosterBit returns the bit of a tag of the roster, or 0.
func rosterBit(name string) uint8 {
	switch name {
	case "Event":
		return rosterEvent
	case "Site":
		return rosterSite
	case "Date":
		return rosterDate
	case "Round":
		return rosterRound
	case "White":
		return rosterWhite
	case "Black":
		return rosterBlack
	case "Result":
		return rosterResult
	}
	return 0
}

// isTag reports whether a tag pair begins at s[i], as far as its first quote.
func isTag(s string, i int) bool {
	if s[i] != '[' {
		return false
	}
	_, _, quote := tagName(s, i)
	return quote < len(s) && s[quote] == '"'
}

// tagName returns the bounds of the name behind the bracket at s[i], and the offset
// of what follows it, which is len(s) when there is no name.
func tagName(s string, i int) (from, to, next int) {
	from = skipSpace(s, i+1)
	to = from
	for to < len(s) && nameBytes[s[to]] {
		to++
	}
	if to == from || kinds[s[from]] == kindMark && s[from] != '_' {
		return from, to, len(s)
	}
	return from, to, skipSpace(s, to)
}

// nameBytes has the characters of a symbol (PGN 7).
var nameBytes = func() (t [256]bool) {
	for c := range t {
		t[c] = isWordByte(byte(c)) && c != '/'
	}
	return t
}()

// squareBracket takes a tag pair, or leaves out what looks like one.
func (r *reader) squareBracket() {
	at := r.pos
	if r.state == inTags {
		if r.plainTags(); r.pos > at {
			return
		}
	}
	from, to, quote := tagName(r.text, at)
	if quote < len(r.text) && r.text[quote] == '"' {
		r.tagPair(at, r.text[from:to], quote+1)
		return
	}
	end := at + 1
	for end < len(r.text) && r.text[end] != ']' && !isLineEnd(r.text[end]) {
		end++
	}
	reason := FaultUnclosedTag
	if end < len(r.text) && r.text[end] == ']' {
		reason = FaultBadToken
		end++
	}
	r.pos = end
	r.fault(reason, at, r.text[at:end])
}

// tagPair takes a tag pair whose value begins at offset value. A tag pair behind
// moves belongs to the next game.
func (r *reader) tagPair(at int, name string, value int) {
	if len(name) > r.lim.WordBytes && (r.state == inMoves || r.state == ended) {
		r.fault(FaultLimitWord, at, name) // no tag, so no game begins with it
		r.tagValue(value)
		return
	}
	bit := rosterBit(name)
	if r.state == inMoves || r.state == inTags && r.startsAnother(bit, at) {
		r.next(at)
		return
	}
	if r.begin(at); r.over {
		return
	}
	r.roster |= bit
	text, reason, faulty := r.tagValue(value)
	if faulty {
		r.fault(reason, at, r.text[at:r.pos])
	}
	r.addTag(at, Tag{Name: name, Value: text})
}

// startsAnother reports whether a tag of the roster at offset at belongs to another
// game than the tags before it. The Event tag does when there was one, others only
// behind an empty line, since some repeat a name by mistake: there an Event tag
// begins a game, even where the one before has none, and so does a name that comes
// again. That Event always counts where any other does is what StartsGame needs.
func (r *reader) startsAnother(bit uint8, at int) bool {
	if bit&r.roster&rosterEvent != 0 {
		return true
	}
	return (bit&r.roster != 0 || bit == rosterEvent && r.roster != 0) && r.blankLineBefore(at)
}

// addTag keeps a tag within the limits.
func (r *reader) addTag(at int, tag Tag) {
	n := len(r.g.Faults)
	switch {
	case len(tag.Name) > r.lim.WordBytes:
		r.fault(FaultLimitWord, at, tag.Name)
		return
	case len(r.g.Tags) >= r.lim.Tags:
		if n == 0 || r.g.Faults[n-1].Reason != FaultLimitTags { // once for a row of them
			r.fault(FaultLimitTags, at, tag.Name)
		}
		return
	case len(tag.Value) > r.lim.TagBytes:
		tag.Value = cut(tag.Value, r.lim.TagBytes)
		r.fault(FaultLimitTag, at, tag.Name)
	}
	if len(r.g.Tags) == cap(r.g.Tags) {
		r.g.Tags = grown(r.g.Tags, &r.tagSize)
	}
	r.g.Tags = append(r.g.Tags, tag)
}

// blankLineBefore reports whether an empty line stands before offset i.
func (r *reader) blankLineBefore(i int) bool {
	ends := 0
	for i--; i >= 0 && isSpace(r.text[i]); i-- {
		if r.text[i] == '\n' || r.text[i] == '\r' && !strings.HasPrefix(r.text[i+1:], "\n") {
			ends++
		}
	}
	return ends >= 2
}
