package overlay

import (
	"math"
	"strings"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/clock"
	"clocktell/relay/tell"
)

// boardFrame says a board in the words of the protocol: whole when base is 0,
// else what follows on the revision base, which must be the one before.
func boardFrame(b *relay.Board, base uint64) wire.Board {
	keep := 0
	if base != 0 {
		keep = b.Keep
	}
	running := ""
	if side, ok := b.Running(); ok && !b.Held() {
		running = side.String()
	}
	var at int64
	if b.News {
		at = b.Since.UnixMilli()
	}
	return wire.Board{
		Type: wire.TypeBoard, Board: b.Number, Base: base, Rev: b.Rev, At: at,
		Event: b.Key.Event, Round: b.Key.Round, Table: b.Key.Table,
		White: playerView(b, clock.White), Black: playerView(b, clock.Black), Control: controlView(b.Control),
		Keep: keep, Plies: pliesView(b, keep), FEN: b.FEN, Running: running, Result: b.Result,
		Opening:    wire.Opening{Code: b.Opening.Code, Name: b.Opening.Name},
		Correction: correctionView(b), Fault: b.Fault, Frozen: !b.Frozen.IsZero(), Feed: feedStateView(b), Alerts: alertsView(b),
		Known: knownView(b), Novelty: noveltyView(b),
	}
}

func playerView(b *relay.Board, side clock.Side) wire.Player {
	p := b.Players[side]
	return wire.Player{
		Name: p.Name, Short: b.Called(side), Title: p.Title, Rating: p.Rating, Federation: p.Federation,
		Gains: gains(b.FEN, side), Clock: clockView(b, side), Tell: tellView(b, side), Habit: habitView(b, side),
	}
}

func tellView(b *relay.Board, side clock.Side) wire.Tell {
	if b.Secret {
		return wire.Tell{Reasons: []string{}, Outlook: []string{}}
	}
	call, trouble := b.Calls[side], b.Levels[side]
	evidence := call.Evidence()
	if trouble.Level >= relay.TroubleShows {
		evidence = trouble.InShort()
	}
	return wire.Tell{
		Verdict: verdictWord(call.Verdict), Shade: call.Shade(), Thinking: math.Round(call.Thinking*100) / 100,
		Timed: call.Timed, Evidence: evidence, Reasons: append([]string{}, call.Reasons...), Changed: call.Changed,
		Trouble: trouble.Level, Outlook: append([]string{}, b.Outlook(side)...),
	}
}

func verdictWord(v tell.Verdict) string {
	switch v {
	case tell.InPreparation:
		return wire.VerdictPreparation
	case tell.Thinking:
		return wire.VerdictThinking
	case tell.NoClock:
		return wire.VerdictNoClock
	}
	return wire.VerdictEarly
}

func pliesView(b *relay.Board, from int) []wire.Ply {
	views := make([]wire.Ply, 0, len(b.Plies)-from)
	for i := from; i < len(b.Plies); i++ {
		ply := &b.Plies[i]
		mark, remark := markOf(ply)
		views = append(views, wire.Ply{
			Number: b.HalfMove(i), SAN: ply.SAN, From: ply.Move.S1().String(), To: ply.Move.S2().String(),
			SpentMs: ply.Timed.Spent.Milliseconds(), LeftMs: ply.Timed.Left.Milliseconds(),
			Quality: ply.Timed.SpentQuality.String(), Look: string(ply.Look), ByHand: ply.ByHand,
			Mark: mark, Remark: remark,
		})
	}
	return views
}

func correctionView(b *relay.Board) *wire.Correction {
	c := b.Correction
	if c == nil {
		return nil
	}
	return &wire.Correction{Ply: b.HalfMove(c.Ply - 1), Was: c.Was, Is: c.Is, At: c.At.UnixMilli()}
}

// feedStateView says how the board's feed does. A frozen board holds its clocks
// because the producer wants it so, and its feed is not to blame.
func feedStateView(b *relay.Board) wire.FeedState {
	if !b.Silent.IsZero() && b.Frozen.IsZero() {
		return wire.FeedState{Name: b.Feed, State: string(relay.FeedStale), Since: b.Silent.UnixMilli()}
	}
	return wire.FeedState{Name: b.Feed, State: string(relay.FeedOK)}
}

func alertsView(b *relay.Board) []wire.Alert {
	views := make([]wire.Alert, 0, len(b.Alerts))
	for _, a := range b.Alerts {
		if a.OfEngine() { // scenes are sent the same; desk and panel have it among the prompts
			continue
		}
		views = append(views, wire.Alert{
			ID: a.ID, Kind: string(a.Kind), Side: a.Side, Level: a.Level, Ply: b.HalfMove(a.Ply - 1), At: a.At.UnixMilli(),
			Reason: a.Say.Text, Evidence: a.Say.Evidence,
		})
	}
	return views
}

// gains lists the men a side has more of than the other, strongest first.
func gains(fen string, side clock.Side) string {
	placement, _, _ := strings.Cut(fen, " ")
	var out strings.Builder
	for _, letter := range "QRBNP" {
		more := strings.Count(placement, string(letter)) - strings.Count(placement, strings.ToLower(string(letter)))
		if side == clock.Black {
			more = -more
		}
		out.WriteString(strings.Repeat(string(letter), max(0, more)))
	}
	return out.String()
}
