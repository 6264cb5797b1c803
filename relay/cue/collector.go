package cue

import (
	"fmt"
	"strings"

	"clocktell/relay"
	"clocktell/relay/desk"
	"clocktell/relay/prompt"
)

// Collector makes the cues of a show out of its states, each of which it has to see: it is
// fed by After, or by See where somebody else lets the show go on.
type Collector struct {
	log  Log
	was  *relay.Show
	seen map[string]bool // prompts, by their keys
	line int             // the cue of the side line on the air, as an index; -1: none
	held []Cue           // of a board that a challenge hides, until viewers see it again
}

// NewCollector begins with a show before anything has happened.
func NewCollector(show *relay.Show) *Collector {
	return &Collector{log: Log{Title: show.Title, Language: show.Language(), Began: show.At}, was: show, seen: make(map[string]bool), line: -1}
}

// Log returns what was collected so far. It is the collector's own. What a challenge still
// hides counts as seen at the end.
func (c *Collector) Log() *Log {
	c.seenAgain(c.was)
	c.log.Ended, c.log.Marks = c.was.At, c.was.Recordings
	return &c.log
}

// After returns the show after an event, having seen all that lies between.
func (c *Collector) After(event relay.Event) *relay.Show {
	return c.was.Through(event, c.See)
}

// See takes the next state of the show.
func (c *Collector) See(show *relay.Show) {
	w := wordsOf(show.Language())
	if show.Desk.Hiding() == nil {
		c.seenAgain(show)
	}
	c.segment(show, w)
	for _, n := range show.Log.After(c.was.Log.Total) {
		c.noted(show, w, n)
	}
	c.prompted(show, w)
	c.shown(show, w)
	c.asked(show, w)
	if now, was := show.OnAir.Caption, c.was.OnAir.Caption; now != nil && (was == nil || !was.At.Equal(now.At) || was.Key != now.Key) {
		c.add(show, Cue{Board: now.Board, Kind: KindCaption, Title: cut(now.Text, captionTitleMost), Text: now.Text, Evidence: now.Source})
	}
	if show.Holds.Rev != c.was.Holds.Rev {
		for _, h := range show.Holds.Groups {
			if was, known := c.was.Holds.Of(h.Group); !known || was != h {
				c.log.Holds = append(c.log.Holds, h)
			}
		}
	}
	c.was = show
}

// captionTitleMost is how much of a sentence makes a title, in characters.
const captionTitleMost = 60

func (c *Collector) add(show *relay.Show, cue Cue) {
	cue.At, cue.OnAir = show.At, cue.Board != 0 && cue.Board == show.Desk.Air.Board
	if b := boardOf(show, cue.Board); b != nil {
		cue.White, cue.Black = b.Players[0].Name, b.Players[1].Name
	}
	c.log.Cues = append(c.log.Cues, cue)
}

// addSeen adds a cue of something that scenes show: of a board that a challenge hides not
// before they show it again, for that is when the recording has it.
func (c *Collector) addSeen(show *relay.Show, cue Cue) {
	if hiding := show.Desk.Hiding(); hiding != nil && hiding.Place.Board == cue.Board {
		c.held = append(c.held, cue)
		return
	}
	c.add(show, cue)
}

// seenAgain adds what was hidden.
func (c *Collector) seenAgain(show *relay.Show) {
	for _, cue := range c.held {
		c.add(show, cue)
	}
	c.held = nil
}

func (c *Collector) segment(show *relay.Show, w words) {
	if board := show.Desk.Air.Board; board != c.was.Desk.Air.Board && board > 0 {
		title := w.segment(show, board)
		c.add(show, Cue{Board: board, Kind: KindSegment, Title: title, Text: title})
	}
}

