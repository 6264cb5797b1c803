package relay_test

import (
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
	"clocktell/relay/relaytest"
)

// BenchmarkEngineAnswer is an answer of the engine from its event to the new show, on the newest of
// 41 plies with three lines, against the ply itself (x-ply); each as the best of its tries. The
// other positions have been judged before.
func BenchmarkEngineAnswer(b *testing.B) {
	packet := func(plies int) []byte {
		return []byte(relaytest.Game{Control: "600+5", Moves: strings.Join(strings.Fields(ruy)[:plies], " ")}.PGN())
	}
	in := relay.NewIntake("hall")
	plan := relay.Plan{MaxBoards: 1, Feeds: []relay.FeedPlan{{Name: "hall", Every: time.Second, Late: time.Hour, Stale: time.Hour}}}
	show := relay.NewShow(plan, relaytest.Start).Apply(in.Read(relaytest.Start, packet(40)))
	for ply := range 41 {
		show = show.Apply(answerOn(show, ply))
	}
	event := in.Read(relaytest.Start.Add(time.Second), packet(41))
	answer := answerOn(show.Apply(event), 41)
	ofPly, ofAnswer := time.Hour, time.Hour
	for b.Loop() {
		start := time.Now()
		after := show.Apply(event)
		middle := time.Now()
		judged := after.Apply(answer)
		ofPly, ofAnswer = min(ofPly, middle.Sub(start)), min(ofAnswer, time.Since(middle))
		if judged.Boards[0].OpinionAt(41) == nil {
			b.Fatal("the answer is not taken: the benchmark measures something else")
		}
	}
	b.ReportMetric(float64(ofPly.Nanoseconds()), "ply-ns")
	b.ReportMetric(float64(ofAnswer.Nanoseconds()), "answer-ns")
	b.ReportMetric(float64(ofAnswer)/float64(ofPly), "x-ply")
}

// answerOn is an opinion with three lines on the position after so many plies of board 1.
func answerOn(show *relay.Show, ply int) relay.EngineAnswered {
	place := show.Boards[0].Place(ply)
	o := opinion.Opinion{Engine: "made up", Depth: 16, Final: true}
	for i, m := range place.Moves(make([]bitboard.Move, 0, bitboard.MaxMoves))[:3] {
		o.Lines = append(o.Lines, opinion.Line{Score: opinion.Score{Centipawns: 40 - 10*i}, Depth: 16, Moves: []bitboard.Move{m}})
	}
	for d := range 16 {
		o.Steps = append(o.Steps, opinion.Step{Depth: d + 1, First: o.Lines[0].First(), Score: o.Lines[0].Score})
	}
	return relay.EngineAnswered{At: show.At, Board: 1, Answers: []relay.Judged{{Ply: ply, Place: place.Hash(), Opinion: o}}}
}
