package opinion

import (
	"reflect"
	"testing"

	"clocktell/relay/bitboard"
)

// A made-up position: White may take the free knight on d5, or play elsewhere.
const (
	freeKnight = "6k1/5ppp/8/3n4/8/5B2/5PPP/6K1 w - - 0 30"
	backRank   = "6k1/5ppp/8/8/8/8/5PPP/3R2K1 w - - 0 30" // Rd8 mates
)

// momentOf builds a move with the opinions on both sides of it.
func momentOf(t *testing.T, fen, san string, depths [2]int, before, after []string) Moment {
	t.Helper()
	p := place(t, fen)
	m, next := moved(t, p, san)
	return Moment{Place: p, Move: m, Before: made(t, p, depths[0], before...), After: made(t, next, depths[1], after...)}
}

var deepBoth = [2]int{14, 14}

// TestSwing: each row is a move that turned the game, or misses being one by little.
func TestSwing(t *testing.T) {
	for name, test := range map[string]struct {
		san           string
		depths        [2]int
		before, after []string
		want          bool
	}{
		"a win let go":              {"h3", deepBoth, []string{"400 Bxd5 h6", "0 h3 Nf6"}, []string{"0 Nf6"}, true},
		"level to lost":             {"h3", deepBoth, []string{"0 Bxd5 h6", "-350 h3 Nf6"}, []string{"-350 Nf6"}, true},
		"not among the lines":       {"h3", deepBoth, []string{"400 Bxd5 h6"}, []string{"0 Nf6"}, true},
		"won either way":            {"h3", deepBoth, []string{"900 Bxd5 h6"}, []string{"400 Nf6"}, false},
		"less than the margin":      {"h3", deepBoth, []string{"100 Bxd5 h6"}, []string{"-20 Nf6"}, false},
		"the first choice":          {"Bxd5", deepBoth, []string{"400 Bxd5 h6"}, []string{"0 h6"}, false},
		"as good among the lines":   {"h3", deepBoth, []string{"400 Bxd5 h6", "390 h3 Nf6"}, []string{"0 Nf6"}, false},
		"not deep before":           {"h3", [2]int{11, 14}, []string{"400 Bxd5 h6"}, []string{"0 Nf6"}, false},
		"not deep after":            {"h3", [2]int{12, 11}, []string{"400 Bxd5 h6"}, []string{"0 Nf6"}, false},
		"much less deep after":      {"h3", [2]int{16, 12}, []string{"400 Bxd5 h6"}, []string{"0 Nf6"}, false},
		"a little less deep after":  {"h3", [2]int{16, 13}, []string{"400 Bxd5 h6"}, []string{"0 Nf6"}, true},
		"at least so good before":   {"h3", deepBoth, []string{">400 Bxd5 h6"}, []string{"0 Nf6"}, true},
		"at most so good before":    {"h3", deepBoth, []string{"<400 Bxd5 h6"}, []string{"0 Nf6"}, false},
		"at most so good after":     {"h3", deepBoth, []string{"400 Bxd5 h6"}, []string{"<0 Nf6"}, true},
		"at least so good after":    {"h3", deepBoth, []string{"400 Bxd5 h6"}, []string{">0 Nf6"}, false},
		"mate let in":               {"h3", deepBoth, []string{"0 Bxd5 h6"}, []string{"#-3 Nf6"}, true},
		"a mate for a lasting lead": {"h3", deepBoth, []string{"#9 Bxd5 h6"}, []string{"700 Nf6"}, false},
		"another engine":            {"h3", deepBoth, []string{"400 Bxd5 h6"}, []string{"0 Nf6"}, false},
		"no line after":             {"h3", deepBoth, []string{"400 Bxd5 h6"}, []string{"0"}, false},
	} {
		m := momentOf(t, freeKnight, test.san, test.depths, test.before, test.after)
		if name == "another engine" {
			m.After.Engine = "another"
		}
		swing, ok := m.Swing()
		if ok != test.want {
			t.Errorf("%s: %v %+v", name, ok, swing)
		}
		if ok && (swing.Side != bitboard.White || swing.Best[0] != m.Before.Lines[0].First() || swing.Answer[0] != m.After.Lines[0].First() || swing.Lost < swingLeast) {
			t.Errorf("%s: %+v", name, swing)
		}
		turned := Moment{Place: mirrored(t, m.Place), Move: mirroredMove(m.Move), Before: mirroredOpinion(m.Before), After: mirroredOpinion(m.After)}
		other, same := turned.Swing()
		if same != ok || ok && (other.Side != bitboard.Black || !near(other.Lost, swing.Lost) || other.From != swing.From || other.To != swing.To) {
			t.Errorf("%s turned over: %v %+v", name, same, other)
		}
	}
	if _, ok := (&Moment{Place: place(t, freeKnight)}).Swing(); ok {
		t.Error("a swing without opinions")
	}
}

