package prompt

import (
	"fmt"

	"clocktell/relay/match"
)

func (e english) MatchStake(s Stake) Words {
	w := Words{Evidence: e.matchEvidence(s.Now), Ends: "when the game ends"}
	switch s.Case {
	case DrawEnough:
		w.Text = e.drawEnough(s)
	case WinTakes:
		if s.Boards > 1 {
			w.Text = fmt.Sprintf("A win on %s board takes the match for %s.", s.boards("either", "any"), s.Now.name(s.Side))
			break
		}
		name, other := s.Now.name(s.Side), s.Now.name(s.Side.Other())
		w.Text = brief(fmt.Sprintf("A win here takes the match for %s; %s must not lose.", name, other),
			fmt.Sprintf("A win here takes the match for %s.", name))
	case WinnerTakes:
		w.Text = "Whoever wins this game wins the match" + map[Then]string{
			ThenTieBreak: "; a draw brings " + englishTieBreak[s.Next], ThenDrawn: "; a draw leaves it drawn",
		}[s.Then] + "."
	}
	return w
}

func (e english) drawEnough(s Stake) string {
	name, other := s.Now.name(s.Side), s.Now.name(s.Side.Other())
	alone := fmt.Sprintf("A draw here wins the match for %s.", name)
	switch {
	case s.Boards > 1:
		draw := fmt.Sprintf("A draw on %s board wins the match for %s", s.boards("either", "any"), name)
		return brief(fmt.Sprintf("%s; %s must win %s.", draw, other, s.boards("both", "all")), draw+".")
	case s.Now.Teams && s.Then == ThenOn:
		return brief(fmt.Sprintf("A draw here wins the match for %s; %s must win this game.", name, other), alone)
	case s.Then == ThenTieBreak:
		return brief(fmt.Sprintf("A draw is enough for %s; %s must win to force %s.", name, other, englishTieBreak[s.Next]), alone)
	case s.Then == ThenDrawn:
		return brief(fmt.Sprintf("A draw is enough for %s; %s must win to draw the match.", name, other), alone)
	case s.Then == ThenOther:
		return brief(fmt.Sprintf("A draw is enough for %s; a win takes the match for %s.", name, other), alone)
	}
	return brief(fmt.Sprintf("A draw is enough for %s to win the match; %s must win.", name, other), alone)
}

// englishTieBreak names a tie-break that follows.
var englishTieBreak = map[match.Kind]string{
	match.Regular: "an extra round", match.Rapid: "a rapid tie-break", match.Blitz: "a blitz tie-break", match.Armageddon: "an armageddon game",
}

func (e english) MatchScore(m MatchScore) Words {
	w := Words{Evidence: e.matchEvidence(m), Ends: "with the next game or result"}
	what := "match"
	if m.TieBreak {
		what = "tie-break"
	}
	switch leader := m.leader(); {
	case m.Over:
		w.Text = e.matchOver(m)
	case m.Score == match.Tally{}:
		w.Text = fmt.Sprintf("No result of the %s yet, %s to play.", what, e.games(m.Left))
	case m.More:
		w.Text = fmt.Sprintf("The %s is level at %s; %s follows.", what, e.each(m.Score[0]), englishTieBreak[m.Next])
	case leader == match.Neither:
		w.Text = brief(fmt.Sprintf("The %s is level at %s with %s to play.", what, e.each(m.Score[0]), e.games(m.Left)),
			fmt.Sprintf("The %s is level with %s to play.", what, e.games(m.Left)))
	default:
		w.Text = e.leads(m, leader)
	}
	return w
}

func (e english) leads(m MatchScore, leader match.Side) string {
	name := m.name(leader) + " leads"
	if m.TieBreak {
		name += " the tie-break"
	}
	own, other := m.Score.Of(leader), m.Score.Of(leader.Other())
	score := e.points(own) + " to " + e.points(other)
	by := e.points(own - other)
	if own-other == match.OnePoint {
		by += " point"
	} else {
		by += " points"
	}
	led := fmt.Sprintf("%s by %s with %s to play.", name, by, e.games(m.Left))
	if own%match.OnePoint == 0 { // two and a half to one and a half is hard to follow
		return brief(fmt.Sprintf("%s %s with %s to play.", name, score, e.games(m.Left)), led, name+" by "+by+".")
	}
	return brief(led, name+" by "+by+".")
}

