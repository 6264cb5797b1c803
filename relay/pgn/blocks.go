package pgn

import "slices"

// Sizes of the blocks that the small slices of a game are cut from, in elements.
// Whoever keeps one game of many keeps the blocks it lies in, so they stay small.
const (
	blockLeast = 4
	blockFirst = 128
	blockMost  = 512
)

// firstBlock returns the size of the first blocks for a text of n bytes. A bare move
// takes seven of them, a commented one forty.
func firstBlock(n int) int { return min(max(n/8, blockLeast), blockFirst) }

// store hands out elements and short lists from blocks, because a packet has
// thousands of them and most lists have one element. Behind the elements handed out
// a block is zero.
type store[T any] struct {
	block []T // what is handed out of the current block
	size  int // of the next block
}

// one returns a zero element.
func (s *store[T]) one() *T { return &s.longer(nil)[0] }

// longer returns a list that this store made with a zero element behind it: in its
// block, as long as nothing else lies behind the list.
func (s *store[T]) longer(list []T) []T {
	n, k := len(list), len(s.block)
	if k == cap(s.block) || n > 0 && &list[n-1] != &s.block[k-1] {
		return s.elsewhere(list)
	}
	s.block = s.block[:k+1]
	return s.block[k-n : k+1 : k+1]
}

// elsewhere is longer where there is no room.
func (s *store[T]) elsewhere(list []T) []T {
	if n := len(list); n > 0 {
		return slices.Grow(list, 1)[:n+1]
	}
	s.block = make([]T, 0, s.size)
	s.size = min(2*s.size, blockMost)
	return s.longer(nil)
}

// grown returns list in a new block of the given size, or of twice its length, with
// room behind it, and says what size the next block shall have.
func grown[T any](list []T, size *int) []T {
	bigger := make([]T, len(list), max(*size, 2*len(list)))
	copy(bigger, list)
	*size = min(2**size, blockMost)
	return bigger
}

// stock is what a reader cuts its games from.
type stock struct {
	tagRoom  []Tag // the rest of a block, for the next game
	tagSize  int   // of the next block
	notes    store[Notes]
	glyphs   store[int]
	comments store[Comment]
	commands store[Command]
	operands store[string]
	branches store[Variation]
	texts    texts
	buf      []byte // for the remains of a comment
}

func newStock(size int) stock {
	few := max(size/4, blockLeast)
	return stock{
		tagSize: few, notes: store[Notes]{size: size}, comments: store[Comment]{size: size},
		commands: store[Command]{size: size}, operands: store[string]{size: size},
		glyphs: store[int]{size: few}, branches: store[Variation]{size: few},
	}
}
