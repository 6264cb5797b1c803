package prompt

import (
	"strings"

	"clocktell/relay/match"
)

// KindMatch is of what a game means for its match, and of how that stands.
const KindMatch Kind = "match"

// MatchScore is how a match stands, or would stand after a result.
type MatchScore struct {
	Names    [2]string // of First and Second, as they are spoken of
	Teams    bool      // they are teams
	Score    match.Tally
	Left     int  // games without a result, of the match or of the tie-break
	TieBreak bool // it is the score of a tie-break

	Over   bool       // nothing can change who wins
	Winner match.Side // then: Neither is a drawn match

	More bool       // it is level for good, and a tie-break follows
	Next match.Kind // ... of this kind

	Rated    bool           // what the ratings expect is known
	Expected [2]match.Score // ... of the games that are left
}

// name returns how First or Second is spoken of.
func (m MatchScore) name(side match.Side) string { return m.Names[side-match.First] }

// leader returns who has more points, Neither if nobody has.
func (m MatchScore) leader() match.Side {
	switch {
	case m.Score[0] > m.Score[1]:
		return match.First
	case m.Score[1] > m.Score[0]:
		return match.Second
	}
	return match.Neither
}

// Stake is what must follow for the match from a game under way.
type Stake struct {
	Case StakeCase
	Side match.Side // that it is told of
	Then Then
	Next match.Kind // of the tie-break, with ThenTieBreak
	Now  MatchScore

	Boards int // on which the same is at stake, and said once; 0 or 1: on one
}

// StakeCase says what is at stake.
type StakeCase uint8

// The cases; the first is none.
const (
	NothingAtStake StakeCase = iota
	DrawEnough               // a draw wins the match for Side; Then is what a win of the other brings
	WinTakes                 // a win wins it for Side at once, and a loss does not lose it
	WinnerTakes              // whoever wins the game wins the match; Then is what a draw brings
)

// boards chooses between two words, for two boards and for more.
func (s Stake) boards(two, more string) string {
	if s.Boards == 2 {
		return two
	}
	return more
}

// Then says what a result brings.
type Then uint8

// What it may bring.
const (
	ThenOn       Then = iota // the match goes on
	ThenTieBreak             // a tie-break follows at once
	ThenDrawn                // the match is drawn
	ThenOther                // the other side wins the match
)

// matchWords is what a language says of a match.
type matchWords interface {
	MatchStake(s Stake) Words
	MatchScore(m MatchScore) Words
	// MatchLine says in figures and a few words how a match would stand, without a full stop.
	MatchLine(m MatchScore) string
	// MatchGame names a game to come by its round, with who has White; "" if nobody knows.
	MatchGame(round, board int, white string) string
	// MatchExpected says what the ratings expect of the games that are left.
	MatchExpected(m MatchScore) string
}

// MatchStake: what one of the results of this game must bring.
func MatchStake(in Language, s Stake) Prompt {
	return matchPrompt(in.MatchStake(s), Soon)
}

// MatchStands: a result has changed the score.
func MatchStands(in Language, m MatchScore) Prompt {
	priority := Soon
	switch {
	case m.Over || m.More:
		priority = Now
	case m.Teams:
		priority = Background
	}
	return matchPrompt(in.MatchScore(m), priority)
}

func matchPrompt(w Words, priority Priority) Prompt {
	return Prompt{Kind: KindMatch, Priority: priority, Text: w.Text, Evidence: w.Evidence, Ends: w.Ends}
}

// brief returns the first text that is short enough, or the last: names can be long.
func brief(texts ...string) string {
	for _, text := range texts {
		if len(strings.Fields(text)) <= wordsMost {
			return text
		}
	}
	return texts[len(texts)-1]
}
