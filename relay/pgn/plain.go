package pgn

import "math/bits"

// Nearly all words of nearly all games are moves in plain SAN. Which shape comes
// next cannot be foreseen, and a processor that guesses wrong loses more time than
// it takes to look shapes up; so they are looked up, three characters at once.

// shape sorts the characters of plain SAN.
type shape uint8

const (
	shapeOther shape = iota
	shapePiece       // K Q R B N
	shapeFile        // a-h
	shapeRank        // 1-8
	shapeTakes       // x
	shapeCheck       // + #
	shapeSpace       // what may stand behind a word
)

// shapes sorts all characters. A NUL byte is no space here: behind it the text may
// be at its end, see reader.atEnd.
var shapes = func() (t [256]shape) {
	for kind, chars := range map[shape]string{
		shapePiece: "KQRBN", shapeFile: "abcdefgh", shapeRank: "12345678",
		shapeTakes: "x", shapeCheck: "+#", shapeSpace: " \t\r\n",
	} {
		for _, c := range chars {
			t[c] = kind
		}
	}
	return t
}()

// plainWords has one word for each shape that is looked up, with what must follow
// it. The others, castling and promotion among them, are left to reader.word.
var plainWords = [...]string{
	"a1 ", "a1+ ", "axa1 ", "axa1+ ", "Na1 ", "Na1+ ", "Nxa1 ", "Nxa1+ ",
	"Naa1 ", "Naa1+ ", "N1a1 ", "N1a1+ ", "Naxa1 ", "N1xa1 ",
}

const (
	plainMost  = 5 // characters of the longest plain word
	plainBytes = 8 // looked at for one word: more than a plain word and what follows it

	plainStates = 64
	plainRoot   = plainMost + 1 // states up to plainMost say that a word of that length is complete
	shapeBits   = 3
)

// plainSteps leads from a state and the shapes of three characters to the next
// state. State 0 is no plain word.
var plainSteps = func() (t [plainStates][1 << (3 * shapeBits)]uint8) {
	step := shapeSteps()
	for state := range t {
		for i := range t[state] {
			next := step[state][i>>(2*shapeBits)]
			next = step[next][i>>shapeBits%len(step[0])]
			t[state][i] = step[next][i%len(step[0])]
		}
	}
	return t
}()

// shapeSteps leads from a state and the shape of one character to the next.
func shapeSteps() (step [plainStates][1 << shapeBits]uint8) {
	for n := 1; n <= plainMost; n++ {
		for c := range step[n] {
			step[n][c] = uint8(n)
		}
	}
	last := uint8(plainRoot)
	for _, word := range plainWords {
		state, n := uint8(plainRoot), len(word)-1
		for i := range n {
			next := &step[state][shapes[word[i]]]
			if *next == 0 {
				last++
				*next = last
			}
			state = *next
		}
		step[state][shapes[word[n]]] = uint8(n)
	}
	return step
}

// plainStep goes three characters on.
func plainStep(state uint8, w string) uint8 {
	return plainSteps[state%plainStates][uint(shapes[w[0]])<<(2*shapeBits)|uint(shapes[w[1]])<<shapeBits|uint(shapes[w[2]])]
}

// toSpace returns the offset of the first white space in the first eight bytes of w,
// or 8. It finds it in a few steps of arithmetic on all of them, so that the next
// word can be looked at before it is certain that this one is a move.
func toSpace(w string) int {
	const ones, highs = 0x0101010101010101, 0x8080808080808080
	_ = w[7]
	x := uint64(w[0]) | uint64(w[1])<<8 | uint64(w[2])<<16 | uint64(w[3])<<24 |
		uint64(w[4])<<32 | uint64(w[5])<<40 | uint64(w[6])<<48 | uint64(w[7])<<56
	return bits.TrailingZeros64((x-(' '+1)*ones)&^x&highs) / 8
}

// plainMoves takes moves in plain SAN on the current line, with the numbers and
// the white space between them, and stops before anything else.
func (r *reader) plainMoves() {
	s, i := r.text, r.pos
	l := r.tree.line()
	moves := l.moves
	room := r.plainRoom(l)
	for i+plainBytes <= len(s) {
		if kind := kinds[s[i]]; kind == kindGap {
			i++
			continue
		} else if kind == kindDigit {
			at := i
			if i = skipNumber(s, i); i == at {
				break
			}
			continue
		}
		w := s[i : i+plainBytes]
		n := toSpace(w)
		if n != int(plainStep(plainStep(plainRoot, w[:3]), w[3:])) || room == 0 {
			break
		}
		if i > r.same {
			r.lineOf(i)
		}
		k := len(moves)
		moves = moves[:k+1]
		moves[k].SAN, moves[k].Line = s[i:i+n], r.lines.number
		i += n + 1
		room--
	}
	r.tree.varMoves += (len(moves) - len(l.moves)) * min(r.tree.depth, 1)
	l.moves, r.pos = moves, i
}

// skipNumber returns the offset behind the number at s[i] and one period or space, or
// i when the number may begin a result or castling with zeros.
func skipNumber(s string, i int) int {
	end := numberEnd(s, i)
	switch {
	case end == len(s) || s[end] == '-' || s[end] == '/':
		return i
	case s[end] == '.' || s[end] == ' ':
		return end + 1
	}
	return end
}

// plainRoom returns how many moves the line can take without a further look.
func (r *reader) plainRoom(l *line) int {
	room := r.lim.VariationMoves - r.tree.varMoves
	if r.tree.depth == 0 {
		room = r.lim.Plies - len(l.moves)
	}
	return max(0, min(room, cap(l.moves)-len(l.moves)))
}

// numberEnd returns the offset behind the digits that begin at s[i].
func numberEnd(s string, i int) int {
	for i < len(s) && kinds[s[i]] == kindDigit {
		i++
	}
	return i
}
