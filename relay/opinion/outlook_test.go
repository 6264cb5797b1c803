package opinion

import "testing"

// TestPoints: the scale is the logistic curve with base ten, as the arithmetic of it says:
// level is half a point, four pawns ten to one; mates are the whole point.
func TestPoints(t *testing.T) {
	for text, want := range map[string]Points{
		"0": {.5, .5}, "400": {10. / 11, 10. / 11}, "-400": {1. / 11, 1. / 11}, "#3": {1, 1}, "#-9": {0, 0},
		">0": {.5, 1}, "<0": {0, .5}, ">#-2": {0, 1}, "<#2": {0, 1},
	} {
		s := score(t, text)
		got, other := s.Points(true), s.Points(false)
		if !near(got.Low, want.Low) || !near(got.High, want.High) {
			t.Errorf("%s for White: %v, want %v", text, got, want)
		}
		if !near(other.Low, 1-want.High) || !near(other.High, 1-want.Low) {
			t.Errorf("%s for Black: %v, want the rest of %v", text, other, want)
		}
	}
	last := -1.
	for cp := -3000; cp <= 3000; cp++ {
		p := Score{Centipawns: cp}.Points(true)
		if p.Low <= last || p.Low != p.High {
			t.Fatalf("%d: %v after %v", cp, p, last)
		}
		last = p.Low
	}
}

func near(a, b float64) bool { return a-b < 1e-9 && b-a < 1e-9 }

// TestOutlooks: the classes at their limits, and how far a bound lets them reach.
func TestOutlooks(t *testing.T) {
	for text, want := range map[string][2]Outlook{
		"0": {Level, Level}, "49": {Level, Level}, "50": {Better, Better}, "-50": {Worse, Worse}, "299": {Better, Better}, "300": {Won, Won},
		"-300": {Lost, Lost}, "#1": {Won, Won}, "#-1": {Lost, Lost}, ">60": {Better, Won}, "<60": {Lost, Better}, ">#-4": {Lost, Won}, ">300": {Won, Won},
	} {
		s := score(t, text)
		worst, best := s.Outlooks(true)
		if worst != want[0] || best != want[1] {
			t.Errorf("%s: %d to %d, want %v", text, worst, best, want)
		}
		if other, _ := s.Outlooks(false); other != -best {
			t.Errorf("%s for Black: worst is %d, want %d", text, other, -best)
		}
	}
}