// noted takes a line of the show log.
func (c *Collector) noted(show *relay.Show, w words, n relay.Noted) {
	cue := Cue{Board: n.Board}
	switch n.Kind {
	case relay.NoteGame:
		cue.Kind, cue.Title = KindGame, w.segment(show, n.Board)
		cue.Text = cue.Title
	case relay.NoteResult:
		cue.Kind, cue.Title = KindResult, w.result(show, n.Board, n.Is)
		cue.Text = cue.Title
	case relay.NoteReplaced:
		cue.Kind, cue.Text = KindCorrection, fmt.Sprintf(w.replaced, n.Is, n.Was)
	case relay.NoteTakenBack:
		cue.Kind, cue.Text = KindCorrection, fmt.Sprintf(w.takenBack, n.Was)
	case relay.NoteFeed, relay.NoteFeedState:
		cue.Kind, cue.Text = KindFeed, fmt.Sprintf("%s → %s: %s", n.Was, n.Is, n.Text)
	case relay.NoteByHand:
		cue.Kind, cue.Text = KindByHand, n.Text
	case relay.NotePanel:
		cue.Kind, cue.Text = map[string]Kind{string(relay.PanelSaid): KindSaid, string(relay.PanelNote): KindNote}[n.Is], n.Was+": "+n.Text
	}
	switch cue.Kind {
	case "":
	case KindGame, KindResult, KindCorrection:
		c.addSeen(show, cue)
	default: // what people and feeds did, whatever viewers see
		c.add(show, cue)
	}
}

// prompted takes sentences that are new on the panel's list.
func (c *Collector) prompted(show *relay.Show, w words) {
	if show.Said.Rev == c.was.Said.Rev {
		return
	}
	for i := len(show.Said.Items) - 1; i >= 0; i-- { // the newest is first
		item := &show.Said.Items[i]
		key := item.Key()
		if c.seen[key] || item.Priority == prompt.Silent {
			continue
		}
		c.seen[key] = true
		c.addSeen(show, Cue{Board: item.Board, Kind: Kind(item.Alert.Kind), Title: w.alert(show, item), Text: item.Text, Evidence: item.Evidence})
	}
}

// shown takes side lines that viewers see. One line is one cue, at its first move, and in
// the end tells the longest that was shown of it.
func (c *Collector) shown(show *relay.Show, w words) {
	now := show.Desk.Shown
	if now == nil || len(now.Moves) == 0 {
		c.line = -1
		return
	}
	was := c.was.Desk.Shown
	if c.line < 0 || was == nil || was.Board != now.Board || was.Ply != now.Ply || !was.At.Equal(now.At) {
		white, black := called(show, now.Board)
		title := fmt.Sprintf(w.line, (now.Moves[0].Number+1)/2, white, black)
		if now.Name != "" {
			title = fmt.Sprintf(w.named, now.Name)
		}
		c.add(show, Cue{Board: now.Board, Kind: KindLine, Title: title, Evidence: now.Name})
		c.line = len(c.log.Cues) - 1
	}
	if text := lineText(now.Moves); len(text) > len(c.log.Cues[c.line].Text) {
		c.log.Cues[c.line].Text = text
	}
}

// lineText writes a side line: 23.Nf5 exf5 24.Qg4.
func lineText(moves []desk.Step) string {
	var out []string
	for i, m := range moves {
		switch {
		case m.Number%2 == 1:
			out = append(out, fmt.Sprintf("%d.%s", (m.Number+1)/2, m.SAN))
		case i == 0:
			out = append(out, fmt.Sprintf("%d...%s", m.Number/2, m.SAN))
		default:
			out = append(out, m.SAN)
		}
	}
	return strings.Join(out, " ")
}

// asked takes the question put to the viewers, and its answer.
func (c *Collector) asked(show *relay.Show, w words) {
	now, was := show.Desk.Challenge, c.was.Desk.Challenge
	if now == nil || was != nil && was.ID == now.ID && was.State == now.State {
		return
	}
	switch now.State {
	case desk.ChallengeAsked:
		c.add(show, Cue{Board: now.Place.Board, Kind: KindQuestion, Title: w.question, Text: now.Question})
	case desk.ChallengeRevealed:
		c.add(show, Cue{Board: now.Place.Board, Kind: KindAnswer, Title: w.answer, Text: lineText(now.Answer)})
	}
}
