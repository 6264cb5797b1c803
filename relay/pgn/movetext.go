package pgn

import "strings"

// letter takes what begins with a letter: in the moves of a game mostly plain ones.
func (r *reader) letter() {
	at := r.pos
	if r.state == inMoves && r.tree.skip == 0 {
		r.plainMoves()
	}
	if r.pos == at {
		r.word()
	}
}

// word takes a word that begins with a letter.
func (r *reader) word() {
	s, i := r.text, r.pos
	j := i + 1
	for j < len(s) && isWordByte(s[j]) {
		j++
	}
	if j < len(s) && kinds[s[j]] == kindHigh {
		j = wordEnd(s, j)
	}
	if !isMove(s[i:j]) || j < len(s) && (s[j] == '.' || s[j] == '(') {
		r.oddWord(i, j)
		return
	}
	r.addMove(s[i:j], i, j)
}

// oddWord takes a word that is no plain move: one with "e.p." or a bracketed
// promotion behind it, with an evaluation sign stuck to it, cut off, or wrong.
func (r *reader) oddWord(i, j int) {
	s := r.text
	w := s[i:j]
	if j+3 <= len(s) && s[j] == '(' && s[j+2] == ')' && isMove(s[i:j+3]) {
		j += 3
		w = s[i:j]
	}
	base, past := cutEnPassant(s, i, j)
	stem := strings.TrimRight(base, "+-=/:_")
	switch {
	case len(w) > r.lim.WordBytes:
		r.pos = j
		r.fault(FaultLimitWord, i, w)
	case isMove(base):
		r.addMove(base, i, past)
	case base == "" || base == "e" && past > j:
		r.pos = past // "e.p." on its own says nothing SAN needs
	case r.tree.skip+r.tree.depth == 0 && r.lastPacketGame && r.atEnd(j) && canBecomeMove(w):
		r.addMove(w, i, j)
	case isMove(stem):
		if r.addMove(stem, i, j); !r.over {
			r.fault(FaultBadToken, i+len(stem), w[len(stem):])
		}
	case isGarbledMove(w):
		if r.addMove(w, i, j); !r.over {
			r.fault(FaultBadMove, i, w)
		}
	default:
		r.pos = j
		r.fault(FaultBadToken, i, w)
	}
}

// cutEnPassant returns the word s[i:j] without "e.p." or "ep" at its end and the
// offset behind it. A check sign behind the mark goes back to the word.
func cutEnPassant(s string, i, j int) (base string, past int) {
	w := s[i:j]
	switch {
	case strings.HasSuffix(w, "e") && strings.HasPrefix(s[j:], ".p"):
		base, past = w[:len(w)-1], j+2
	case strings.HasSuffix(w, "ep"):
		base, past = w[:len(w)-2], j
	default:
		return w, j
	}
	if past < len(s) && s[past] == '.' {
		past++
	}
	if past < len(s) && (s[past] == '+' || s[past] == '#') && base != "" {
		base += s[past : past+1]
		past++
	}
	return base, past
}

// number takes a word that begins with a digit: a move number with or without
// periods, a result, castling written with zeros.
func (r *reader) number() {
	s, i := r.text, r.pos
	j := numberEnd(s, i)
	if j < len(s) && (s[j] == '-' || s[j] == '/') {
		end := wordEnd(s, i)
		if result := resultOf(s[i:end]); result != "" {
			r.result(result, i, end)
			return
		}
		if isMove(s[i:end]) {
			r.addMove(s[i:end], i, end)
			return
		}
	}
	r.pos = j // periods behind it are skipped as signs
}

// highWord takes a word that begins with a character beyond ASCII.
func (r *reader) highWord() {
	s, i := r.text, r.pos
	if c, n := runeAt(s, i); isBlankRune(c) {
		r.pos += n
		return
	}
	j := wordEnd(s, i)
	if result := resultOf(s[i:j]); result != "" {
		r.result(result, i, j)
	} else if isMove(s[i:j]) {
		r.addMove(s[i:j], i, j)
	} else {
		r.oddWord(i, j)
	}
}

// result takes a game's result. In a variation it ends the game only when
// nothing of the game follows: some write a result behind a quoted game.
func (r *reader) result(value string, at, end int) {
	r.pos = end
	if r.tree.depth+r.tree.skip > 0 {
		if !r.nothingFollows(end) {
			r.fault(FaultBadToken, at, r.text[at:end])
			return
		}
		r.closeVariations(at)
	}
	if r.state == ended {
		r.fault(FaultBadToken, at, r.text[at:end])
		return
	}
	r.begin(at)
	r.g.Result, r.state = value, ended
}

// nothingFollows reports whether behind i the text ends or a tag section begins.
func (r *reader) nothingFollows(i int) bool {
	i = skipSpace(r.text, i)
	return i == len(r.text) || isTag(r.text, i)
}
