package relay

import (
	"errors"

	"clocktell/relay/clock"
	"clocktell/relay/desk"
	"clocktell/relay/opinion"
	"clocktell/relay/prompt"
)

// LevelBelow is how many hundredths of a pawn ahead nobody is said to stand better.
const LevelBelow = 50

// From so many hundredths of a pawn on a side is said to stand better by a step.
// Judgement: engines differ in what they call a pawn.
var sizesFrom = [...]int{prompt.Slight: LevelBelow, prompt.Better: 75, prompt.Clear: 175, prompt.Winning: 300}

// AirDepth is how many plies deep an engine must have looked before what it says may be
// shown to viewers, unless it has come to its end before. Judgement.
const AirDepth = 12

// outcomeOf rounds a score so that it can be said.
func outcomeOf(s opinion.Score) prompt.Outcome {
	white := s.Mate > 0 || s.Mate == 0 && s.Centipawns >= 0
	out := prompt.Outcome{Side: clock.White}
	if !white {
		out.Side = clock.Black
	}
	s = s.From(white)
	out.Bound = map[opinion.Bound]prompt.Bound{opinion.AtLeast: prompt.AtLeast, opinion.AtMost: prompt.AtMost}[s.Bound]
	if s.Mate != 0 {
		out.Size, out.Mate = prompt.Mating, s.Mate
		return out
	}
	for size, from := range sizesFrom {
		if s.Centipawns >= from {
			out.Size = prompt.Size(size)
		}
	}
	if out.Size > prompt.Level {
		out.Halves = (s.Centipawns + 25) / 50
	}
	return out
}

// Stands says how a position stands by a score, in the language of the show.
func (s *Show) Stands(score opinion.Score) string { return s.plan.language().Stands(outcomeOf(score)) }

// Verdict returns what the engine says of a position that viewers see of a board, as far
// as it may be put on the air; the error says why not. It goes by what the engine has
// said, which is in the journal, and not by how it does, which is not.
func (g deskGames) Verdict(board int, fen string) (desk.Verdict, error) {
	s := g.show
	b := s.Boards[board-1]
	var said *opinion.Opinion
	if at, _ := s.Desk.Stand(g); fen == b.FEN {
		if b.Over() {
			return desk.Verdict{}, errors.New("the game is over; there is nothing to judge any more")
		}
		said = b.OpinionAt(len(b.Plies))
	} else if s.Desk.Place.Board == board && at == fen {
		said = s.OpinionAtDesk()
	}
	best, ok := said.Best()
	switch {
	case !ok:
		return desk.Verdict{}, errors.New("no engine has judged this position yet")
	case best.Score.Bound != opinion.Exact || said.Depth < AirDepth && !said.Final:
		return desk.Verdict{}, errors.New("the engine has not settled on this position yet; wait a moment")
	}
	o, in := outcomeOf(best.Score), s.plan.language()
	side := o.Side.String()
	if o.Size == prompt.Level {
		side = ""
	}
	return desk.Verdict{Side: side, Size: int(o.Size), Short: in.Leans(o), Sentence: in.Prefers(o), Final: said.Final}, nil
}
