package relay_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// silentHall is a stage whose feed has fallen silent: one prompt stands, about it.
func silentHall(t *testing.T) (*relaytest.Stage, string) {
	t.Helper()
	plan := relaytest.Plan()
	plan.CaptionFor = 20 * time.Second
	s := relaytest.NewStageOf(plan)
	s.Take(relaytest.Packet(relaytest.Game{Control: "600+5", Moves: "e4 e5"}))
	s.Wait(16 * time.Second)
	if len(s.Show.Said.Items) != 1 {
		t.Fatalf("%d prompts, want the one about the feed", len(s.Show.Said.Items))
	}
	return s, s.Show.Said.Items[0].Key()
}

// does returns an act on a prompt.
func does(who string, act relay.PanelAct, prompt string) relay.AtPanel {
	return relay.AtPanel{Who: who, Act: act, Prompt: prompt}
}

func over(e relay.AtPanel) relay.AtPanel {
	e.Over = true
	return e
}

// listed returns the prompt of that key, nil if it is not listed.
func listed(s *relaytest.Stage, key string) *relay.BoardPrompt {
	for i := range s.Show.Said.Items {
		if item := &s.Show.Said.Items[i]; item.Key() == key {
			return item
		}
	}
	return nil
}

func useOf(t *testing.T, s *relaytest.Stage, key string) relay.Use {
	t.Helper()
	item := listed(s, key)
	if item == nil {
		t.Fatalf("prompt %s is not listed", key)
	}
	return item.Use
}

// TestUse: every order of acts of two co-hosts leads where they expect, and a prompt that
// one of them has is not the other's by accident.
func TestUse(t *testing.T) {
	const ada, ben = "Ada", "Ben"
	type step struct {
		who, act string
		refused  string // part of the reason, "" none
	}
	for name, test := range map[string]struct {
		steps []step
		want  relay.UseState
		by    string
	}{
		"taken":              {[]step{{ada, "take", ""}}, relay.UseTaken, ada},
		"taken twice":        {[]step{{ada, "take", ""}, {ada, "take", ""}}, relay.UseTaken, ada},
		"conflict":           {[]step{{ada, "take", ""}, {ben, "take", "Ada has it"}}, relay.UseTaken, ada},
		"taken over":         {[]step{{ada, "take", ""}, {ben, "take!", ""}, {ada, "said", "Ben has it"}}, relay.UseTaken, ben},
		"said by the taker":  {[]step{{ada, "take", ""}, {ada, "said", ""}}, relay.UseSaid, ada},
		"said by another":    {[]step{{ada, "take", ""}, {ben, "said", "Ada has it"}}, relay.UseTaken, ada},
		"said at once":       {[]step{{ben, "said", ""}}, relay.UseSaid, ben},
		"said twice":         {[]step{{ben, "said", ""}, {ada, "said", "Ben has said it"}}, relay.UseSaid, ben},
		"taken after said":   {[]step{{ben, "said", ""}, {ada, "take", "Ben has said it"}}, relay.UseSaid, ben},
		"dropped":            {[]step{{ben, "drop", ""}}, relay.UseDropped, ben},
		"taken though":       {[]step{{ben, "drop", ""}, {ada, "take", ""}}, relay.UseTaken, ada},
		"dropped while had":  {[]step{{ada, "take", ""}, {ben, "drop", "Ada has it"}}, relay.UseTaken, ada},
		"given back":         {[]step{{ada, "take", ""}, {ada, "undo", ""}}, relay.UseOpen, ""},
		"undone by another":  {[]step{{ada, "take", ""}, {ben, "undo", "Ada has it"}}, relay.UseTaken, ada},
		"said undone":        {[]step{{ada, "said", ""}, {ben, "undo", ""}}, relay.UseOpen, ""},
		"nothing to undo":    {[]step{{ada, "undo", ""}}, relay.UseOpen, ""},
		"pinned stays taken": {[]step{{ada, "take", ""}, {ben, "pin", ""}, {ben, "unpin", ""}}, relay.UseTaken, ada},
	} {
		t.Run(name, func(t *testing.T) {
			s, key := silentHall(t)
			for i, step := range test.steps {
				act, isOver := strings.CutSuffix(step.act, "!")
				e := does(step.who, relay.PanelAct(act), key)
				e.Over = isOver
				if got := s.AtPanel(e); got != step.refused && (step.refused == "" || !strings.Contains(got, step.refused)) {
					t.Fatalf("step %d: refused with %q, want %q", i, got, step.refused)
				}
			}
			if use := useOf(t, s, key); use.Is() != test.want || use.By != test.by {
				t.Errorf("%s by %q, want %s by %q", use.Is(), use.By, test.want, test.by)
			}
		})
	}
}

// TestKeptWhileUsed: what somebody has taken, said or pinned stays listed when it is no
// longer true; what nobody uses leaves.
func TestKeptWhileUsed(t *testing.T) {
	for act, kept := range map[relay.PanelAct]bool{
		relay.PanelTake: true, relay.PanelSaid: true, relay.PanelPin: true, relay.PanelDrop: false, relay.PanelUndo: false,
	} {
		s, key := silentHall(t)
		s.AtPanel(does("Ada", act, key))
		s.Same(time.Minute)
		item := listed(s, key)
		if got := item != nil; got != kept {
			t.Errorf("after %s: listed is %v, want %v", act, got, kept)
		}
		if item != nil && item.Withdrawn.IsZero() {
			t.Errorf("after %s it still holds", act)
		}
		if act != relay.PanelPin {
			continue
		}
		if s.AtPanel(does("Ben", relay.PanelUnpin, key)); listed(s, key) != nil {
			t.Error("unpinned, and no longer true, it is still listed")
		}
	}
}

