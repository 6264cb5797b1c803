package relay

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"time"

	"clocktell/relay/clock"
	"clocktell/relay/notation"
	"github.com/notnil/chess"
)

// entriesKept is how many entries are remembered, to know one that is sent again.
const entriesKept = 1000

// Entered is what became of an entry.
type Entered struct {
	ID      string
	Refused string // why nothing was done; "" it was done
}

// Entry returns what became of the entry of that ID; false: it is not known.
func (s *Show) Entry(id string) (Entered, bool) {
	i := slices.IndexFunc(s.Entries, func(e Entered) bool { return e.ID == id })
	if i < 0 {
		return Entered{}, false
	}
	return s.Entries[i], true
}

// takeByHand does what the producer asks for, unless it has been done before.
func (s *Show) takeByHand(e ByHand) {
	if _, known := s.Entry(e.ID); known {
		return
	}
	entered := Entered{ID: e.ID}
	if e.Act.ofShow() {
		e.Board = 0
	}
	said, err := s.enter(e)
	if err != nil {
		entered.Refused = err.Error()
		s.note(Noted{Board: e.Board, Kind: NoteRefused, Ply: e.Ply, Is: e.what(), Text: entered.Refused})
	} else {
		s.note(Noted{Board: e.Board, Kind: NoteByHand, Ply: e.Ply, Is: e.what(), Text: said})
		s.Totals.ByHand++
		if !e.Act.ofShow() {
			s.follow(e.Board - 1)
		}
	}
	s.remember(entered)
	s.SourcesRev++
}

// remember keeps what became of an entry, so that it is done once.
func (s *Show) remember(e Entered) {
	s.Entries = append(slices.Clip(s.Entries[max(0, len(s.Entries)-entriesKept+1):]), e)
}

// what is the entry in a few words.
func (e ByHand) what() string {
	switch e.Act {
	case ActMove, ActCorrect:
		return e.SAN
	case ActClock:
		return clock.Format(e.Left)
	case ActPin:
		return e.Feed
	case ActAnswer:
		return e.Keep
	}
	return e.Text
}

// enter changes the board as an entry asks for; follow then shows it. It returns
// the entry in words.
func (s *Show) enter(e ByHand) (string, error) {
	if e.ID == "" || len(e.ID) > 64 {
		return "", errors.New("an entry needs an id of 1 to 64 characters, its own and no other's")
	}
	if e.Act.ofShow() {
		return s.enterShow(e)
	}
	next, err := s.entered(e)
	if err != nil {
		return "", err
	}
	next.Hand.entries++
	said, err := next.enter(e)
	if err == nil && e.Act == ActPin && e.Feed != "" && next.offer(e.Feed) == nil {
		err = fmt.Errorf("feed %s does not have the game of board %d", e.Feed, e.Board)
	}
	if err != nil {
		return "", err
	}
	if e.Board > len(s.Boards) {
		s.Boards = append(s.Boards, newBoard(e.Board, s.defaults.Language))
		s.HeadRev++
	}
	s.Boards[e.Board-1] = &next
	return said, nil
}

// entered returns a copy of the board that an entry is for. A move or a name may begin
// the next board.
func (s *Show) entered(e ByHand) (Board, error) {
	switch n := len(s.Boards); {
	case e.Board >= 1 && e.Board <= n:
		return *s.Boards[e.Board-1], nil
	case e.Board == n+1 && n < s.plan.MaxBoards && (e.Act == ActMove || e.Act == ActName):
		return *newBoard(e.Board, s.defaults.Language), nil
	}
	return Board{}, fmt.Errorf("there is no board %d", e.Board)
}

func (next *Board) enter(e ByHand) (string, error) {
	switch e.Act {
	case ActMove:
		return next.enterMove(e)
	case ActCorrect:
		return next.enterCorrection(e)
	case ActClock:
		return next.enterClock(e)
	case ActResult:
		return next.enterResult(e)
	case ActName:
		return next.enterName(e)
	case ActFreeze:
		next.Frozen = e.At
		return "frozen", nil
	case ActThaw:
		next.Frozen = time.Time{}
		return "goes on", nil
	case ActPin:
		next.Pinned = e.Feed
		if e.Feed == "" {
			return "follows the best feed", nil
		}
		return "follows " + e.Feed + " whatever it does", nil
	case ActAnswer:
		return next.enterAnswer(e)
	}
	return "", fmt.Errorf("there is no act %q; there are move, correct, clock, result, name, freeze, thaw, pin, answer, hold and quiet", e.Act)
}

func (next *Board) enterMove(e ByHand) (string, error) {
	if e.Ply != len(next.Plies)+1 {
		return "", fmt.Errorf("the board has %d plies, so the next one is ply %d, not %d", len(next.Plies), len(next.Plies)+1, e.Ply)
	}
	if next.Over() {
		return "", fmt.Errorf("the game is over, %s; set the result to * first", next.Result)
	}
	return next.enterPly(e)
}

