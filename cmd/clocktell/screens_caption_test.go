package main

import (
	"strings"
	"testing"

	"clocktell/overlay/wire"
)

// saidCaption is a sentence on the air.
func saidCaption(query string, c wire.Caption) func(*testing.T) screen {
	c.At, c.Until, c.Marks = screenNow, 9e15, []wire.Mark{}
	return func(*testing.T) screen {
		own := c // whoever changes it, to plant a fault, changes no other's
		return screen{query: query, frames: append(screenShow(false), wire.CaptionFrame{Type: wire.TypeCaption, Rev: 1, Caption: &own})}
	}
}

const captionSource = "board 1 · Quintanilha – Tveiterås · move 15"

var tellCaption = wire.Caption{Kind: "tell", Text: "Tveiterås has left preparation: six minutes on a move that was played at once in every game before.", Source: captionSource}

// captionScreens are the states of the caption: each kind with its edge, what is hard to set, and
// what happens to a sentence.
var captionScreens = map[string]func(*testing.T) screen{
	"tell":         saidCaption("", tellCaption),
	"clock":        saidCaption("", wire.Caption{Kind: "clock", Text: "Quintanilha has less than a minute for eleven moves.", Source: captionSource}),
	"feed":         saidCaption("", wire.Caption{Kind: "feed", Text: "The hall has sent nothing for two minutes.", Source: "the feed hall"}),
	"reference":    saidCaption("", wire.Caption{Kind: "reference", Text: "1211 games came here, and none of them went on with the knight.", Source: captionSource}),
	"facts":        saidCaption("", wire.Caption{Kind: "facts", Text: "The knight on f6 is pinned, and nothing guards it.", Source: captionSource}),
	"match":        saidCaption("", wire.Caption{Kind: "match", Text: "A draw is enough for Quayside.", Source: "the match"}),
	"own":          saidCaption("", wire.Caption{Text: "Now."}),
	"longest":      saidCaption("", wire.Caption{Kind: "tell", Text: inventedTexts["200 characters"], Source: captionSource}),
	"widest":       saidCaption("", wire.Caption{Kind: "facts", Text: inventedTexts["wide words"], Source: strings.Repeat("wide words ", 9)}),
	"right":        saidCaption("&side=right", tellCaption),
	"light":        saidCaption("&theme=light", tellCaption),
	"bold":         saidCaption("&theme=bold&side=right", wire.Caption{Kind: "clock", Text: "Żółkiewicz thinks about half of what is left: 8½ minutes.", Source: captionSource}),
	"held-back":    saidCaption("&hold=12", tellCaption),
	"quiet":        quietCaption,
	"disconnected": lostCaption,
	"taken-off":    takenOff,
}

// quietCaption stays in quiet mode: a person has put it on.
func quietCaption(t *testing.T) screen {
	s := saidCaption("", wire.Caption{Text: "Quiet mode leaves this on."})(t)
	s.frames = append(screenShow(true), s.frames[1:]...)
	return s
}

// lostCaption stays for a while when the relay is gone.
func lostCaption(t *testing.T) screen {
	s := saidCaption("", wire.Caption{Kind: "clock", Text: "Nobody is there to take this off, and it stays for a minute.", Source: captionSource})(t)
	s.then = "lose(); pass(3500);"
	return s
}

// takenOff leaves nothing.
func takenOff(t *testing.T) screen {
	s := saidCaption("", tellCaption)(t)
	s.frames, s.empty = append(s.frames, wire.CaptionFrame{Type: wire.TypeCaption, Rev: 2}), true
	return s
}
