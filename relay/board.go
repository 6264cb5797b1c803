package relay

import (
	"time"

	"github.com/notnil/chess"

	"clocktell/relay/bitboard"
	"clocktell/relay/clock"
	"clocktell/relay/opinion"
	"clocktell/relay/pgn"
	"clocktell/relay/prompt"
	"clocktell/relay/remark"
	"clocktell/relay/tell"
)

// Board is one game slot of the show at one moment. A Board is never changed:
// Apply and Advance return the next one.
type Board struct {
	Number   int       // in the show, from 1
	Game     int       // how many games the board has shown before this one
	Feed     string    // that the board follows
	Offers   []*Offer  // what each feed says of the game, the primary first
	Pinned   string    // feed that the producer wants followed; "" the best
	Frozen   time.Time // since when the producer keeps the board as it is; zero: not
	Hand     Hand
	Question *Question // to the producer; nil: none
	Key      Key
	Rev      uint64    // grows by one with every visible change
	Since    time.Time // of what made this revision
	News     bool      // a packet made it, not time alone
	Keep     int       // plies this revision shares with the one before

	Players    [2]Player
	Control    clock.Control
	Plies      []Ply
	FEN        string // position now
	Result     string // "1-0", "0-1", "1/2-1/2" or "*"
	Opening    Opening
	Correction *Correction // the latest, nil if none
	Fault      string      // why the game is shown no further, or ""

	Anchor  time.Time // when the side on move began to think, see Timing; zero before the first ply
	Timing  Timing
	Errors  Errors    // of its running clocks in this game
	Silent  time.Time // since when the feed says nothing and nobody knows whose clock runs; zero: it speaks
	EndedAt time.Time // when the game was over: its clocks stay where they stood; zero before
	HeldAt  time.Time // when its silence, or a fault, was noticed and the clocks were stopped where they stood
	Seen    time.Time // receipt of the packet that first had the game; zero: no game yet
	Calls   [2]tell.Call
	Levels  [2]tell.Trouble // time trouble of each side
	Ahead   [2]Ahead        // where each side's clock is going
	Alerts  []Alert         // raised and not cleared, oldest first
	Secret  bool            // viewers are asked for its next move: what is known of the position is not for them
	Habits  [2]*Habit       // of the players, from past games; nil: the reference has not answered

	in       prompt.Language // of what is said of it
	shown    shownState
	accepted *pgn.Game // what the feed followed said when it was taken last
	taken    *pgn.Game // that with what was entered by hand
	told     int       // moves of it that the feed itself has told
	fed      fedWords  // by the feed, whatever was entered by hand
	borrowed bool      // a backup is followed while the primary has the game as well
	awaits   bool      // the feed followed has not come as far yet as the board shows
	unheard  bool      // nothing new has come from the feed: its silence goes on
	another  bool      // the feed tells the next game
	badStart string    // why the start that the feed now names is none

	live  liveClock      // of the Clock tag
	found [2]clock.Value // starts of the sides that only their first readings tell

	start    startPosition
	lost     []Ply // taken back, and not replaced yet
	lostFrom int   // index of the first of them
	odd      []int // indices of the newest plies whose reading cannot be right, the newest first

	filter0      *tell.Filter     // before the first ply; never changed
	knownFrom    string           // Reference.Name of the one whose answers the board has
	startKnown   *Known           // what the reference knows of the start
	startOpinion *opinion.Opinion // what the engine thinks of it
	startSecond  *opinion.Opinion // and the one that it is compared with
	habitOf      [2]habitKey      // whose Habits are, and at which time class
	checked      time.Time        // the last moment Advance looked
	stake        stake            // of its match
	staked       []string         // what of it has been said and holds no longer

	filled []remark.Remark // what has been told of the game in silences
	named  string          // how its opening was last told to be called
	calm   int             // plies after which its position was told to be quiet; 0: it was not

	fens []string // of a kept board, see Kept: the positions after so many plies
}

// fedWords are what the feed says of players and result.
type fedWords struct {
	players [2]Player
	result  string
}

// Player is one side of a board, as its tags tell.
type Player struct {
	Name, Title, Federation string
	Rating                  int // 0 unknown
}