// enterPly puts a move at its ply, in place of whatever stands there.
func (next *Board) enterPly(e ByHand) (string, error) {
	if next.Question != nil && next.Question.Kind == AsksMove {
		return "", errors.New("answer the question about this board first")
	}
	move, err := notation.Resolve(next.positionBefore(e.Ply), e.SAN)
	if err != nil {
		return "", fmt.Errorf("%q cannot be played: %w", e.SAN, err)
	}
	san := chess.AlgebraicNotation{}.Encode(next.positionBefore(e.Ply), move)
	next.setMove(HandMove{Ply: e.Ply, SAN: san, At: e.At})
	number, side := next.MoveNumber(e.Ply - 1)
	return numbered(number, side, san), nil
}

// setMove takes an entered move. What the feed says of that ply now is no reason to
// ask.
func (next *Board) setMove(e HandMove) {
	if was := next.Hand.move(e.Ply); was != nil {
		e.Over, e.Graft = was.Over, was.Graft
	} else {
		e.Over = textAt(next.said().Moves, e.Ply)
	}
	next.Hand.Moves = slices.DeleteFunc(slices.Clone(next.Hand.Moves), func(m HandMove) bool { return m.Ply >= e.Ply })
	if e.SAN != "" || e.Over != "" || !next.hears() {
		next.Hand.Moves = append(next.Hand.Moves, e)
	}
}

func (next *Board) enterCorrection(e ByHand) (string, error) {
	if e.Ply < 1 || e.Ply > len(next.Plies) || e.Ply < len(next.Plies) && next.Hand.move(e.Ply) == nil {
		return "", fmt.Errorf("only the last ply can be corrected, which is ply %d, and plies entered by hand, not ply %d", len(next.Plies), e.Ply)
	}
	if e.SAN != "" {
		return next.enterPly(e)
	}
	if next.Question != nil && next.Question.Kind == AsksMove {
		return "", errors.New("answer the question about this board first")
	}
	next.setMove(HandMove{Ply: e.Ply, Was: next.Plies[e.Ply-1].SAN, At: e.At})
	return next.moveText(e.Ply-1) + " taken back", nil
}

// clockMost is the longest time a clock can show: no time control gives more.
const clockMost = 24 * time.Hour

func (next *Board) enterClock(e ByHand) (string, error) {
	if e.Ply < 1 || e.Ply > len(next.Plies) {
		return "", fmt.Errorf("a clock stands behind a ply, 1 to %d, not %d", len(next.Plies), e.Ply)
	}
	if e.Left < 0 || e.Left > clockMost {
		return "", fmt.Errorf("a clock shows 0 to %d hours", clockMost/time.Hour)
	}
	entered := HandClock{Ply: e.Ply, SAN: next.Plies[e.Ply-1].SAN, Left: e.Left, Over: next.feedClock(e.Ply)}
	next.Hand.Clocks = slices.DeleteFunc(slices.Clone(next.Hand.Clocks), func(c HandClock) bool { return c.Ply == e.Ply })
	next.Hand.Clocks = append(next.Hand.Clocks, entered)
	slices.SortFunc(next.Hand.Clocks, func(a, b HandClock) int { return a.Ply - b.Ply })
	return clock.Format(e.Left) + " after " + next.moveText(e.Ply-1), nil
}

func (next *Board) enterResult(e ByHand) (string, error) {
	if !slices.Contains([]string{"1-0", "0-1", "1/2-1/2", "*"}, e.Text) {
		return "", fmt.Errorf("%q is no result; there are 1-0, 0-1, 1/2-1/2 and *", e.Text)
	}
	over := next.fed.result
	if next.Hand.Result != nil {
		over = next.Hand.Result.Over
	}
	next.Hand.Result = &HandWord{Is: e.Text, Over: over}
	return e.Text, nil
}

// nameMost is the longest name that can be entered, in bytes.
const nameMost = 80

func (next *Board) enterName(e ByHand) (string, error) {
	name := strings.TrimSpace(e.Text)
	side := clock.White
	switch {
	case name == "" || len(name) > nameMost || strings.ContainsFunc(name, func(r rune) bool { return r < ' ' }):
		return "", fmt.Errorf("a name has 1 to %d bytes and stands on one line", nameMost)
	case e.Side == "black":
		side = clock.Black
	case e.Side != "white":
		return "", fmt.Errorf("a name is of white or black, not of %q", e.Side)
	}
	over := next.fed.players[side].Name
	if was := next.Hand.Names[side]; was != nil {
		over = was.Over
	}
	next.Hand.Names[side] = &HandWord{Is: name, Over: over}
	return side.String() + " is " + name, nil
}
