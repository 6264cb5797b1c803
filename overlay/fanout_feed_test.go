package overlay

import (
	"math/rand/v2"
	"strings"
	"time"

	"github.com/notnil/chess"

	"clocktell/relay"
	"clocktell/relay/relaytest"
)

// pliesAGame is how long the games are that are told move by move; the next one follows
// at the same table.
const pliesAGame = 80

// fanoutFeed tells one move after the other, of one game after the other, on board 1.
type fanoutFeed struct {
	intake *relay.Intake
	random *rand.Rand
	round  int
	game   *chess.Game
	clocks []string
}

func newFanoutFeed() *fanoutFeed {
	return &fanoutFeed{intake: relay.NewIntake(relaytest.FeedName), random: rand.New(rand.NewPCG(11, 1))}
}

// next is the packet that brings the next move, and how many plies its game has then.
func (f *fanoutFeed) next(at time.Time) (event relay.Event, plies int) {
	if f.game == nil || len(f.game.Moves()) == pliesAGame || len(f.game.ValidMoves()) == 0 {
		f.round, f.clocks = f.round+1, nil
		f.game = chess.NewGame(chess.UseNotation(chess.AlgebraicNotation{}))
	}
	moves := f.game.ValidMoves()
	move := moves[f.random.IntN(len(moves))]
	for range 8 { // captures bring games to an end
		if !move.HasTag(chess.Capture) {
			break
		}
		move = moves[f.random.IntN(len(moves))]
	}
	if err := f.game.Move(move); err != nil {
		panic(err) // it is one of the legal ones
	}
	var sans []string
	for i, m := range f.game.Moves() {
		sans = append(sans, chess.AlgebraicNotation{}.Encode(f.game.Positions()[i], m))
	}
	left := 90*time.Minute - time.Duration(len(sans))*25*time.Second
	f.clocks = append(f.clocks, time.Time{}.Add(left).Format("15:04:05"))
	text := relaytest.Packet(relaytest.Game{
		White: "Sandgruber, Veronika", Black: "Talvik, Oskar", Table: "1", Round: string(rune('a'+f.round%26)) + strings.Repeat("i", f.round/26),
		Control: "5400+30", Moves: strings.Join(sans, " "), Clocks: f.clocks,
	})
	return f.intake.Read(at, []byte(text)), len(sans)
}
