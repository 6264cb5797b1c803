package relay

import "errors"

// Part is one step of building a packet's games from those of the packet before:
// either Count games as they were, from the place From on (Count > 0), or one
// game, made of the first Head bytes of the game that was at From, Text, and its
// last Tail bytes. A game made of Text alone has Head and Tail 0.
//
// It is what changed and nothing else: enough to build the packet again, and
// small when one game of many has a new move.
type Part struct {
	From, Count int
	Head, Tail  int
	Text        string
}

// errParts says that parts do not fit the packet before them.
var errParts = errors.New("does not fit the packet before it")

// text returns the text of the one game that a part without Count makes.
func (p Part) text(before []piece) (string, error) {
	if p.Head == 0 && p.Tail == 0 {
		return p.Text, nil
	}
	if p.From < 0 || p.From >= len(before) || p.Head < 0 || p.Tail < 0 || p.Head+p.Tail > len(before[p.From].text) {
		return "", errParts
	}
	was := before[p.From].text
	return was[:p.Head] + p.Text + was[len(was)-p.Tail:], nil
}

// patch returns the part that makes is of the game was at place from.
func patch(from int, was, is string) Part {
	head := 0
	for head < len(was) && head < len(is) && was[head] == is[head] {
		head++
	}
	tail := 0
	for tail < len(was)-head && tail < len(is)-head && was[len(was)-1-tail] == is[len(is)-1-tail] {
		tail++
	}
	return Part{From: from, Head: head, Tail: tail, Text: is[head : len(is)-tail]}
}