// TestSwingIsFirm: a score that has only just jumped, before the move or after it, turns nothing.
func TestSwingIsFirm(t *testing.T) {
	for name, test := range map[string]struct {
		back       int // depths before the last
		after      bool
		centipawns int
		want       bool
	}{
		"it was so": {1, true, 0, true}, "after it jumped": {1, true, 300, false}, "long ago": {settledSteps, true, 300, true}, "the last time it counts": {settledSteps - 1, true, 300, false},
		"it rose more": {1, true, -300, true}, "before it jumped": {1, false, 100, false}, "before it was more": {1, false, 600, true},
	} {
		m := momentOf(t, freeKnight, "h3", deepBoth, []string{"400 Bxd5 h6"}, []string{"0 Nf6"})
		o := m.Before
		if test.after {
			o = m.After
		}
		o.Steps[len(o.Steps)-1-test.back].Score.Centipawns = test.centipawns
		if swing, ok := m.Swing(); ok != test.want {
			t.Errorf("%s: %v %+v", name, ok, swing)
		}
	}
}

// TestMissedMate: a mate in three or less that was not played, and no other in its place.
func TestMissedMate(t *testing.T) {
	for name, test := range map[string]struct {
		san, before, after string
		want               int
	}{
		"missed": {"h3", "#1 Rd8#", "250 h6", 1}, "played": {"Rd8#", "#1 Rd8#", "", 0}, "another mate left": {"h3", "#1 Rd8#", "#4 h6", 0},
		"long": {"h3", "#4 Rd8#", "250 h6", 0}, "three": {"h3", "#3 Rd8#", "250 h6", 3}, "mated in place of it": {"h3", "#2 Rd8#", "#-5 h6", 2},
		"at least a mate": {"h3", ">#2 Rd8#", "250 h6", 2}, "at most a mate": {"h3", "<#2 Rd8#", "250 h6", 0},
		"at least so good after": {"h3", "#2 Rd8#", ">250 h6", 0}, "at most so good after": {"h3", "#2 Rd8#", "<250 h6", 2},
	} {
		p := place(t, backRank)
		move, next := moved(t, p, test.san)
		m := Moment{Place: p, Move: move, Before: made(t, p, 14, test.before)}
		if test.after != "" {
			m.After = made(t, next, 14, test.after)
		}
		missed, ok := m.MissedMate()
		if ok != (test.want > 0) || missed.In != test.want {
			t.Errorf("%s: %v %+v, want %d", name, ok, missed, test.want)
		}
		if m.After == nil {
			continue
		}
		turned := Moment{Place: mirrored(t, p), Move: mirroredMove(move), Before: mirroredOpinion(m.Before), After: mirroredOpinion(m.After)}
		if other, same := turned.MissedMate(); same != ok || other.In != missed.In {
			t.Errorf("%s turned over: %v %+v", name, same, other)
		}
	}
}

