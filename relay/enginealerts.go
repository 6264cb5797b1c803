package relay

import (
	"fmt"
	"time"

	"clocktell/relay/bitboard"
	"clocktell/relay/clock"
	"clocktell/relay/opinion"
	"clocktell/relay/prompt"
)

// engineLife is how many plies what the engine says of a move stays worth saying.
const engineLife = 2

// engineConditions lists what the engine has to say of the last moves and of the choice
// that the side on move has. Out is what else there is to say.
func (b *Board) engineConditions(out []Alert, t time.Time) []Alert {
	n := len(b.Plies)
	if b.Fault != "" {
		return out
	}
	for i := max(0, n-engineLife); i < n; i++ {
		if alert, ok := b.playedAlert(i, t); ok {
			out = append(out, alert)
		}
	}
	o := b.OpinionAt(n)
	if o == nil || n == 0 || b.Plies[n-1].Within == unknownWithin {
		return out
	}
	if alert, ok := b.choiceAlert(o, t); ok {
		out = append(out, alert)
	}
	return b.thinkAlerts(o, out, t)
}

// momentAt returns the ply at index i with the opinions on both sides of it.
func (b *Board) momentAt(i int) opinion.Moment {
	return opinion.Moment{Place: b.Place(i), Move: bitMove(b.Plies[i].Move), Before: b.OpinionAt(i), After: b.OpinionAt(i + 1)}
}

// playedAlert returns what the engine has to say of the ply at index i. What happened
// before anybody listened is no news.
func (b *Board) playedAlert(i int, t time.Time) (Alert, bool) {
	if b.Plies[i].Within == unknownWithin || b.OpinionAt(i) == nil || b.OpinionAt(i+1) == nil {
		return Alert{}, false
	}
	moment, side := b.momentAt(i), b.moverOf(i)
	if missed, ok := moment.MissedMate(); ok {
		return b.engineAlert(AlertMissedMate, side, i+1, t, b.sayMissed(i, &missed)), true
	}
	if swing, ok := moment.Swing(); ok {
		return b.engineAlert(AlertSwing, side, i+1, t, b.saySwing(i, &swing)), true
	}
	if first, ok := moment.FirstChoice(); ok {
		if say, ok := b.sayFirst(i, &first); ok {
			return b.engineAlert(AlertFirstChoice, side, i+1, t, say), true
		}
	}
	return Alert{}, false
}

// choiceAlert returns what the engine has to say of the move that comes next: that the natural
// one fails, or that there is only one.
func (b *Board) choiceAlert(o *opinion.Opinion, t time.Time) (Alert, bool) {
	n := len(b.Plies)
	before, place, last := b.Place(n-1), b.Place(n), bitMove(b.Plies[n-1].Move)
	natural, why := opinion.NaturalMove(before, place, last, b.usualAt(n))
	if refuted, ok := o.Refutation(place, natural, why); ok {
		return b.engineAlert(AlertRefuted, b.Turn(), n+1, t, b.sayRefuted(&refuted, o.Depth)), true
	}
	only, ok := o.OnlyMove(place)
	if !ok || opinion.Plain(before, place, last, only.Move) {
		return Alert{}, false
	}
	if natural == only.Move {
		why = opinion.NotNatural
	}
	return b.engineAlert(AlertOnlyMove, b.Turn(), n+1, t, b.sayOnly(&only, why, o.Depth)), true
}

// What the reference must have for a move to be the one that most would play.
const (
	naturalGames = 20  // that came to the position
	naturalShare = 2.0 // at least one of so many went on with it
)

// usualAt returns the move with which most games of the reference went on after n plies,
// NoMove if there is none.
func (b *Board) usualAt(n int) bitboard.Move {
	known := b.KnownAt(n)
	if known == nil || known.Games < naturalGames || len(known.Moves) == 0 || float64(known.Moves[0].Games)*naturalShare < float64(known.Games) {
		return bitboard.NoMove
	}
	move, err := b.Place(n).ParseSAN(known.Moves[0].SAN)
	if err != nil {
		return bitboard.NoMove
	}
	return move
}

// thinkAlerts joins what the clock says of a long think with how hard the choice is, in one
// sentence in place of two: the clock's own then keeps silent. Where nothing else is fresh, a
// quiet position is told.
func (b *Board) thinkAlerts(o *opinion.Opinion, out []Alert, t time.Time) []Alert {
	place, n := b.Place(len(b.Plies)), len(b.Plies)
	choice, ok := o.Choice(place)
	if !ok {
		return out
	}
	for i := range out {
		think := &out[i]
		if think.Kind != AlertLongThink || choice.Hard == opinion.Normal || think.Say.Priority == prompt.Silent {
			continue
		}
		if was, ok := b.saying(AlertLongThink, b.Turn()); ok && was.ID == think.ID {
			return out // it has been said that it thinks
		}
		of := prompt.Hardness{Name: b.Called(b.Turn()), Clock: think.Say.Evidence, Choice: choice}
		kind, say := AlertHardThink, prompt.HardThink(b.in, of)
		if choice.Hard == opinion.Easy {
			if choice.Good < choice.Lines || n < easyFrom {
				return out // it is plain, and the think has another reason
			}
			kind, say = AlertEasyThink, prompt.EasyThink(b.in, of)
		}
		think.Say.Priority = prompt.Silent
		return append(out, b.engineAlert(kind, b.Turn(), n+1, t, say))
	}
	return b.quietAlert(o, choice, out, t)
}

// In openings it goes without saying that several moves are as good, and that the game is level.
// Judgement, by reading what was called over whole games.
const (
	easyFrom  = 20 // plies
	calmPlies = 16 // beyond those for which the engine must have had the game level: eight moves
)

// quietAlert tells once of a game that it has been level for long and is quiet, where nothing else is
// fresh. It keeps when.
func (b *Board) quietAlert(o *opinion.Opinion, choice opinion.Choice, out []Alert, t time.Time) []Alert {
	n := len(b.Plies)
	if b.calm > n {
		b.calm = 0 // taken back
	}
	if b.calm != 0 && b.calm != n || b.calm == 0 && !b.quietBefore(out) || !o.Quiet(b.Place(n)) {
		return out
	}
	level := 0
	for level < n-easyFrom && b.OpinionAt(n-level).IsLevel() {
		level++
	}
	if level < calmPlies {
		return out
	}
	b.calm = n
	a := b.engineAlert(AlertQuietPosition, clock.White, n+1, t, prompt.QuietPosition(b.in, level/2, choice, b.judgement(o.Lines[0].Score)))
	a.Side = ""
	return append(out, a)
}

// engineAlert ties what the engine says to a ply, from 1.
func (b *Board) engineAlert(kind AlertKind, side clock.Side, ply int, t time.Time, say prompt.Prompt) Alert {
	return Alert{
		ID: fmt.Sprintf("board%d-game%d-%s-%s-%d", b.Number, b.Game+1, kind, side, ply), Kind: kind, Side: side.String(), Ply: ply, At: t, Say: say,
	}
}
