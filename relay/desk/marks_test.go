package desk

import (
	"slices"
	"testing"
)

func marking(meaning, from, to string) Act { return Act{Action: "mark-" + meaning, From: from, To: to} }

// TestMarks: drawn once, taken off by the same again, gone with the next move unless kept.
func TestMarks(t *testing.T) {
	tb := newTable(t, "e4")
	tb.does(marking("weak", "", "d5"))
	tb.does(marking("plan", "g8", "f6"))
	tb.does(marking("threat", "f6", "f6")) // an arrow to itself is a square
	want := []Mark{{Weak, "", "d5"}, {Plan, "g8", "f6"}, {Threat, "", "f6"}}
	if !slices.Equal(tb.state.Marks, want) {
		t.Fatalf("marks %v, want %v", tb.state.Marks, want)
	}
	tb.does(marking("plan", "g8", "f6"))
	if slices.Contains(tb.state.Marks, want[1]) || len(tb.state.Marks) != 2 {
		t.Errorf("the same again leaves %v", tb.state.Marks)
	}
	tb.does(do("undo"))
	if len(tb.state.Marks) != 3 {
		t.Errorf("taken back, there are %v", tb.state.Marks)
	}
	tb.play(1, "e5")
	if len(tb.state.Marks) != 0 {
		t.Errorf("after the next move there are %v", tb.state.Marks)
	}
	tb.does(do("keep-marks"))
	tb.does(marking("attention", "", "e5"))
	tb.play(1, "Nf3")
	if len(tb.state.Marks) != 1 {
		t.Errorf("kept marks are %v", tb.state.Marks)
	}
	tb.does(do("clear-marks"))
	if len(tb.state.Marks) != 0 {
		t.Errorf("cleared, there are %v", tb.state.Marks)
	}
	tb.refused(marking("weak", "", "j9"), "no square")
	tb.refused(marking("weak", "e", "e4"), "no square")
}

// TestMarksStayOnTheirPosition: a step away, marks of one position would point at what is
// not there.
func TestMarksStayOnTheirPosition(t *testing.T) {
	tb := newTable(t, "e4 e5")
	tb.does(marking("weak", "", "e5"))
	tb.does(do("back"))
	if len(tb.state.Marks) != 0 {
		t.Errorf("one move back there are %v", tb.state.Marks)
	}
	tb.does(marking("weak", "", "e4"))
	tb.play(1, "Nf3") // the live game goes on elsewhere
	if len(tb.state.Marks) != 1 {
		t.Errorf("a live move takes the marks of another position off")
	}
}

// TestMarkFact makes marks of what a sentence points at, on its board.
func TestMarkFact(t *testing.T) {
	tb := newTable(t, "e4", "d4")
	tb.marks = map[string][]Mark{"": {{Attention, "", "e4"}, {Guard, "d2", "e3"}}}
	tb.does(do("back"))
	tb.does(do("mark-fact"))
	if !tb.state.Place.Live || !slices.Equal(tb.state.Marks, tb.marks[""]) {
		t.Errorf("marks %v at %+v", tb.state.Marks, tb.state.Place)
	}
	tb.does(do("mark-fact"))
	if len(tb.state.Marks) != 2 {
		t.Errorf("marked twice there are %v", tb.state.Marks)
	}
	tb.refused(Act{Action: "mark-fact", Prompt: "gone"}, "")
}

func TestMarksMost(t *testing.T) {
	tb := newTable(t, "e4")
	for n := range marksMost {
		tb.does(marking("weak", "", string([]byte{byte('a' + n%8), byte('1' + n/8)})))
	}
	tb.refused(marking("plan", "", "h8"), "there can be 40")
}
