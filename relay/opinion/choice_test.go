package opinion

import (
	"testing"

	"clocktell/relay/bitboard"
)

// TestChoice: hard is a choice with few good moves that was found late, easy one where all
// are as good, or where nobody ever thought of another.
func TestChoice(t *testing.T) {
	p := place(t, freeKnight)
	another, _ := moved(t, p, "g3")
	const late = 14
	for name, test := range map[string]struct {
		lines  []string
		before []int // depths at which another move was first
		want   Hardness
		good   int
	}{
		"one good, found late":         {[]string{"0 Bxd5 h6", "-100 h3", "-120 g3"}, []int{4, 5, 6, 7, 8}, Hard, 1},
		"two good, found late":         {[]string{"0 Bxd5 h6", "-10 h3", "-120 g3"}, []int{8}, Hard, 2},
		"one good, back and forth":     {[]string{"0 Bxd5 h6", "-100 h3", "-120 g3"}, []int{4, 6}, Hard, 1},
		"one good, changed once early": {[]string{"0 Bxd5 h6", "-100 h3", "-120 g3"}, []int{4}, Normal, 1},
		"one good, never another":      {[]string{"0 Bxd5 h6", "-100 h3", "-120 g3"}, nil, Easy, 1},
		"one a little better":          {[]string{"0 Bxd5 h6", "-50 h3", "-60 g3"}, []int{8}, Normal, 1},
		"all as good":                  {[]string{"0 Bxd5 h6", "-10 h3", "-20 g3"}, []int{4, 6, 8}, Easy, 3},
		"all as bad":                   {[]string{"-400 Bxd5 h6", "-410 h3", "-420 g3"}, nil, Normal, 3},
		"before it counts":             {[]string{"0 Bxd5 h6", "-100 h3", "-120 g3"}, []int{1, 2, 3}, Easy, 1},
		"first only at least so good":  {[]string{">0 Bxd5 h6", "-100 h3", "-120 g3"}, []int{8}, Normal, 0},
		"second only at most so good":  {[]string{"0 Bxd5 h6", "<-10 h3", "-120 g3"}, []int{8}, Normal, 1},
	} {
		o := made(t, p, late, test.lines...)
		for _, depth := range test.before {
			o.Steps[depth-1].First = another
		}
		c, ok := o.Choice(p)
		if !ok || c.Hard != test.want || c.Good != test.good {
			t.Errorf("%s: %v %+v, want %d with %d good", name, ok, c, test.want, test.good)
		}
		if other, same := mirroredOpinion(o).Choice(mirrored(t, p)); !same || other.Hard != c.Hard || other.Good != c.Good || !near(other.Gap, c.Gap) {
			t.Errorf("%s turned over: %+v", name, other)
		}
	}
	for name, o := range map[string]*Opinion{
		"two lines": made(t, p, late, "0 Bxd5 h6", "-100 h3"), "shallow": made(t, p, depthLeast-1, "0 Bxd5", "0 h3", "0 g3"), "none": nil,
	} {
		if c, ok := o.Choice(p); ok {
			t.Errorf("%s: %+v", name, c)
		}
	}
}

// TestQuiet: level, several moves as good, and none of them takes or gives check.
func TestQuiet(t *testing.T) {
	for name, test := range map[string]struct {
		fen   string
		lines []string
		want  bool
	}{
		"quiet":         {freeKnight, []string{"10 h3 h6", "5 g3 h6", "0 Kf1 h6"}, true},
		"somebody ends": {freeKnight, []string{"60 h3 h6", "55 g3 h6", "50 Kf1 h6"}, false},
		"one takes":     {freeKnight, []string{"10 h3 h6", "5 Bxd5 h6", "0 Kf1 h6"}, false},
		"one worse":     {freeKnight, []string{"10 h3 h6", "5 g3 h6", "-60 Kf1 h6"}, false},
		"one checks":    {backRank, []string{"10 h3 h6", "5 g3 h6", "0 Rd8#"}, false},
		"a bound":       {freeKnight, []string{"10 h3 h6", "<5 g3 h6", "0 Kf1 h6"}, false},
	} {
		p := place(t, test.fen)
		o := made(t, p, 14, test.lines...)
		if got := o.Quiet(p); got != test.want {
			t.Errorf("%s: %v", name, got)
		}
		if got := mirroredOpinion(o).Quiet(mirrored(t, p)); got != test.want {
			t.Errorf("%s turned over: %v", name, got)
		}
	}
}