// TestSaidLate: a panel that was cut off tells what was said meanwhile, although the
// prompt has left the list; taking it is too late.
func TestSaidLate(t *testing.T) {
	s, key := silentHall(t)
	s.Same(time.Minute)
	if got := s.AtPanel(does("Ada", relay.PanelTake, key)); !strings.Contains(got, "no longer listed") {
		t.Errorf("taken: %q", got)
	}
	if got := s.AtPanel(does("Ada", relay.PanelSaid, key)); got != "" {
		t.Fatalf("said: %q", got)
	}
	if use := useOf(t, s, key); use.State != relay.UseSaid || use.By != "Ada" {
		t.Errorf("%+v", use)
	}
	if got := s.AtPanel(does("Ada", relay.PanelSaid, "no such prompt")); got == "" {
		t.Error("a prompt that never was can be said")
	}
}

// TestDoneOnce: an act sent again is the same act, whatever has happened since.
func TestDoneOnce(t *testing.T) {
	s, key := silentHall(t)
	e := does("Ada", relay.PanelTake, key)
	e.ID, e.At = "once", s.Now
	s.Apply(e)
	s.AtPanel(over(does("Ben", relay.PanelTake, key)))
	s.Apply(e)
	if use := useOf(t, s, key); use.By != "Ben" {
		t.Errorf("%s has it: the act was done twice", use.By)
	}
}

// TestPanelLimits: every limit of the table holds, and says so.
func TestPanelLimits(t *testing.T) {
	s, key := silentHall(t)
	for _, test := range []struct {
		e    relay.AtPanel
		want string
	}{
		{relay.AtPanel{Who: "Ada", Act: "shout"}, "no act"},
		{does("", relay.PanelTake, key), "who you are"},
		{does(" \t", relay.PanelTake, key), "who you are"},
		{does(strings.Repeat("é", relay.WhoMost+1), relay.PanelTake, key), "who you are"},
		{does(strings.Repeat("é", relay.WhoMost), relay.PanelTake, key), ""},
		{does("A\x00", relay.PanelTake, key), "who you are"},
		{relay.AtPanel{Who: "Ada", Act: relay.PanelNote}, "1 to 200"},
		{relay.AtPanel{Who: "Ada", Act: relay.PanelNote, Text: strings.Repeat("x", relay.PanelTextMost+1)}, "1 to 200"},
		{relay.AtPanel{Who: "Ada", Act: relay.PanelAir}, "1 to 200"},
		{relay.AtPanel{Who: "Ada", Act: relay.PanelOff}, "no sentence is on the air"},
		{relay.AtPanel{Who: "Ada", Act: relay.PanelWipe, Note: "none"}, "no longer there"},
	} {
		if got := s.AtPanel(test.e); got != test.want && (test.want == "" || !strings.Contains(got, test.want)) {
			t.Errorf("%+v: %q, want %q", test.e, got, test.want)
		}
	}
	for i := range 60 {
		s.AtPanel(relay.AtPanel{Who: "Ada", Act: relay.PanelNote, Text: fmt.Sprint(i)})
	}
	notes := s.Show.Table.Notes
	if len(notes) != 50 || notes[0].Text != "10" || notes[49].Text != "59" {
		t.Errorf("%d notes are kept, want the newest 50", len(notes))
	}
	if got := s.AtPanel(relay.AtPanel{Who: "Ben", Act: relay.PanelWipe, Note: notes[3].ID}); got != "" || len(s.Show.Table.Notes) != 49 {
		t.Errorf("wiping a note: %q, %d left", got, len(s.Show.Table.Notes))
	}
}

// manyPrompts is a stage on which the feed has fallen silent that often, and somebody did
// the same with every prompt about it.
func manyPrompts(t *testing.T, n int, act relay.PanelAct) (s *relaytest.Stage, refused string) {
	s, key := silentHall(t)
	for range n {
		if refused = s.AtPanel(does("Ada", act, key)); refused != "" {
			return s, refused
		}
		s.Same(20 * time.Second)
		s.Wait(17 * time.Second)
		key = s.Show.Said.Items[0].Key()
	}
	return s, ""
}

// TestUsedLimits: what is kept for people has its limits too.
func TestUsedLimits(t *testing.T) {
	s, _ := manyPrompts(t, 30, relay.PanelSaid)
	said := 0
	for _, item := range s.Show.Said.Items {
		if item.Use.State == relay.UseSaid {
			said++
		}
	}
	if said != 20 {
		t.Errorf("%d prompts said are listed, want the newest 20", said)
	}
	if _, refused := manyPrompts(t, 30, relay.PanelPin); !strings.Contains(refused, "20 sentences") {
		t.Errorf("pinning without end: %q", refused)
	}
}

// TestPanelLog: the show log tells what people did, and nothing of what was refused.
func TestPanelLog(t *testing.T) {
	s, key := silentHall(t)
	s.AtPanel(does("Ada", relay.PanelTake, key))
	s.AtPanel(does("Ben", relay.PanelTake, key))
	s.AtPanel(does("Ada", relay.PanelSaid, key))
	var got []string
	for _, n := range s.Show.Log.After(0) {
		if n.Kind == relay.NotePanel {
			got = append(got, n.Was+" "+n.Is+": "+n.Text)
		}
	}
	text := s.Show.Said.Items[0].Text
	if want := []string{"Ada take: " + text, "Ada said: " + text}; fmt.Sprint(got) != fmt.Sprint(want) {
		t.Errorf("%q, want %q", got, want)
	}
}
