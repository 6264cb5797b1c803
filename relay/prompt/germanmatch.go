package prompt

import (
	"fmt"

	"clocktell/relay/match"
)

func (g german) MatchStake(s Stake) Words {
	w := Words{Evidence: g.matchEvidence(s.Now), Ends: "mit dem Ende der Partie"}
	switch s.Case {
	case DrawEnough:
		w.Text = g.drawEnough(s)
	case WinTakes:
		if s.Boards > 1 {
			w.Text = fmt.Sprintf("Ein Sieg an einem der %s bringt %s den Wettkampf.", s.boards("beiden Bretter", "Bretter"), s.Now.name(s.Side))
			break
		}
		name, other := s.Now.name(s.Side), s.Now.name(s.Side.Other())
		w.Text = brief(fmt.Sprintf("Mit einem Sieg hier gewinnt %s den Wettkampf; %s darf nicht verlieren.", name, other),
			fmt.Sprintf("Mit einem Sieg hier gewinnt %s den Wettkampf.", name))
	case WinnerTakes:
		w.Text = "Wer diese Partie gewinnt, gewinnt den Wettkampf" + map[Then]string{
			ThenTieBreak: "; bei Remis folgt " + germanTieBreak[s.Next], ThenDrawn: "; bei Remis endet er unentschieden",
		}[s.Then] + "."
	}
	return w
}

func (g german) drawEnough(s Stake) string {
	name, other := s.Now.name(s.Side), s.Now.name(s.Side.Other())
	alone := fmt.Sprintf("Mit einem Remis hier gewinnt %s den Wettkampf.", name)
	if s.Boards > 1 {
		draw := fmt.Sprintf("Ein Remis an einem der %s bringt %s den Wettkampf", s.boards("beiden Bretter", "Bretter"), name)
		return brief(fmt.Sprintf("%s; %s muss %s gewinnen.", draw, other, s.boards("beide", "alle")), draw+".")
	}
	switch s.Then {
	case ThenTieBreak:
		return brief(fmt.Sprintf("Für %s reicht ein Remis; gewinnt %s, folgt %s.", name, other, germanTieBreak[s.Next]), alone)
	case ThenDrawn:
		return brief(fmt.Sprintf("Für %s reicht ein Remis; gewinnt %s, endet der Wettkampf unentschieden.", name, other), alone)
	case ThenOther:
		return brief(fmt.Sprintf("Für %s reicht ein Remis; gewinnt %s, ist auch der Wettkampf gewonnen.", name, other), alone)
	}
	return brief(fmt.Sprintf("Für %s reicht ein Remis zum Gewinn des Wettkampfs; %s muss gewinnen.", name, other), alone)
}

// germanTieBreak names a tie-break that follows, as a subject.
var germanTieBreak = map[match.Kind]string{
	match.Regular: "eine Zusatzrunde", match.Rapid: "ein Stichkampf im Schnellschach", match.Blitz: "ein Stichkampf im Blitzschach",
	match.Armageddon: "eine Armageddon-Partie",
}

func (g german) MatchScore(m MatchScore) Words {
	w := Words{Evidence: g.matchEvidence(m), Ends: "mit der nächsten Partie oder dem nächsten Ergebnis"}
	stands := "Es steht "
	if m.TieBreak {
		stands = "Im Stichkampf steht es "
	}
	score := g.points(m.Score[0]) + " zu " + g.points(m.Score[1])
	switch leader := m.leader(); {
	case m.Over:
		w.Text = g.matchOver(m)
	case m.Score == match.Tally{}:
		w.Text = "Noch " + some(m.TieBreak, "im Stichkampf ") + "kein Ergebnis, " + g.still(m.Left) + "."
	case m.More:
		w.Text = stands + score + ", nun folgt " + germanTieBreak[m.Next] + "."
	case leader == match.Neither:
		w.Text = stands + score + ", " + g.still(m.Left) + "."
	default:
		lead := m.name(leader) + " führt " + some(m.TieBreak, "im Stichkampf ") +
			g.points(m.Score.Of(leader)) + " zu " + g.points(m.Score.Of(leader.Other()))
		w.Text = brief(lead+", "+g.still(m.Left)+".", lead+".")
	}
	return w
}

