package cue

import (
	"slices"
	"time"
)

// Chapter is a part of a recording that has a name. Times are since its first picture.
type Chapter struct {
	Start, End time.Duration
	Title      string
}

// LeastBetween is how far apart chapters are at least, where nothing else is said: more
// than a list on a screen can be read of nobody looks through. Judgement.
const LeastBetween = 45 * time.Second

// weights says how much a cue is worth as a chapter; what is not there is none. Judgement:
// first where the picture changes, then what decides, then what people showed and asked,
// then what the clocks tell.
var weights = map[Kind]int{
	KindSegment: 100, KindResult: 90, KindQuestion: 80, KindAnswer: 75, KindLine: 70,
	"novelty": 65, "leftPreparation": 60, "timeTrouble": 55, "flagNear": 52, KindGame: 50, "longThink": 45, "firstThink": 40, KindCaption: 30,
}

// elsewhere is by how much a cue of a board that is not on the air is worth less.
const elsewhere = 35

// repeats reports a cue that says nothing new if another has the same title: to be in time
// trouble goes on, but a board comes on the air again.
func (c *Cue) repeats() bool {
	return c.Kind != KindSegment && c.Kind != KindQuestion && c.Kind != KindAnswer && c.Kind != KindLine
}

func (c *Cue) weight() int {
	w := weights[c.Kind]
	if w == 0 || c.Title == "" {
		return 0
	}
	if c.Board != 0 && !c.OnAir {
		w -= elsewhere
	}
	return max(0, w)
}

// Chapters chooses the chapters of a recording: the weightiest cues, the earlier of equals,
// none nearer to another than least, nor a state a second time. They follow on each other without gaps from the first
// picture on, and the first is named by the board that is on the air there, or else by
// title. A recording without a whole second has none.
func (t Tape) Chapters(cues []Cue, title string, least time.Duration) []Chapter {
	length := t.Ends.Sub(t.Start).Truncate(time.Millisecond)
	if length < time.Second {
		return nil
	}
	least = max(least, time.Millisecond)
	chapters := []Chapter{{Title: t.firstTitle(cues, title, least)}}
	placed := t.Place(cues)
	slices.SortStableFunc(placed, func(a, b Placed) int { return b.weight() - a.weight() })
	for _, p := range placed {
		start := p.After.Truncate(time.Millisecond)
		taken := slices.ContainsFunc(chapters, func(c Chapter) bool { return (c.Start-start).Abs() < least || c.Title == p.Title && p.repeats() })
		if p.weight() > 0 && !taken && start < length {
			chapters = append(chapters, Chapter{Start: start, Title: p.Title})
		}
	}
	slices.SortFunc(chapters, func(a, b Chapter) int { return int(a.Start - b.Start) })
	for i := range chapters {
		chapters[i].End = length
		if i+1 < len(chapters) {
			chapters[i].End = chapters[i+1].Start
		}
	}
	return chapters
}

// firstTitle returns the name of what is on the air as the recording begins, or soon after.
func (t Tape) firstTitle(cues []Cue, title string, least time.Duration) string {
	for _, c := range cues {
		if c.Kind == KindSegment && c.Title != "" && t.Channel.Aired(c.At).Sub(t.Start) < least {
			title = c.Title
		}
	}
	return title
}
