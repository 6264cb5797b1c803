package pgn

import "strings"

// sevenTags is the seven tag roster in its order (PGN 8.1.1).
var sevenTags = [7]string{"Event", "Site", "Date", "Round", "White", "Black", "Result"}

// rosterBit returns the bit of a tag of the roster, or 0.
func rosterBit(name string) uint8 {
	for i, n := range sevenTags {
		if n == name {
			return 1 << i
		}
	}
	return 0
}

// isTag reports whether a tag pair begins at text[i], as far as its first quote.
func (r *reader) isTag(i int) bool {
	if r.text[i] != '[' {
		return false
	}
	_, _, quote := r.tagName(i)
	return quote < len(r.text) && r.text[quote] == '"'
}

// tagName returns the bounds of the name behind the bracket at i, and the offset
// of what follows it, which is len(text) when there is no name.
func (r *reader) tagName(i int) (from, to, next int) {
	from = skipSpace(r.text, i+1)
	to = from
	for to < len(r.text) && isNameByte(r.text[to]) {
		to++
	}
	if to == from || kinds[r.text[from]] == kindMark && r.text[from] != '_' {
		return from, to, len(r.text)
	}
	return from, to, skipSpace(r.text, to)
}

// isNameByte reports the characters of a symbol (PGN 7).
func isNameByte(c byte) bool { return isAlnum(c) || kinds[c] == kindMark && c != '/' }

// squareBracket takes a tag pair, or leaves out what looks like one.
func (r *reader) squareBracket() {
	at := r.pos
	from, to, quote := r.tagName(at)
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
	bit := rosterBit(name)
	again := bit&r.roster != 0 && (bit == 1 || r.blankLineBefore(at))
	if r.state == inMoves || r.state == inTags && again {
		r.next(at)
	}
	if r.begin(at); r.full {
		return
	}
	r.roster |= bit
	text, reason, faulty := r.tagValue(value)
	if faulty {
		r.fault(reason, at, r.text[at:r.pos])
	}
	r.addTag(at, Tag{Name: name, Value: text})
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
	r.g.Tags = append(r.g.Tags, tag)
}

// blankLineBefore reports whether an empty line stands before offset i. A
// repeated tag of the roster behind one begins a game; the standard allows a
// name once, but some repeat one by mistake.
func (r *reader) blankLineBefore(i int) bool {
	ends := 0
	for i--; i >= 0 && isSpace(r.text[i]); i-- {
		if r.text[i] == '\n' || r.text[i] == '\r' && !strings.HasPrefix(r.text[i+1:], "\n") {
			ends++
		}
	}
	return ends >= 2
}