// Ply is one half-move with everything that follows from it.
type Ply struct {
	Text     string // as the feed wrote it
	SAN      string
	Move     *chess.Move
	Reading  clock.Reading
	Misread  string      // why a reading of the feed is none, or ""
	Mended   string      // why another reading was reckoned with, or ""
	Timed    clock.Timed // of the mover, after the move
	Look     Look
	Reply    tell.Reply
	Legal    int              // legal moves the mover had
	Rescued  bool             // the man moved was in danger, see tell.Move
	Known    *Known           // what the reference knows of the position after it; nil: it has not answered
	Opinion  *opinion.Opinion // what the engine thinks of the position after it; nil: it has not said
	Second   *opinion.Opinion // what the engine thinks that the first is compared with; nil: it has not said
	Seen     time.Time        // receipt of the packet that first had it
	Within   time.Duration    // it was played at most so long before Seen
	Alone    bool             // no other ply came with it
	ByHand   bool             // entered by the producer; no feed has it yet
	told     heardClock       // of its clock by the feed, whatever was entered by hand
	mended   clock.Reading    // what was reckoned with
	leaves   bool             // with it the verdict on the mover turned from preparation to thinking
	filter   *tell.Filter     // after it; never changed
	position *chess.Position  // after the move
	place    bitboard.Position
	remarks  *remark.State // on the position after it; never changed
}

// Look is how a move is drawn on the tell line.
type Look string

// The looks.
const (
	LookPreparation Look = "preparation"
	LookThinking    Look = "thinking"
	LookUnsure      Look = "unsure"
	LookTrouble     Look = "trouble"
	LookNone        Look = "none"
)

// Turn returns the side on move.
func (b *Board) Turn() clock.Side { return b.moverOf(len(b.Plies)) }

// Running returns the side whose clock runs, if one does.
func (b *Board) Running() (clock.Side, bool) {
	return b.Turn(), !b.Over() && len(b.Plies) > 0
}

// Over reports that the game has a result.
func (b *Board) Over() bool { return b.Result != "*" }

// Held reports that nobody knows whose clock runs: the feed is silent, or it has
// gone on with a move that cannot be played.
func (b *Board) Held() bool { return !b.HeldAt.IsZero() }

// AnchorSure reports that Anchor tells when the clock of the side on move began
// to run.
func (b *Board) AnchorSure() bool {
	if len(b.Plies) == 0 {
		return false
	}
	return b.Plies[len(b.Plies)-1].Sure() || b.Timing.Learnt && b.Timing.Unsure <= sureWithin/2
}

// Elapsed returns the time the side on move has spent on its move at t, or had
// when its clock was stopped.
func (b *Board) Elapsed(t time.Time) time.Duration {
	switch {
	case len(b.Plies) == 0:
		return 0
	case !b.EndedAt.IsZero():
		t = b.EndedAt
	case b.Held():
		t = b.HeldAt
	}
	return max(0, t.Sub(b.Anchor))
}

// MoveNumber returns the full-move number and the side of the ply at index i.
func (b *Board) MoveNumber(i int) (int, clock.Side) {
	return (b.HalfMove(i) + 1) / 2, b.moverOf(i)
}

// HalfMove returns the number of the ply at index i, counted in half-moves from
// White's first move of the game: odd is White's.
func (b *Board) HalfMove(i int) int { return b.start.halfMove + i }

func (b *Board) moverOf(i int) clock.Side { return clock.Side((b.HalfMove(i) - 1) % 2) }

func (b *Board) position() *chess.Position {
	if n := len(b.Plies); n > 0 {
		return b.Plies[n-1].position
	}
	return b.start.position
}

// Apply returns the board as a feed's game makes it, and the board itself when
// the game says nothing new. It is pure: nothing of the world outside is asked.
func (b *Board) Apply(g *pgn.Game, r Receipt, defaults Defaults) *Board {
	next := b.taggedBy(g, defaults)
	if next.Seen.IsZero() {
		next.Seen, r.Within = r.At, unknownWithin
	}
	if !b.unheard {
		next.Silent, next.HeldAt = time.Time{}, time.Time{}
	}
	from, correction := next.follow(g, r)
	from = next.markByHand(from)
	from = next.readClocks(b, from, defaults)
	next.holdFault(b, r.At)
	next.retime(from)
	next.takeLive(g, r)
	if b.Rev > 0 && from == len(b.Plies) && len(next.Plies) == from && b.sameHead(next) && !next.liveMoves(b) {
		same := *b
		same.Hand, same.Question = next.Hand, next.Question
		same.fed, same.Plies, same.odd = next.fed, next.Plies, next.odd // what the feed itself says of them may be new
		same.live = next.live
		return &same
	}
	if from < len(next.Plies) || len(b.Plies) != from || next.liveMoves(b) {
		next.anchor(b, r.Late)
	}
	next.Correction = correction
	next.end(b, r.At)
	next.FEN = next.position().String()
	next.Opening = defaults.opening(next)
	next.Keep = from
	return b.succeeded(next, r.At, true)
}

// succeeded stamps the board that follows on b.
func (b *Board) succeeded(next *Board, at time.Time, news bool) *Board {
	next.settle(at, bothSides)
	next.Rev, next.Since, next.News = b.Rev+1, at, news
	return next
}
