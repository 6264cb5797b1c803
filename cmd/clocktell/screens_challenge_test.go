package main

import (
	"testing"

	"clocktell/overlay/wire"
)

const (
	usualQuestion = "Black to move: what would you play?"
	longQuestion  = "Black to move: the bishop on b3 looks at f7 and the centre is open, so is there more than the pawn, and which of the two quiet moves keeps it?"
)

// onAirOf is what the desk has put on the air, with the board it is about.
func onAirOf(b wire.Board, air wire.Air) screen {
	air.Type, air.Rev, air.Board = wire.TypeAir, 1, b.Board
	frames := screenShow(false, b)
	return screen{frames: append(frames[:1:1], append([]any{air}, frames[1:]...)...)}
}

// askedScreen is a question put so many seconds ago, as the scene of challenges draws it.
func askedScreen(query string, seconds int64, more func(*wire.AirChallenge)) func(*testing.T) screen {
	return func(t *testing.T) screen {
		b := screenBoard(t, "thinking")
		c := askedAt(t, b, len(b.Plies), usualQuestion)
		c.Asked = screenNow - 1000*seconds
		c.Ends = c.Asked + 60_000
		if more != nil {
			more(c)
		}
		s := onAirOf(veiled(b), wire.Air{Challenge: c})
		s.query = query
		return s
	}
}

// answered reveals moves so many seconds ago.
func answered(t *testing.T, seconds int64, moves string) func(*wire.AirChallenge) {
	return func(c *wire.AirChallenge) {
		c.State, c.Revealed = wire.ChallengeRevealed, screenNow-1000*seconds
		c.Answer = stepsFrom(t, c.FEN, c.Number, moves)
	}
}

func hinted(hints ...string) func(*wire.AirChallenge) {
	return func(c *wire.AirChallenge) { c.Hints = hints }
}

// mateAsked asks for a mate in one, which is answered.
func mateAsked(t *testing.T) screen {
	b := replayed(t, "e4 e5 Bc4 Nc6 Qh5 Nf6", 40)
	c := askedAt(t, b, 6, "White to move: one move ends it.")
	c.Asked, c.Ends = screenNow-90_000, screenNow-30_000
	answered(t, 4, "Qxf7#")(c)
	return onAirOf(veiled(b), wire.Air{Challenge: c})
}

// challengeScreens are the states of a question.
var challengeScreens = map[string]func(*testing.T) screen{
	"none": func(t *testing.T) screen {
		s := onAirOf(screenBoard(t, "thinking"), wire.Air{})
		s.empty = true
		return s
	},
	"just-asked":  askedScreen("", 1, nil),
	"half":        askedScreen("", 30, hinted("It is not a capture.")),
	"hints":       askedScreen("", 52, hinted("It is not a capture.", "A knight has waited long enough.", "Look at the square that the last move left.")),
	"over":        askedScreen("", 63, hinted("It is not a capture.")),
	"long":        askedScreen("", 20, func(c *wire.AirChallenge) { c.Question = longQuestion }),
	"light":       askedScreen("&theme=light", 40, nil),
	"bold":        askedScreen("&theme=bold", 40, hinted("It is not a capture.")),
	"black-below": askedScreen("&side=black", 20, nil),
	"held-back": func(t *testing.T) screen {
		s := askedScreen("&hold=12", 20, nil)(t)
		s.frames = append(s.frames, wire.Time{Type: wire.TypeTime, Now: screenNow - 12_000, Rate: 0})
		s.then += "pass(3000);"
		return s
	},
	"disconnected": func(t *testing.T) screen { s := askedScreen("", 20, nil)(t); s.then = "lose(); pass(3500);"; return s },
	"answer":       func(t *testing.T) screen { return askedScreen("", 70, answered(t, 2, "Nbd7 Nbd2 Bb7 Nf1"))(t) },
	"played-out":   func(t *testing.T) screen { return askedScreen("", 90, answered(t, 20, "Nbd7 Nbd2 Bb7 Nf1"))(t) },
	"mate":         mateAsked,
}

// explaining is what the board scene shows of the desk.
var explaining = map[string]func(*testing.T) screen{
	"explained": func(t *testing.T) screen { return explainedScreen(t, wire.WayFollow, 3, "d4 exd4 Nxd4") },
	"back":      func(t *testing.T) screen { return explainedScreen(t, wire.WayFollow, 4, "") },
	"written":   func(t *testing.T) screen { return explainedScreen(t, wire.WayText, 3, "d4 exd4 Nxd4") },
	"marked": func(t *testing.T) screen {
		b := screenBoard(t, "thinking")
		e := explainedAt(t, b, wire.WayFollow, len(b.Plies), "")
		e.Live, e.Marks = true, []wire.Mark{{Kind: "look", To: "e5"}, {Kind: "plan", From: "c8", To: "b7"}, {Kind: "danger", From: "d4", To: "e5"}, {Kind: "weak", To: "f7"}}
		return onAirOf(b, wire.Air{Explained: e})
	},
	"asked": askedScreen("", 20, nil),
}

// explainedScreen explains a side line that left the game so many plies ago.
func explainedScreen(t *testing.T, way string, ago int, moves string) screen {
	b := replayed(t, "e4 e5 Nf3 Nc6 Bb5 a6 Ba4", 40)
	e := explainedAt(t, b, way, len(b.Plies)-ago, moves)
	e.Name = map[bool]string{true: "the open centre"}[moves != ""]
	return onAirOf(b, wire.Air{Explained: e})
}
