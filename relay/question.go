package relay

import (
	"fmt"
	"hash/fnv"

	"clocktell/relay/clock"
)

// Question asks the producer who is right.
type Question struct {
	ID   string
	Kind QuestionKind
	Ply  int // of a move or clock, from 1
	Side clock.Side
	Hand string // as entered
	Feed string // as the feed has it
}

// QuestionKind says what a question is about.
type QuestionKind string

// The kinds of questions.
const (
	AsksMove   QuestionKind = "move"
	AsksClock  QuestionKind = "clock"
	AsksResult QuestionKind = "result"
	AsksName   QuestionKind = "name"
)

func (b *Board) ask(kind QuestionKind, ply int, side clock.Side, hand, feed string) *Question {
	said := fnv.New64a()
	said.Write([]byte(feed))
	return &Question{
		ID:   fmt.Sprintf("board%d-game%d-%s-%d-%s-%x", b.Number, b.Game+1, kind, ply, side, said.Sum64()),
		Kind: kind, Ply: ply, Side: side, Hand: hand, Feed: feed,
	}
}

func (b *Board) askMove(e HandMove, said string) *Question {
	return b.ask(AsksMove, e.Ply, b.moverOf(e.Ply-1), e.SAN, said)
}

// askAlso asks unless something is asked already: one question at a time.
func (next *Board) askAlso(q *Question) {
	if next.Question == nil {
		next.Question = q
	}
}