func (g german) matchOver(m MatchScore) string {
	if m.Winner == match.Neither {
		return fmt.Sprintf("Der Wettkampf endet unentschieden, %s zu %s.", g.points(m.Score[0]), g.points(m.Score[1]))
	}
	name := m.name(m.Winner)
	switch {
	case m.leader() == match.Neither:
		return brief(fmt.Sprintf("Der Wettkampf endet %s zu %s, und das genügt %s zum Sieg.", g.points(m.Score[0]), g.points(m.Score[1]), name),
			name+" gewinnt den Wettkampf.")
	case m.TieBreak:
		return name + " gewinnt den Wettkampf im Stichkampf."
	case m.Left > 0:
		return name + " hat den Wettkampf " + g.games(m.Left) + " vor Schluss gewonnen."
	}
	return fmt.Sprintf("%s gewinnt den Wettkampf %s zu %s.", name, g.points(m.Score.Of(m.Winner)), g.points(m.Score.Of(m.Winner.Other())))
}

func (g german) MatchLine(m MatchScore) string {
	left := fmt.Sprintf("noch %d Partien", m.Left)
	if m.Left == 1 {
		left = "noch 1 Partie"
	}
	score := fmt.Sprintf("%v–%v", m.Score[0], m.Score[1]) + some(m.TieBreak, " im Stichkampf") + ", "
	switch leader := m.leader(); {
	case m.Over && m.Winner == match.Neither:
		return score + "der Wettkampf endet unentschieden"
	case m.Over:
		return score + m.name(m.Winner) + " gewinnt den Wettkampf"
	case m.More:
		return score + "es folgt " + germanTieBreak[m.Next]
	case leader != match.Neither:
		return score + m.name(leader) + " führt, " + left
	}
	return score + "Gleichstand, " + left
}

func (german) MatchGame(round, board int, white string) string {
	return fmt.Sprintf("Runde %d", round) + some(board > 0, fmt.Sprintf(", Brett %d", board)) + some(white != "", ": Weiß hat "+white)
}

func (g german) MatchExpected(m MatchScore) string {
	return fmt.Sprintf("nach Wertungszahl %s von %d für %s, %s für %s",
		germanPoint(m.Expected[0]), m.Left, m.Names[0], germanPoint(m.Expected[1]), m.Names[1])
}

// germanPoint writes a score with a comma: "1,27".
func germanPoint(s match.Score) string { return fmt.Sprintf("%d,%02d", s/100, s%100) }

// matchEvidence: "Halloran 3–2 Pettibone, noch 3 Partien; nach Wertungszahl …".
func (g german) matchEvidence(m MatchScore) string {
	left := some(m.Left == 1, ", noch 1 Partie") + some(m.Left > 1, fmt.Sprintf(", noch %d Partien", m.Left))
	text := fmt.Sprintf("%s %v–%v %s", m.Names[0], m.Score[0], m.Score[1], m.Names[1]) + left
	return some(m.TieBreak, "Stichkampf: ") + text + some(m.Rated && !m.Over, "; "+g.MatchExpected(m))
}

func (g german) games(n int) string {
	if n == 1 {
		return "eine Partie"
	}
	return g.Number(n) + " Partien"
}

func (g german) still(n int) string {
	if n == 1 {
		return g.games(n) + " steht noch aus"
	}
	return g.games(n) + " stehen noch aus"
}

// points: "null", "einhalb", "eineinhalb", "zweieinhalb".
func (g german) points(p match.Points) string {
	whole := int(p / match.OnePoint)
	switch {
	case p == match.HalfPoint:
		return "einhalb"
	case p == match.OnePoint+match.HalfPoint:
		return "eineinhalb"
	case p%match.OnePoint != 0:
		return g.Number(whole) + "einhalb"
	}
	return g.Number(whole)
}
