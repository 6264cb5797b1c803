package relay_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/relaytest"
)

// heard is everything that a show put on the panel, by alert, and what its boards said of
// the time left.
type heard struct {
	items   []relay.BoardPrompt // in the order they came
	outlook []string
}

// hear plays a game without names, from quick moves into time trouble and then silence, in
// a language.
func hear(t *testing.T, code string) heard {
	t.Helper()
	plan := relaytest.Plan()
	plan.Language = code
	white := quickThen(time.Second, 12, 65*time.Second)
	p := newPlayed(t, "900+3", 15*time.Minute, 3*time.Second, [2]pace{white, quickThen(20*time.Second, 30, 3*time.Second)})
	p.stage = relaytest.NewStageOf(plan)
	p.game.White, p.game.Black = "?", "?"
	var got heard
	listed := make(map[string]bool)
	p.look = func() {
		for _, item := range slices.Backward(p.stage.Show.Said.Items) {
			if key := item.Alert.ID + item.Alert.At.String(); !listed[key] {
				listed[key] = true
				got.items = append(got.items, item)
			}
		}
	}
	for range 52 {
		p.move()
	}
	got.outlook = p.stage.Board(1).Outlook(0)
	p.stage.Wait(20 * time.Second)
	p.look()
	return got
}

// TestLanguageOfShow: the language of the plan is that of all the panel says, and nothing
// but the words depends on it.
func TestLanguageOfShow(t *testing.T) {
	english, usual, german := hear(t, "en"), hear(t, ""), hear(t, "de")
	kinds := make(map[relay.AlertKind]bool)
	if len(english.items) != len(german.items) || len(english.items) != len(usual.items) {
		t.Fatalf("%d prompts in English, %d without a language, %d in German", len(english.items), len(usual.items), len(german.items))
	}
	for i, e := range english.items {
		g := german.items[i]
		kinds[e.Alert.Kind] = true
		if !reflect.DeepEqual(usual.items[i].Prompt, e.Prompt) {
			t.Errorf("without a language: %+v, want %+v", usual.items[i].Prompt, e.Prompt)
		}
		if e.Alert.ID != g.Alert.ID || e.Kind != g.Kind || e.Priority != g.Priority || !e.Alert.At.Equal(g.Alert.At) {
			t.Errorf("%+v in English is %+v in German", e, g)
		}
		if e.Text == g.Text || e.Evidence == g.Evidence || e.Ends == g.Ends {
			t.Errorf("not translated: %q (%s), %s", g.Text, g.Evidence, g.Ends)
		}
		t.Logf("%-45s %s (%s)", e.Text, g.Text, g.Evidence)
	}
	for _, kind := range []relay.AlertKind{
		relay.AlertInPreparation, relay.AlertLeftPreparation, relay.AlertTimeTrouble, relay.AlertFeedStale,
	} {
		if !kinds[kind] {
			t.Errorf("nothing of %s was said: the game shows too little", kind)
		}
	}
	german.wants(t, "Weiß ist in Zeitnot: keine Minute mehr auf der Uhr.", "Keine Nachricht aus dem Saal: Uhren und Züge könnten hinterherhinken.")
	if text := strings.Join(german.outlook, "\n"); !strings.Contains(text, "pro Zug") || strings.Contains(text, "move") || len(german.outlook) != len(english.outlook) {
		t.Errorf("outlook %q, in English %q", german.outlook, english.outlook)
	}
}

// wants looks for sentences.
func (h heard) wants(t *testing.T, texts ...string) {
	t.Helper()
	for _, text := range texts {
		if !slices.ContainsFunc(h.items, func(item relay.BoardPrompt) bool { return item.Text == text }) {
			t.Errorf("%q was not said", text)
		}
	}
}

// TestEstimatedInLanguage: where times come from when moves arrived, the evidence says so in
// the language of the show.
func TestEstimatedInLanguage(t *testing.T) {
	for code, want := range map[string]string{"en": " (estimated from when moves arrived)", "de": " (geschätzt nach der Ankunft der Züge)"} {
		plan := relaytest.Plan()
		plan.Language = code
		p := newPlayed(t, "900+2", 15*time.Minute, 2*time.Second, [2]pace{quickThen(2*time.Second, 12, 65*time.Second), always(20 * time.Second)})
		p.stage, p.lost = relaytest.NewStageOf(plan), func(int) bool { return true }
		alerts := 0
		p.look = func() {
			for _, a := range p.stage.Board(1).Alerts {
				if a.Kind == relay.AlertPosition {
					continue // no matter of clocks
				}
				if alerts++; !strings.HasSuffix(a.Say.Evidence, want) {
					t.Fatalf("%s: %q, want it to end%s", code, a.Say.Evidence, want)
				}
			}
		}
		for range 40 {
			p.move()
		}
		if alerts == 0 {
			t.Errorf("%s: no alerts: the game shows too little", code)
		}
	}
}

// TestFiguresOfTrouble: the figures that are said in English are those of relay/tell.
func TestFiguresOfTrouble(t *testing.T) {
	troubles, ends := 0, make(map[string]bool)
	for _, control := range []string{"900+10", "20/900:600"} {
		p := newPlayed(t, control, 15*time.Minute, 0, [2]pace{quickThen(5*time.Second, 8, 50*time.Second), always(20 * time.Second)})
		p.look = func() {
			b := p.stage.Board(1)
			for side := range b.Levels {
				lines := b.Outlook(clock.Side(side))
				if a := b.Ahead[side]; a.Move > 0 {
					lines = lines[:len(lines)-1]
				}
				if got := strings.Join(lines, "; "); got != b.Levels[side].Evidence {
					t.Fatalf("ply %d: %q, want %q", p.plies, got, b.Levels[side].Evidence)
				}
				if b.Levels[side].Evidence != "" {
					troubles++
				}
				for _, end := range []string{"usual think", "to the control", "likely", "at the earliest", "no trouble"} {
					ends[end] = ends[end] || strings.Contains(b.Levels[side].Evidence, end)
				}
			}
		}
		for range 40 {
			p.move()
		}
	}
	for end, seen := range ends {
		if !seen {
			t.Errorf("%q was never said: the games show too little", end)
		}
	}
	t.Logf("%d times", troubles)
}
