package main

import (
	"maps"
	"testing"

	"clocktell/overlay/wire"
)

// boardStates are the states of a board of which pictures are kept, by name.
var boardStates = map[string]func(t *testing.T) wire.Board{
	"start":       func(t *testing.T) wire.Board { return screenBoard(t, "start") },
	"preparation": func(t *testing.T) wire.Board { return screenBoard(t, "preparation") },
	"long-think": func(t *testing.T) wire.Board {
		b := screenBoard(t, "long think")
		b.Alerts[0].At, b.Alerts[0].Evidence = screenNow-3000, "6:52, the longest so far"
		return b
	},
	"time-trouble": func(t *testing.T) wire.Board { return screenBoard(t, "time trouble") },
	"novelty":      func(t *testing.T) wire.Board { return screenBoard(t, "novelty") },
	"correction": func(t *testing.T) wire.Board {
		b := screenBoard(t, "thinking")
		last := b.Plies[len(b.Plies)-1]
		b.Correction = &wire.Correction{Ply: last.Number, Was: "d3", Is: last.SAN, At: screenNow - 2000}
		return b
	},
	"stale":      func(t *testing.T) wire.Board { return screenBoard(t, "stale") },
	"long-game":  func(t *testing.T) wire.Board { return replayed(t, demoMoves(t), 95, 140, 62, 210, 118, 75, 260) },
	"long-names": func(t *testing.T) wire.Board { return longNames(screenBoard(t, "time trouble")) },
	"promotion":  promoted,
	"mate":       mated,
	"no-clocks":  func(t *testing.T) wire.Board { return screenBoard(t, "no clocks") },
	"draw-estimated": func(t *testing.T) wire.Board {
		b := screenBoard(t, "estimated result")
		b.Result = "1/2-1/2"
		return b
	},
}

// longNames gives a board names of which no part may be too long. All their letters are in the type
// that the pages bring along: what a machine has else is not compared.
func longNames(b wire.Board) wire.Board {
	b.Event = "Velmarin Harbour Festival of Rapid and Very Rapid Chess under the Patronage of the Lighthouse Keepers"
	b.White.Short, b.Black.Short = "Wölfflin-Szczebrzeszyński de la Fuente y Ochoa", "Żółkiewicz-Ravelomanantsoa-Ķēniņš"
	b.Opening = wire.Opening{Code: "C84", Name: "Spanish Game, Closed, with a Bishop at the Lighthouse and a Knight on the Quay"}
	return b
}

// boardScreens are the states of a scene that shows boards, laid out by it.
func boardScreens(of func(*testing.T, wire.Board) screen, more ...map[string]func(*testing.T) screen) map[string]func(*testing.T) screen {
	out := map[string]func(*testing.T) screen{
		"waiting": func(*testing.T) screen { return screen{frames: screenShow(false)} },
	}
	for name, board := range boardStates {
		out[name] = func(t *testing.T) screen { return of(t, board(t)) }
	}
	change := func(name, state string, how func(*screen)) {
		out[name] = func(t *testing.T) screen { s := of(t, boardStates[state](t)); how(&s); return s }
	}
	change("disconnected", "preparation", func(s *screen) { s.then += "lose(); pass(3500);" })
	change("held-back", "preparation", func(s *screen) {
		s.query += "&hold=12"
		s.frames = append(s.frames, wire.Time{Type: wire.TypeTime, Now: screenNow - 12_000, Rate: 0})
		s.then += "pass(3000);"
	})
	change("quiet", "time-trouble", func(s *screen) { show := s.frames[0].(wire.Show); show.Quiet = true; s.frames[0] = show })
	change("light", "time-trouble", func(s *screen) { s.query += "&theme=light" })
	change("bold", "long-think", func(s *screen) { s.query += "&theme=bold" })
	change("black-below", "novelty", func(s *screen) { s.query += "&side=black" })
	for _, m := range more {
		maps.Copy(out, m)
	}
	return out
}

// pointing is what the board scene alone has: marks of the sentence on the air.
var pointing = map[string]func(*testing.T) screen{"pointing": func(t *testing.T) screen {
	marks := []wire.Mark{{Kind: "look", To: "e5"}, {Kind: "danger", From: "f3", To: "e5"}, {Kind: "guard", From: "d6", To: "e5"}, {Kind: "plan", From: "d1", To: "e2"}}
	caption := wire.CaptionFrame{Type: wire.TypeCaption, Rev: 1, Caption: &wire.Caption{Text: "The pawn on e5 holds.", Board: 1, Marks: marks, At: screenNow, Until: 9e15}}
	return screen{frames: append(screenShow(false, screenBoard(t, "thinking")), caption)}
}}

// leaning is what the board scene alone has: which way the engine leans.
var leaning = map[string]func(*testing.T) screen{
	"lean": func(t *testing.T) screen {
		return leanScreen(t, wire.Lean{Side: "white", Size: 2, Text: "Engine: White better"})
	},
	"lean-level": func(t *testing.T) screen { return leanScreen(t, wire.Lean{Text: "Engine: level"}) },
	"lean-black": func(t *testing.T) screen {
		s := leanScreen(t, wire.Lean{Side: "black", Size: 3, Text: "Engine: Black clearly better"})
		s.query += "&theme=light"
		return s
	},
}

func leanScreen(t *testing.T, lean wire.Lean) screen {
	b := screenBoard(t, "thinking")
	lean.Board = b.Board
	return onAirOf(b, wire.Air{Lean: &lean})
}
