package main

import (
	"context"
	"strings"
	"testing"

	"clocktell/relay"
	"clocktell/relay/desk"
)

// TestDeskByKeyboard goes through a whole segment without a pointer: a name, a step
// back, a side line on the squares and in the field, marks, on the air, another board, a
// challenge, and back to the live game. Everything that has the focus shows it.
func TestDeskByKeyboard(t *testing.T) {
	ctx := browser(t)
	s := startDesk(t, "e4 e5 Nf3 Nc6")
	visit(t, ctx, "about:blank")
	desk, scene := s.tab(ctx, "/desk"), s.tab(ctx, "/scene/board?board=air&motion=off")
	waitFor(t, desk, "the desk's board", "document.querySelectorAll('#board .man').length > 0 && document.querySelector('#air-action .air-word').textContent !== ''")
	s.tabTo(desk, "#who-name")
	s.types(desk, "Runa")
	s.keys(desk, "Enter", "ArrowLeft", "ArrowLeft")
	s.shows(desk, "two back", after("e4 e5"))
	s.tabTo(desk, "[data-square]")
	s.goTo(desk, "f2")
	s.keys(desk, "Enter")
	s.goTo(desk, "f4")
	s.keys(desk, "Enter")
	s.shows(desk, "the side line from the squares", after("e4 e5 f4"))
	s.keys(desk, "m")
	s.types(desk, "exf4")
	s.keys(desk, "Enter")
	s.shows(desk, "the side line from the field", after("e4 e5 f4 exf4"))
	s.tabTo(desk, "#air-action")
	s.keys(desk, "Enter")
	s.shows(scene, "the side line on the air", after("e4 e5 f4 exf4"))
	s.tabTo(desk, "[data-square]")
	s.goTo(desk, "f4")
	s.keys(desk, "1")
	waitShow(t, s.st, func(s *relay.Show) bool { return len(s.Desk.Marks) == 1 && s.Desk.Marks[0].To == "f4" })
	if ring := evaluate[string](t, desk, "getComputedStyle(document.activeElement).outlineStyle"); ring == "none" {
		t.Error("the square that has the focus does not show it")
	}
	s.keys(desk, "o")
	s.shows(scene, "the live board", after("e4 e5 Nf3 Nc6"))
	s.keys(desk, "]")
	waitShow(t, s.st, func(s *relay.Show) bool { return s.Desk.Place.Board == 2 })
	s.shows(scene, "no other board", after("e4 e5 Nf3 Nc6"))
	s.keys(desk, "[")
	waitShow(t, s.st, func(s *relay.Show) bool { return s.Desk.Place.Board == 1 && s.Desk.Place.Live })
	s.askByKeyboard(desk)
}

// goTo goes from square to square with the arrow keys.
func (s *deskShow) goTo(ctx context.Context, square string) {
	s.t.Helper()
	for range 16 {
		now := evaluate[string](s.t, ctx, "document.activeElement.dataset.square ?? ''")
		switch {
		case now == square:
			return
		case now == "":
			s.t.Fatal("no square has the focus")
		case now[0] < square[0]:
			s.keys(ctx, "ArrowRight")
		case now[0] > square[0]:
			s.keys(ctx, "ArrowLeft")
		case now[1] < square[1]:
			s.keys(ctx, "ArrowUp")
		default:
			s.keys(ctx, "ArrowDown")
		}
	}
	s.t.Fatalf("the arrow keys do not come to %s", square)
}

// askByKeyboard goes through a challenge.
func (s *deskShow) askByKeyboard(desk context.Context) {
	s.t.Helper()
	s.keys(desk, "c")
	waitFor(s.t, desk, "the form", "document.activeElement?.id === 'ask-text'")
	s.types(desk, "What?")
	s.tabTo(desk, "#challenge button[type=submit]")
	s.keys(desk, "Enter")
	waitShow(s.t, s.st, func(s *relay.Show) bool { return s.Desk.Challenge != nil })
	s.keys(desk, "C")
	waitShow(s.t, s.st, func(s *relay.Show) bool { return s.Desk.Asking() != nil })
	s.goOn("Bb5")
	s.keys(desk, "r")
	waitShow(s.t, s.st, func(s *relay.Show) bool { return s.Desk.Challenge != nil && len(s.Desk.Challenge.Answer) == 1 })
	s.keys(desk, "e", "End")
	waitShow(s.t, s.st, func(s *relay.Show) bool { return s.Desk.Challenge == nil && s.Desk.Place.Live })
	s.shows(desk, "the live board", after("e4 e5 Nf3 Nc6 Bb5"))
}

// TestHelpTellsOfEveryAction: what the page lists is the table, all of it.
func TestHelpTellsOfEveryAction(t *testing.T) {
	ctx := browser(t)
	s := startDesk(t, "e4 e5")
	visit(t, ctx, "about:blank")
	page := s.desk(ctx, "Runa")
	s.keys(page, "?")
	waitFor(t, page, "the help", "document.querySelector('dialog[open]') !== null")
	text := evaluate[string](t, page, "document.querySelector('dialog[open]').textContent")
	for _, action := range desk.Actions {
		if !strings.Contains(text, action.Title) || !strings.Contains(text, action.Does) {
			t.Errorf("the help does not tell of %q", action.Name)
		}
	}
}
