package pgn

import "strings"

// textBlock is how many bytes of text one block holds.
const textBlock = 2048

// texts keeps strings that do not stand in the packet as they are, many in a block.
type texts struct{ block strings.Builder }

// room makes room for n bytes and returns the offset in the block they will have.
func (t *texts) room(n int) int {
	if t.block.Cap()-t.block.Len() < n {
		t.block = strings.Builder{}
		t.block.Grow(max(n, textBlock))
	}
	return t.block.Len()
}

// fold is the function fold.
func (t *texts) fold(s string) string {
	s = trimSpace(s)
	if isFolded(s) {
		return s
	}
	from := t.room(len(s))
	appendFolded(&t.block, s)
	return t.block.String()[from:]
}

// foldBytes is fold for text that will change.
func (t *texts) foldBytes(b []byte) string {
	b = trimSpace(b)
	from := t.room(len(b))
	appendFolded(&t.block, b)
	return t.block.String()[from:]
}
