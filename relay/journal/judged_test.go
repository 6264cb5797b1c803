package journal

import (
	"encoding/json"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/bitboard"
	"clocktell/relay/opinion"
)

// usualAnswer is as large as what an engine usually says of a position: three lines of 25 plies, 24 depths.
func usualAnswer() relay.EngineAnswered {
	said := opinion.Opinion{Engine: "Sounding 3", Depth: 24, Nodes: 5_000_000, Given: 5 * time.Second, Took: 5 * time.Second, Final: true}
	for i := range 3 {
		line := opinion.Line{Score: opinion.Score{Centipawns: 31 - 40*i}, Chances: &opinion.Chances{Win: 62, Draw: 912, Loss: 26}, Depth: 24}
		for n := range 25 {
			line.Moves = append(line.Moves, bitboard.NewMove(bitboard.Square(n+i), bitboard.Square(n+20), bitboard.NoPieceType))
		}
		said.Lines = append(said.Lines, line)
	}
	for depth := range 24 {
		said.Steps = append(said.Steps, opinion.Step{Depth: depth + 1, First: said.Lines[0].First(), Score: opinion.Score{Centipawns: 40 - depth}})
	}
	return relay.EngineAnswered{At: start, Board: 12, Answers: []relay.Judged{{Ply: 47, Place: 1 << 63, Opinion: said}}}
}

// judgedMost is how many bytes a usual answer takes at most. An engine that is asked without a pause
// gives four in five seconds: some 35 MB in a day.
const judgedMost = 500

// TestJudgedIsSmall: that is less than a fifth of what JSON takes.
func TestJudgedIsSmall(t *testing.T) {
	e := usualAnswer()
	body := judgedBody(e)
	text, err := json.Marshal(e)
	if err != nil || len(body) > judgedMost || 5*len(body) > len(text) {
		t.Errorf("%d bytes, want at most %d; as JSON there are %d, %v", len(body), judgedMost, len(text), err)
	}
}

// TestJudgedIsReadWhole: a body that is cut off anywhere, that goes on behind its end, or has a bound
// that there is not, is refused and brings nobody down.
func TestJudgedIsReadWhole(t *testing.T) {
	e := usualAnswer()
	body := judgedBody(e)
	refused := func(body []byte) bool {
		_, err := judgedOf(&row{kind: kindJudged, at: stamp(e.At), body: body})
		return err != nil
	}
	if refused(body) {
		t.Fatal("a whole body is refused")
	}
	for n := range body {
		if !refused(body[:n]) {
			t.Errorf("%d of %d bytes are taken for a whole body", n, len(body))
		}
	}
	if !refused(append(body[:len(body):len(body)], 0)) {
		t.Error("a byte too many is taken")
	}
	for _, bound := range []opinion.Bound{opinion.AtMost + 1, 255} {
		e.Answers[0].Opinion.Lines[0].Score.Bound = bound
		if !refused(judgedBody(e)) {
			t.Errorf("the bound %d is taken", bound)
		}
	}
}

// BenchmarkJudged reads an answer back, as is done with each of them when a show is restored.
func BenchmarkJudged(b *testing.B) {
	r := &row{kind: kindJudged, at: stamp(start), body: judgedBody(usualAnswer())}
	b.SetBytes(int64(len(r.body)))
	for b.Loop() {
		if _, err := judgedOf(r); err != nil {
			b.Fatal(err)
		}
	}
}
