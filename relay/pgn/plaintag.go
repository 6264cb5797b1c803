package pgn

// plainTags takes tag pairs of the form that nearly all have, [Name "value"] and a
// line end, and stops before anything else and before what may begin another game.
func (r *reader) plainTags() {
	s, i, tags := r.text, r.pos, r.g.Tags
	for room := min(cap(tags), r.lim.Tags) - len(tags); room > 0 && i+1 < len(s) && s[i] == '['; room-- {
		name := i + 1
		nameEnd := name
		for nameEnd < len(s) && nameBytes[s[nameEnd]] {
			nameEnd++
		}
		value := nameEnd + len(` "`)
		if kinds[s[name]] != kindLetter || value > len(s) || s[nameEnd:value] != ` "` {
			break
		}
		valueEnd := value
		for valueEnd < len(s) && !stringStops[s[valueEnd]] {
			valueEnd++
		}
		end := valueEnd + len(`"]`)
		bit := rosterBit(s[name:nameEnd])
		if end > len(s) || s[valueEnd:end] != `"]` || bit == rosterEvent || bit&r.roster != 0 ||
			nameEnd-name > r.lim.WordBytes || valueEnd-value > r.lim.TagBytes {
			break
		}
		tags = append(tags, Tag{Name: s[name:nameEnd], Value: s[value:valueEnd]})
		r.roster |= bit
		for i = end; i < len(s) && isLineEnd(s[i]); i++ {
		}
	}
	r.g.Tags, r.pos = tags, i
}
