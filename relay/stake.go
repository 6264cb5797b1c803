package relay

import (
	"fmt"
	"slices"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/match"
	"clocktell/relay/prompt"
)

const (
	stakeFrom = 12 // plies after which a game is under way: what it means is said then
	stakeMost = 2  // so many things are said of what one game means
)

// stake is what a board raises of its match: what its game means while that is under way,
// and what its result has made of the score. The zero stake is nothing.
type stake struct {
	kind AlertKind
	what string // the same as long as the same is to be said
	side string
	say  prompt.Prompt
}

// same reports whether nothing else is to be raised.
func (s stake) same(other stake) bool {
	return s.kind == other.kind && s.what == other.what && s.side == other.side && s.say.Priority == other.say.Priority &&
		s.say.Text == other.say.Text && s.say.Evidence == other.say.Evidence
}

// stakeOf returns what a board raises.
func (m *Match) stakeOf(g MatchBoard, b *Board, in prompt.Language) stake {
	if b.Over() {
		if m.told != (told{b.Number, b.Game}) {
			return stake{}
		}
		now := m.standsIn(g.Place.Stage)
		return stake{kind: AlertMatchScore, what: fmt.Sprintf("%d-%v-%v-%v", g.Place.Stage, now.Score[0], now.Score[1], now.Over), say: prompt.MatchStands(in, now)}
	}
	s := g.atStake
	if s.Case == prompt.NothingAtStake {
		return stake{}
	}
	s.Boards = m.alike(s)
	what := fmt.Sprintf("%d-%d-%d-%d-%d", s.Case, s.Side, s.Then, s.Next, s.Boards)
	out := stake{kind: AlertMatchStake, what: what, say: prompt.MatchStake(in, s)}
	if s.Boards > 1 {
		return out // it is of no one board
	}
	if s.Side != match.Neither && g.Place.White != match.Neither {
		out.side = clock.Black.String()
		if s.Side == g.Place.White {
			out.side = clock.White.String()
		}
	}
	return out
}

// alike counts the boards on which the same is at stake for teams.
func (m *Match) alike(s prompt.Stake) int {
	n := 0
	for _, other := range m.Boards {
		if o := other.atStake; m.teams() && o.Case == s.Case && o.Side == s.Side && o.Then == s.Then && o.Next == s.Next {
			n++
		}
	}
	return n
}

// atStake returns the strongest thing that must follow from a game.
func (m *Match) atStake(p match.Place) prompt.Stake {
	means, ok := m.Meaning(p.Stage, p.Game, match.First)
	if _, decided := m.Possible().Decided(); !ok || decided {
		return prompt.Stake{}
	}
	s := prompt.Stake{Now: m.standsIn(p.Stage)}
	then := func(a match.After, other match.Side) {
		switch {
		case a.Match.Only(match.Neither):
			s.Then = prompt.ThenDrawn
		case other != match.Neither && a.Match.Only(other):
			s.Then = prompt.ThenOther
		case a.TieBreak > 0:
			s.Then, s.Next = prompt.ThenTieBreak, m.Stages[a.TieBreak].Kind
		}
	}
	first, second := means.Win.Match.Only(match.First), means.Loss.Match.Only(match.Second)
	switch {
	case means.Draw.Match.Only(match.First):
		s.Case, s.Side = prompt.DrawEnough, match.First
		then(means.Loss, match.Second)
	case means.Draw.Match.Only(match.Second):
		s.Case, s.Side = prompt.DrawEnough, match.Second
		then(means.Win, match.First)
	case first && second:
		s.Case = prompt.WinnerTakes
		then(means.Draw, match.Neither)
	case first:
		s.Case, s.Side = prompt.WinTakes, match.First
	case second:
		s.Case, s.Side = prompt.WinTakes, match.Second
	}
	return s
}

// setStakes lets the boards raise what the match gives them to raise. A board that has
// changed since the show before is not out yet, and keeps its revision.
func (s *Show) setStakes(before *Show) {
	for i, b := range s.Boards {
		game, _ := s.Match.Game(b.Number)
		want := b.rationed(game.stake)
		if b.stake.same(want) || b.Rev == 0 {
			continue
		}
		next := *b
		next.restake(want)
		if i >= len(before.Boards) || before.Boards[i].Rev != b.Rev {
			next.settle(s.At, bothSides)
			s.Boards[i] = &next
			s.raise(b.Alerts, next.Alerts, b.juncture())
			continue
		}
		next.Keep = len(b.Plies)
		s.setBoard(i, b.succeeded(&next, s.At, false))
	}
}

// rationed keeps silent about what a game means when enough has been said of it.
func (b *Board) rationed(want stake) stake {
	said := b.staked
	if b.stakeRaised() && b.stake.what != want.what {
		said = append(slices.Clip(said), b.stake.what)
	}
	if want.kind == AlertMatchStake && len(said) >= stakeMost && !slices.Contains(said, want.what) {
		want.say.Priority = prompt.Silent
	}
	return want
}

// restake takes what the board is to raise from now on.
func (next *Board) restake(want stake) {
	if next.stakeRaised() && !slices.Contains(next.staked, next.stake.what) {
		next.staked = append(slices.Clip(next.staked), next.stake.what)
	}
	next.stake = want
}

func (b *Board) stakeRaised() bool {
	return slices.ContainsFunc(b.Alerts, func(a Alert) bool { return a.Kind == AlertMatchStake && a.Say.Priority != prompt.Silent })
}

// restaked returns the alerts that stand, with what the match has come to give: a result
// is news while the feed is silent too.
func (b *Board) restaked(t time.Time) []Alert {
	ofMatch := func(a Alert) bool { return a.Kind == AlertMatchStake || a.Kind == AlertMatchScore }
	return b.renewed(append(slices.DeleteFunc(slices.Clone(b.Alerts), ofMatch), b.stakeConditions(t)...))
}

// stakeConditions returns what is raised of the match. What the game means is said when
// it is under way, and no more than a few things of it.
func (b *Board) stakeConditions(t time.Time) []Alert {
	if b.stake.kind == "" || b.stake.kind == AlertMatchStake && len(b.Plies) < stakeFrom {
		return nil
	}
	a := Alert{
		ID: fmt.Sprintf("board%d-game%d-%s-%s", b.Number, b.Game+1, b.stake.kind, b.stake.what), Kind: b.stake.kind, Side: b.stake.side,
		Ply: len(b.Plies), At: t, Say: b.stake.say,
	}
	return []Alert{a}
}
