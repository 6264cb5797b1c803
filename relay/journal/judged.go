package journal

import (
	"encoding/binary"
	"time"

	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
)

// The body of an engine's answer is the numbers of relay.EngineAnswered in the order of its
// fields, lists behind their length. There are several for every move of a whole show: as JSON
// they took seven times the room, and most of the time for restoring a show.

// answerWriter writes the body of an answer.
type answerWriter struct{ body []byte }

func judgedBody(e relay.EngineAnswered) []byte {
	w := answerWriter{}
	w.ints(int64(e.Board), int64(e.Game))
	w.flag(e.Second)
	w.length(len(e.Answers))
	for i := range e.Answers {
		a := &e.Answers[i]
		w.ints(int64(a.Ply))
		w.body = binary.AppendUvarint(w.body, a.Place)
		w.opinion(&a.Opinion)
	}
	return w.body
}

func (w *answerWriter) ints(values ...int64) {
	for _, v := range values {
		w.body = binary.AppendVarint(w.body, v)
	}
}

func (w *answerWriter) length(n int) { w.body = binary.AppendUvarint(w.body, uint64(n)) }

func (w *answerWriter) flag(on bool) {
	v := int64(0)
	if on {
		v = 1
	}
	w.ints(v)
}

func (w *answerWriter) score(s opinion.Score) {
	w.ints(int64(s.Centipawns), int64(s.Mate), int64(s.Bound))
}

func (w *answerWriter) opinion(o *opinion.Opinion) {
	w.body = appendText(w.body, o.Engine)
	w.length(len(o.Lines))
	for _, l := range o.Lines {
		w.score(l.Score)
		w.flag(l.Chances != nil)
		if c := l.Chances; c != nil {
			w.ints(int64(c.Win), int64(c.Draw), int64(c.Loss))
		}
		w.ints(int64(l.Depth))
		w.length(len(l.Moves))
		for _, m := range l.Moves {
			w.length(int(m))
		}
	}
	w.length(len(o.Steps))
	for _, s := range o.Steps {
		w.ints(int64(s.Depth))
		w.length(int(s.First))
		w.score(s.Score)
	}
	w.ints(int64(o.Depth))
	w.body = binary.AppendUvarint(w.body, o.Nodes)
	w.ints(int64(o.Given), int64(o.Took))
	w.flag(o.Final)
}

// judgedOf reads the body of an answer.
func judgedOf(r *row) ([]relay.Event, error) {
	in := reader{rest: r.body}
	e := relay.EngineAnswered{At: timeOf(r.at), Board: int(in.varint()), Game: int(in.varint()), Second: in.flag()}
	for range in.length() {
		e.Answers = append(e.Answers, relay.Judged{Ply: int(in.varint()), Place: in.uvarint(), Opinion: in.opinion()})
	}
	return eventOr(in.end(), e)
}

// length reads how many things follow, each of a byte or more.
func (r *reader) length() int {
	n := r.uvarint()
	if n > uint64(len(r.rest)) {
		r.fail()
		return 0
	}
	return int(n)
}

func (r *reader) flag() bool { return r.varint() != 0 }

func (r *reader) move() bitboard.Move { return bitboard.Move(r.uvarint()) }

func (r *reader) score() opinion.Score {
	s := opinion.Score{Centipawns: int(r.varint()), Mate: int(r.varint())}
	bound := r.varint()
	if bound < int64(opinion.Exact) || bound > int64(opinion.AtMost) {
		r.fail()
	}
	s.Bound = opinion.Bound(bound)
	return s
}

func (r *reader) opinion() opinion.Opinion {
	o := opinion.Opinion{Engine: r.text()}
	for range r.length() {
		o.Lines = append(o.Lines, r.line())
	}
	for range r.length() {
		o.Steps = append(o.Steps, opinion.Step{Depth: int(r.varint()), First: r.move(), Score: r.score()})
	}
	o.Depth, o.Nodes = int(r.varint()), r.uvarint()
	o.Given, o.Took = time.Duration(r.varint()), time.Duration(r.varint())
	o.Final = r.flag()
	return o
}

func (r *reader) line() opinion.Line {
	l := opinion.Line{Score: r.score()}
	if r.flag() {
		l.Chances = &opinion.Chances{Win: int(r.varint()), Draw: int(r.varint()), Loss: int(r.varint())}
	}
	l.Depth = int(r.varint())
	for range r.length() {
		l.Moves = append(l.Moves, r.move())
	}
	return l
}