// TestFirstChoice: the move played was the first line and stays good.
func TestFirstChoice(t *testing.T) {
	const offer = "6k1/5ppp/8/8/8/3B4/5PPP/6K1 w - - 0 30" // Bxh7 gives a bishop for a pawn
	for name, test := range map[string]struct {
		fen, san      string
		before, after []string
		want          bool
		only, clear   bool
		gives         int
	}{
		"first":             {freeKnight, "h3", []string{"0 h3 h6", "-20 g3"}, []string{"0 h6"}, true, false, false, 0},
		"clear":             {freeKnight, "h3", []string{"0 h3 h6", "-60 g3"}, []string{"0 h6"}, true, false, true, 0},
		"only":              {freeKnight, "h3", []string{"0 h3 h6", "-360 g3"}, []string{"0 h6"}, true, true, true, 0},
		"second":            {freeKnight, "g3", []string{"0 h3 h6", "-20 g3"}, []string{"0 h6"}, false, false, false, 0},
		"worse after it":    {freeKnight, "h3", []string{"0 h3 h6"}, []string{"-90 h6"}, false, false, false, 0},
		"lost anyway":       {freeKnight, "h3", []string{"-300 h3 h6"}, []string{"-300 h6"}, false, false, false, 0},
		"unsure after it":   {freeKnight, "h3", []string{"0 h3 h6"}, []string{"<0 h6"}, false, false, false, 0},
		"sacrifice":         {offer, "Bxh7+", []string{"0 Bxh7+ Kxh7 h3 g6"}, []string{"0 Kxh7"}, true, false, false, 200},
		"won back at once":  {"6k1/5ppp/8/3n4/8/3B4/3Q1PPP/6K1 w - - 0 30", "Bxh7+", []string{"0 Bxh7+ Kxh7 Qxd5 g6"}, []string{"0 Kxh7"}, true, false, false, 0},
		"taken by the king": {offer, "Be4", []string{"0 Be4 Kf8"}, []string{"0 Kf8"}, true, false, false, 0},
	} {
		m := momentOf(t, test.fen, test.san, deepBoth, test.before, test.after)
		f, ok := m.FirstChoice()
		if ok != test.want || f.Only != test.only || f.Clear != test.clear || f.Gives != test.gives {
			t.Errorf("%s: %v %+v", name, ok, f)
		}
		turned := Moment{Place: mirrored(t, m.Place), Move: mirroredMove(m.Move), Before: mirroredOpinion(m.Before), After: mirroredOpinion(m.After)}
		if other, same := turned.FirstChoice(); same != ok || other.Only != f.Only || other.Gives != f.Gives {
			t.Errorf("%s turned over: %v %+v", name, same, other)
		}
	}
}

// TestNaturalMove: what takes back comes before what takes a free piece, and that before
// what the reference has.
func TestNaturalMove(t *testing.T) {
	const trade = "6k1/5ppp/8/3p4/2B5/8/5PPP/3R2K1 b - - 0 30" // dxc4 may be answered by Rd8 mate, and takes a bishop
	usual := func(p *bitboard.Position, san string) bitboard.Move {
		if san == "" {
			return bitboard.NoMove
		}
		m, _ := moved(t, p, san)
		return m
	}
	for name, test := range map[string]struct {
		fen, last, usual string
		want             string
		why              Natural
	}{
		"recapture":         {"6k1/5ppp/4p3/3p4/2B5/8/5PPP/6K1 w - - 0 30", "Bxd5", "", "exd5", Recapture},
		"a pawn takes back": {"4r1k1/5ppp/4p3/3p4/2B5/8/5PPP/3R2K1 w - - 0 30", "Bxd5", "", "exd5", Recapture},
		"free piece":        {trade, "h6", "", "", NotNatural},
		"takes a free one":  {freeKnight, "", "h3", "Bxd5", TakesFree},
		"the usual":         {backRank, "", "h3", "h3", MostPlayed},
		"nothing":           {backRank, "", "", "", NotNatural},
		"guarded":           {"6k1/5ppp/4p3/3n4/8/5B2/5PPP/6K1 w - - 0 30", "", "", "", NotNatural},
	} {
		before := place(t, test.fen)
		p, last := before, bitboard.NoMove
		if test.last != "" {
			last, p = moved(t, before, test.last)
		}
		m, why := NaturalMove(before, p, last, usual(p, test.usual))
		if got := m.String(); why != test.why || test.want != "" && p.SAN(m) != test.want {
			t.Errorf("%s: %s, %d", name, got, why)
		}
	}
}
