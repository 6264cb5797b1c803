package desk

import (
	"regexp"
	"strings"
	"testing"
)

// TestLead: whoever comes first leads; another is told, can ask, is given the lead or
// takes it over in the open.
func TestLead(t *testing.T) {
	by := func(who string, act Act) Act {
		act.Who = who
		return act
	}
	tb := newTable(t, "e4 e5")
	tb.does(by("Ada", do("back")))
	if tb.state.Lead != "Ada" {
		t.Fatalf("%q leads", tb.state.Lead)
	}
	tb.refused(by("Ben", do("back")), "Ada leads the desk")
	tb.does(do("back")) // a button box acts for whoever leads
	tb.refused(by("Ben", do("lead")), "Ada leads")
	tb.refused(by("Ada", do("ask-for-lead")), "you lead already")
	tb.does(by("Ben", do("ask-for-lead")))
	tb.refused(by("Cem", do("ask-for-lead")), "Ben has asked already")
	tb.refused(by("Ben", do("hand-over")), "only Ada")
	tb.does(by("Ada", do("hand-over")))
	if tb.state.Lead != "Ben" || tb.state.Asks != "" {
		t.Errorf("%q leads, %q asks", tb.state.Lead, tb.state.Asks)
	}
	tb.does(by("Ada", Act{Action: "lead", Over: true}))
	if tb.state.Lead != "Ada" {
		t.Errorf("taken over, %q leads", tb.state.Lead)
	}
	tb.does(by("Ada", Act{Action: "hand-over", Text: "Cem"}))
	if tb.state.Lead != "Cem" {
		t.Errorf("handed to Cem, %q leads", tb.state.Lead)
	}
	tb.does(by("Cem", do("hand-over")))
	tb.does(by("Ben", do("forward")))
	if tb.state.Lead != "Ben" {
		t.Errorf("handed to nobody, then Ben did something: %q leads", tb.state.Lead)
	}
	tb.refused(do("lead"), "say who you are")
	tb.refused(do("ask-for-lead"), "say who you are")
	tb.refused(by("Ben", Act{Action: "hand-over", Text: strings.Repeat("x", WhoMost+1)}), "1 to 40")
	tb.refused(by(strings.Repeat("x", WhoMost+1), do("back")), "1 to 40")
}

// TestActions holds the table to what its uses ask of it: names fit for an address and the
// journal, a key of its own, words for people, fields that an act has.
func TestActions(t *testing.T) {
	names, keys := map[string]bool{}, map[string]bool{}
	isName := regexp.MustCompile(`^[a-z]+(-[a-z]+)*$`)
	fields := map[string]bool{}
	for _, f := range strings.Fields("over board ply move san from to text on seconds hints prompt steps") {
		fields[f] = true
	}
	for _, a := range Actions {
		switch {
		case !isName.MatchString(a.Name) || names[a.Name]:
			t.Errorf("the name %q is none, or is there twice", a.Name)
		case a.Key == "" || keys[a.Key]:
			t.Errorf("%s: the key %q is none, or another's", a.Name, a.Key)
		case a.Title == "" || !strings.HasSuffix(a.Does, ".") || a.Group == "" || a.do == nil:
			t.Errorf("%s lacks something", a.Name)
		}
		names[a.Name], keys[a.Key] = true, true
		for _, f := range a.Takes {
			if !fields[f.Name] || f.Does == "" {
				t.Errorf("%s takes %q, which an act has not, or does not say what it is", a.Name, f.Name)
			}
		}
	}
	tb := newTable(t, "e4")
	tb.refused(do("dance"), "no action")
	tb.does(do("turn"))
	tb.does(do("quiet"))
	if !tb.state.Turned {
		t.Error("the board is not turned")
	}
	no := false
	tb.does(Act{Action: "turn", On: &no})
	tb.does(Act{Action: "turn", On: &no})
	if tb.state.Turned {
		t.Error("told so twice, the board is turned")
	}
}
