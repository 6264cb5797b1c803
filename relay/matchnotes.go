package relay

import (
	"fmt"
	"slices"

	"clocktell/relay/match"
)

// Why a game between players of the match does not count for it.
const (
	whyUnplaced = "that round is not of the match as it is planned"
	whyContrary = "it has two results"
)

// noteMatch writes down which games of the match's players do not count for it, and which
// do count now, given the match as it stood before.
func (s *Show) noteMatch(before *Show) {
	var was Match
	if before.Match != nil {
		was = *before.Match
	}
	for _, number := range s.Match.Unplaced {
		b := s.Boards[number-1]
		if known := slices.Contains(was.Unplaced, number); !known || b.Key.Round != before.Boards[number-1].Key.Round {
			s.note(Noted{Board: number, Kind: NoteUncounted, Is: roundText(b.Key.Round), Text: whyUnplaced})
		}
	}
	for _, number := range was.Unplaced {
		b, old := s.Boards[number-1], before.Boards[number-1]
		if _, counts := s.Match.Game(number); counts && b.Game == old.Game {
			s.note(Noted{Board: number, Kind: NoteUncounted, Was: roundText(old.Key.Round)})
		}
	}
	for _, p := range s.Match.Contrary {
		same := func(q match.Place) bool { return q.Stage == p.Stage && q.Game == p.Game }
		if !slices.ContainsFunc(was.Contrary, same) {
			s.note(Noted{Board: s.Match.boardOf(p), Kind: NoteUncounted, Is: roundText(fmt.Sprint(p.Round)), Text: whyContrary})
		}
	}
}

// roundText names a round by its tag.
func roundText(tag string) string {
	if unknown(tag) {
		return "a game without a round"
	}
	return "round " + tag
}

// boardOf returns the first board that shows a game of the match; 0: none.
func (m *Match) boardOf(p match.Place) int {
	i := slices.IndexFunc(m.Boards, func(b MatchBoard) bool { return b.Place.Stage == p.Stage && b.Place.Game == p.Game })
	if i < 0 {
		return 0
	}
	return m.Boards[i].Board
}