func (e english) matchOver(m MatchScore) string {
	if m.Winner == match.Neither {
		return fmt.Sprintf("The match is drawn, %s.", e.each(m.Score[0]))
	}
	name := m.name(m.Winner)
	won := name + " has won the match"
	switch {
	case m.leader() == match.Neither:
		return brief(fmt.Sprintf("The match ends level at %s, which is enough for %s.", e.each(m.Score[0]), name), won+".")
	case m.TieBreak:
		return won + " in the tie-break."
	case m.Left > 0 && m.Teams:
		return brief(fmt.Sprintf("%s with %s still to play.", won, e.games(m.Left)), won+".")
	case m.Left > 0:
		spare := some(m.Left == 1, "a game") + some(m.Left > 1, e.games(m.Left))
		return brief(fmt.Sprintf("%s with %s to spare.", won, spare), won+".")
	}
	return brief(fmt.Sprintf("%s, %s to %s.", won, e.points(m.Score.Of(m.Winner)), e.points(m.Score.Of(m.Winner.Other()))), won+".")
}

func (e english) MatchLine(m MatchScore) string {
	left := fmt.Sprintf("%d games to play", m.Left)
	if m.Left == 1 {
		left = "1 game to play"
	}
	score := fmt.Sprintf("%v–%v", m.Score[0], m.Score[1]) + some(m.TieBreak, " in the tie-break") + ", "
	switch leader := m.leader(); {
	case m.Over && m.Winner == match.Neither:
		return score + "the match is drawn"
	case m.Over:
		return score + m.name(m.Winner) + " wins the match"
	case m.More:
		return score + englishTieBreak[m.Next] + " follows"
	case leader != match.Neither:
		return score + m.name(leader) + " leads, " + left
	}
	return score + "level, " + left
}

func (english) MatchGame(round, board int, white string) string {
	return fmt.Sprintf("round %d", round) + some(board > 0, fmt.Sprintf(", board %d", board)) + some(white != "", ": "+white+" has White")
}

func (e english) MatchExpected(m MatchScore) string {
	return fmt.Sprintf("the ratings expect %v of %d for %s, %v for %s", m.Expected[0], m.Left, m.Names[0], m.Expected[1], m.Names[1])
}

// matchEvidence: "Halloran 3–2 Pettibone, 3 games to play; the ratings expect …".
func (e english) matchEvidence(m MatchScore) string {
	left := some(m.Left == 1, ", 1 game to play") + some(m.Left > 1, fmt.Sprintf(", %d games to play", m.Left))
	text := fmt.Sprintf("%s %v–%v %s", m.Names[0], m.Score[0], m.Score[1], m.Names[1]) + left
	return some(m.TieBreak, "tie-break: ") + text + some(m.Rated && !m.Over, "; "+e.MatchExpected(m))
}

func (e english) games(n int) string {
	if n == 1 {
		return "one game"
	}
	return e.Number(n) + " games"
}

// points: "nothing", "a half", "two and a half".
func (e english) points(p match.Points) string {
	switch {
	case p == 0:
		return "nothing"
	case p == match.HalfPoint:
		return "a half"
	case p%match.OnePoint != 0:
		return e.Number(int(p/match.OnePoint)) + " and a half"
	}
	return e.Number(int(p / match.OnePoint))
}

// each: "two all", "two and a half each".
func (e english) each(p match.Points) string {
	switch {
	case p == match.HalfPoint:
		return "half a point each"
	case p%match.OnePoint != 0:
		return e.points(p) + " each"
	case p == 0:
		return "nil all"
	}
	return e.points(p) + " all"
}
