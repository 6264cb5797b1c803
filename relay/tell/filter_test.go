package tell

import (
	"math"
	"strings"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// quickly returns a filter at 10+5 after n quick own moves of White.
func quickly(t testing.TB, n int) Filter {
	t.Helper()
	spent := []int{-1}
	for range n {
		spent = append(spent, 2)
	}
	list := game(New(control(t, "600+5")), spent, nil)
	return list[len(list)-1]
}

// next is White's next move after quickly(t, 6).
func next(spent int) Move {
	return Move{Ply: 15, Spent: time.Duration(spent) * sec, Quality: clock.QualityRead, Left: 600 * sec}
}

// A move of which nothing is known, an only move and one in time trouble say
// nothing; only the first two let preparation run out (model of the project notes
// on move times, section 3).
func TestSilentMoves(t *testing.T) {
	f := quickly(t, 6)
	before := f.Call(clock.White)
	predicted := standard.predict(before.Thinking, 15, 0)
	low := f
	low.sides[0].left = 50 * sec
	none, negative, beyond, only := next(60), next(-60), next(60), next(60)
	none.Quality, beyond.Left, only.Legal = clock.QualityNone, 2*sec, 1
	tests := []struct {
		name  string
		from  Filter
		m     Move
		want  float64
		timed int
		says  string
	}{
		{"missing", f, none, predicted, 6, "no time for move 8"},
		{"negative", f, negative, predicted, 6, "no time for move 8"},
		{"more than was left", f, beyond, predicted, 6, "no time for move 8"},
		{"only move", f, only, predicted, 7, "1:00 for the only legal move says nothing"},
		{"time trouble", low, next(60), before.Thinking, 7, "1:00 on a low clock says nothing of preparation"},
	}
	for _, tt := range tests {
		c := tt.from.Next(tt.m).Call(clock.White)
		if c.Thinking != tt.want || c.Timed != tt.timed || c.Reasons[0] != tt.says {
			t.Errorf("%s: got %.4f, %d timed, %q; want %.4f, %d, %q", tt.name, c.Thinking, c.Timed, c.Reasons[0], tt.want, tt.timed, tt.says)
		}
	}
}

// Own moves left out and own moves without a time are the same, for any ply at which
// the filter starts.
func TestGaps(t *testing.T) {
	late := Move{Ply: 21, Spent: 3 * sec, Quality: clock.QualityRead}
	f, g := New(control(t, "600+5")), New(control(t, "600+5"))
	for ply := 1; ply < 21; ply += 2 {
		g = g.Next(Move{Ply: ply})
	}
	a, b := f.Next(late).Call(clock.White), g.Next(late).Call(clock.White)
	if a.Thinking != b.Thinking || a.Thinking < .2 {
		t.Errorf("from ply 21: %.4f left out, %.4f without a time; want the same, and no longer sure of preparation", a.Thinking, b.Thinking)
	}
	if c := g.Call(clock.White); c.Verdict != NoClock || c.Shade() != "no clock" || c.Evidence() != "" {
		t.Errorf("ten moves without a time: %v, %q, %q", c.Verdict, c.Shade(), c.Evidence())
	}
}

// One move moves log odds by five at the most. The notes have three, which costs two
// tenths of a move before a long think is believed; ours.
func TestCap(t *testing.T) {
	f := quickly(t, 6)
	prior := standard.predict(f.Call(clock.White).Thinking, 15, 0)
	m := next(3000)
	got := logit(f.Next(m).Call(clock.White).Thinking) - logit(prior)
	if math.Abs(got-5) > 1e-6 {
		t.Errorf("fifty minutes moved log odds by %.4f, want 5", got)
	}
}

// A known position holds preparation, the first unknown move lets go of it. Shifts
// -1, +1, +1.5 on the hazard's logit as in the same section; ours, untested.
func TestReference(t *testing.T) {
	play := func(known ...Knowledge) Filter {
		f := quickly(t, 6)
		for i, k := range known {
			m := next(2)
			m.Ply, m.Known = 15+2*i, k
			f = f.Next(m)
		}
		return f
	}
	none, in, first := play(NoReference).sides[0].thinking, play(InReference).sides[0].thinking, play(FirstOutside).sides[0].thinking
	if !(in < none && none < first) {
		t.Errorf("thinking %.4f in the reference, %.4f without one, %.4f at the first outside; want them to rise", in, none, first)
	}
	for n, want := range []float64{1, 1, 1.5, 1.5} {
		if got := standard.reference(Outside, n+1); got != want {
			t.Errorf("%d own moves outside: shift %v, want %v", n+1, got, want)
		}
	}
	f := play(FirstOutside, Outside, Outside)
	if c := f.Call(clock.White); f.sides[0].outside != 3 || !strings.Contains(strings.Join(c.Reasons, "\n"), "3 moves outside the reference games") {
		t.Errorf("got %d outside, reasons %q", f.sides[0].outside, c.Reasons)
	}
	if f := play(FirstOutside, InReference); f.sides[0].outside != 0 {
		t.Errorf("back in the reference: %d outside, want 0", f.sides[0].outside)
	}
}

// Reasons as the notes on the calls ask for them: figures first, and no weight where
// there is none.
func TestReasons(t *testing.T) {
	f := quickly(t, 6)
	recapture := next(3)
	recapture.Reply = Recapture
	tests := []struct {
		m    Move
		want string
	}{
		{recapture, "3 s on a recapture says little"},
		{next(20), "20 s, ten times its median of 2 s"},
		{next(7), "7 s on a quiet move says little"},
		{next(1), "1 s on a quiet move is preparation's pace"},
	}
	for _, tt := range tests {
		if got := f.Next(tt.m).Call(clock.White).Reasons[0]; got != tt.want {
			t.Errorf("got %q, want %q", got, tt.want)
		}
	}
	if got := f.Next(recapture).Call(clock.White).Changed; !strings.HasPrefix(got, "0:03 on move 8 says little, and fewer are prepared that deep: thinking ") {
		t.Errorf("changed: %q", got)
	}
	if got := f.Running(clock.White, 52*sec, Quiet, 30).Evidence(); got != "longest think so far" {
		t.Errorf("after 12 s: %q", got)
	}
}

// Words at the bounds .2, .5, .9 of the same section.
func TestShade(t *testing.T) {
	tests := []struct {
		v        Verdict
		thinking float64
		want     string
	}{
		{InPreparation, .19, "in preparation"}, {InPreparation, .2, "probably in preparation"},
		{Early, .5, "probably thinking"}, {Early, .49, "probably in preparation"},
		{Thinking, .9, "thinking"}, {Thinking, .3, "probably thinking"}, {NoClock, .9, "no clock"},
	}
	for _, tt := range tests {
		if got := (Call{Verdict: tt.v, Thinking: tt.thinking, Timed: 3}).Shade(); got != tt.want {
			t.Errorf("%v at %.2f: got %q, want %q", tt.v, tt.thinking, got, tt.want)
		}
	}
}

// A recapture, an answer to check and an answer to a capture say less than a quiet
// move of the same time (same section). A time from receipts counts as one read in
// steps of four seconds (ours).
func TestLittleEvidence(t *testing.T) {
	f := quickly(t, 6)
	evidence := func(m Move) float64 { return f.Next(m).sides[0].last.evidence }
	quiet := evidence(next(2))
	for r := Recapture; r < replies; r++ {
		m := next(2)
		m.Reply = r
		if got := evidence(m); got <= quiet {
			t.Errorf("reply %d: evidence %.3f, quiet %.3f; want it to speak less for preparation", r, got, quiet)
		}
	}
	guess, steps, minutes := next(9), next(9), next(9)
	guess.Quality, steps.Resolution, minutes.Resolution = clock.QualityEstimated, 4*sec, time.Minute
	if a, b := evidence(guess), evidence(steps); a != b || a == evidence(next(9)) {
		t.Errorf("from receipts: evidence %.3f, in steps of 4 s %.3f, read %.3f; want the first two the same", a, b, evidence(next(9)))
	}
	if e := evidence(minutes); math.Abs(e) > .5 {
		t.Errorf("minutes only: 9 s moves log odds by %.3f, want hardly anything", e)
	}
	c := f.Next(minutes).Call(clock.White)
	if got := strings.Join(c.Reasons, "\n"); !strings.Contains(got, "clock read in steps of 1:00: coarse") {
		t.Errorf("minutes only: reasons %q", got)
	}
}