// TestOnlyMove: the second-best loses, or lets the win go; with near misses.
func TestOnlyMove(t *testing.T) {
	for name, test := range map[string]struct {
		lines []string
		holds bool
		wins  bool
	}{
		"holds":                     {[]string{"0 Bxd5 h6", "-350 h3 Nf6"}, true, false},
		"a little worse and holds":  {[]string{"-100 Bxd5 h6", "-400 h3 Nf6"}, true, false},
		"keeps the lead":            {[]string{"80 Bxd5 h6", "-350 h3 Nf6"}, true, false},
		"wins":                      {[]string{"400 Bxd5 h6", "60 h3 Nf6"}, true, true},
		"better is no win":          {[]string{"250 Bxd5 h6", "0 h3 Nf6"}, false, false},
		"second still hopes":        {[]string{"400 Bxd5 h6", "200 h3 Nf6"}, false, false},
		"second not lost":           {[]string{"0 Bxd5 h6", "-290 h3 Nf6"}, false, false},
		"bad anyway":                {[]string{"-200 Bxd5 h6", "-900 h3 Nf6"}, false, false},
		"one line":                  {[]string{"0 Bxd5 h6"}, false, false},
		"first at least":            {[]string{">0 Bxd5 h6", "-350 h3 Nf6"}, true, false},
		"first at most":             {[]string{"<0 Bxd5 h6", "-350 h3 Nf6"}, false, false},
		"second at most":            {[]string{"0 Bxd5 h6", "<-350 h3 Nf6"}, true, false},
		"second at least":           {[]string{"0 Bxd5 h6", ">-350 h3 Nf6"}, false, false},
		"mate against drawing":      {[]string{"#4 Bxd5 h6", "0 h3 Nf6"}, true, true},
		"drawing against mated":     {[]string{"0 Bxd5 h6", "#-4 h3 Nf6"}, true, false},
		"both win":                  {[]string{"#4 Bxd5 h6", "500 h3 Nf6"}, false, false},
		"at least a win that holds": {[]string{">320 Bxd5 h6", "<0 h3 Nf6"}, true, true},
	} {
		p := place(t, freeKnight)
		o := made(t, p, 14, test.lines...)
		only, ok := o.OnlyMove(p)
		if ok != test.holds || only.Wins != test.wins || only.Ahead != (name == "keeps the lead") {
			t.Errorf("%s: %v %+v", name, ok, only)
		}
		other, same := mirroredOpinion(o).OnlyMove(mirrored(t, p))
		if same != ok || ok && (other.Wins != only.Wins || other.Ahead != only.Ahead || !near(other.Loses, only.Loses) || other.Move != mirroredMove(only.Move)) {
			t.Errorf("%s turned over: %v %+v", name, same, other)
		}
	}
	p := place(t, freeKnight)
	shallow := made(t, p, depthLeast-1, "0 Bxd5 h6", "-350 h3 Nf6")
	fresh := made(t, p, 14, "0 Bxd5 h6", "-350 h3 Nf6")
	fresh.Steps[len(fresh.Steps)-settledSteps].First = bitboard.NoMove
	for name, o := range map[string]*Opinion{"shallow": shallow, "fresh": fresh, "none": nil, "empty": {}} {
		if only, ok := o.OnlyMove(p); ok {
			t.Errorf("%s: %+v", name, only)
		}
	}
}

// TestRefutation: the natural capture is among the lines and gives the game away.
func TestRefutation(t *testing.T) {
	p := place(t, freeKnight)
	natural, _ := moved(t, p, "Bxd5")
	for name, test := range map[string]struct {
		lines []string
		why   Natural
		want  bool
	}{
		"fails":             {[]string{"100 h3 h6", "-350 Bxd5 h6 h3"}, TakesFree, true},
		"level is failing":  {[]string{"350 h3 h6", "0 Bxd5 h6 h3"}, TakesFree, true},
		"still better":      {[]string{"500 h3 h6", "120 Bxd5 h6 h3"}, TakesFree, false},
		"not natural":       {[]string{"100 h3 h6", "-350 Bxd5 h6 h3"}, NotNatural, false},
		"the first choice":  {[]string{"100 Bxd5 h6", "-350 h3 h6"}, TakesFree, false},
		"not among them":    {[]string{"100 h3 h6", "-350 g3 h6"}, TakesFree, false},
		"no answer known":   {[]string{"100 h3 h6", "-350 Bxd5"}, TakesFree, false},
		"at least so good":  {[]string{"100 h3 h6", ">-350 Bxd5 h6"}, TakesFree, false},
		"at most so good":   {[]string{"100 h3 h6", "<-350 Bxd5 h6"}, TakesFree, true},
		"a little worse":    {[]string{"0 h3 h6", "-120 Bxd5 h6"}, TakesFree, false},
		"best may be worse": {[]string{"<100 h3 h6", "-350 Bxd5 h6"}, TakesFree, false},
	} {
		o := made(t, p, 14, test.lines...)
		r, ok := o.Refutation(p, natural, test.why)
		if ok != test.want {
			t.Errorf("%s: %v %+v", name, ok, r)
		}
		after := *p
		after.Make(natural)
		if ok && (len(r.Answer) == 0 || Playable(&after, r.Answer) != len(r.Answer)) {
			t.Errorf("%s: the answer %v cannot be played", name, r.Answer)
		}
		other, same := mirroredOpinion(o).Refutation(mirrored(t, p), mirroredMove(natural), test.why)
		if same != ok || !reflect.DeepEqual(other.Answer, mirroredMoves(r.Answer)) {
			t.Errorf("%s turned over: %v %+v", name, same, other)
		}
	}
}
