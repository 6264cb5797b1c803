package relay_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/prompt"
	"clocktell/relay/relaytest"
)

// told is a stage whose one game is told move by move.
type told struct {
	stage *relaytest.Stage
	fen   string
	moves []string
}

func newTold(fen, moves string) *told {
	return &told{stage: relaytest.NewStage(), fen: fen, moves: strings.Fields(moves)}
}

// tell tells the game up to so many plies, half a minute later.
func (h *told) tell(plies int) {
	text := relaytest.Game{Moves: strings.Join(h.moves[:plies], " ")}.PGN()
	if h.fen != "" {
		text = strings.Replace(text, "[Round", "[SetUp \"1\"]\n[FEN \""+h.fen+"\"]\n[Round", 1)
		if strings.Contains(h.fen, " b ") {
			text = strings.Replace(text, "\n1. ", "\n1... ", 1)
		}
	}
	h.stage.Wait(30 * time.Second)
	h.stage.Take(text)
}

// standing returns the sentences on the position that stand on the panel.
func (h *told) standing() []string {
	var out []string
	for _, item := range h.stage.Show.Said.Items {
		if item.Kind == prompt.KindFacts && item.Withdrawn.IsZero() {
			out = append(out, item.Text)
		}
	}
	return out
}

func (h *told) want(t *testing.T, when string, want ...string) {
	t.Helper()
	if got := h.standing(); !slices.Equal(got, want) {
		t.Errorf("%s: %q stand, want %q", when, got, want)
	}
}

// TestRemarkIsPrompt: what stands on the board becomes a prompt with squares, a takeback
// withdraws it, and the same move brings it back.
func TestRemarkIsPrompt(t *testing.T) {
	h := newTold("", "f3 e5 g4 d6")
	for plies := 1; plies <= 3; plies++ {
		h.tell(plies)
	}
	const mate = "Noir has mate in one: queen to h4."
	h.want(t, "with mate on the board", mate)
	item := h.stage.Show.Said.Items[0]
	marks := []prompt.Mark{{Kind: prompt.MarkPlan, From: "d8", To: "h4"}, {Kind: prompt.MarkLook, To: "e1"}}
	if item.Priority != prompt.Now || item.Alert.Kind != relay.AlertPosition || item.Alert.Side != "black" || item.Alert.Ply != 3 || !slices.Equal(item.Marks, marks) {
		t.Errorf("%+v", item)
	}
	h.tell(2)
	h.stage.Same(time.Minute)
	h.want(t, "taken back")
	h.tell(3)
	h.tell(4)
	h.want(t, "a move later")
}

// won is a set-up in which Black gets a rook for a bishop, and a sentence two plies later.
const (
	wonFEN   = "3r2k1/5ppp/8/3n4/8/5N2/5PPP/3R2K1 w - - 0 30"
	wonMoves = "Rxd5 Rxd5 h3 h6 Kh2 Kh7"
	wonSaid  = 4
	won      = "Noir is the exchange up."
)

// TestRemarkFromSetUp: a game from a position that was set up is followed the same.
func TestRemarkFromSetUp(t *testing.T) {
	h := newTold(wonFEN, wonMoves)
	for plies := range 7 {
		h.tell(plies)
		if plies < wonSaid {
			h.want(t, "before the exchange was over")
		}
	}
	h.want(t, "at the end", won)
}

// TestRemarksOfSilence: of what a feed catches up with only the last position is news.
func TestRemarksOfSilence(t *testing.T) {
	for _, test := range []struct {
		upTo int
		said bool
	}{{4, true}, {5, true}, {6, false}} {
		h := newTold(wonFEN, wonMoves)
		h.tell(0)
		h.tell(1)
		h.tell(test.upTo)
		if got := slices.Contains(h.standing(), won); got != test.said {
			t.Errorf("%d plies at once: said %v, want %v", test.upTo-1, got, test.said)
		}
	}
}

// TestRemarksBeforeAnybodyListened: of a game found half way what is true is said, what happened is not.
func TestRemarksBeforeAnybodyListened(t *testing.T) {
	h := newTold(wonFEN, wonMoves)
	h.tell(wonSaid)
	h.want(t, "found half way", won)
	const check = "Nf3 Nf6 Ng1 Ng8"
	again := newTold("", check)
	again.tell(4)
	again.want(t, "the same position again, before anybody listened")
	heard := newTold("", check)
	heard.tell(3)
	heard.tell(4)
	heard.want(t, "heard", "The same position again: one more time and a draw can be claimed.")
}

// TestRemarksWithoutCastling: where kings and rooks stand at home without the right, as in games that are
// shuffled at the start, nothing is said of castling; nor does a start that the bitboards
// cannot take disturb the board.
func TestRemarksWithoutCastling(t *testing.T) {
	const fen = "r2qk2r/ppp2ppp/3pbn2/8/8/2N1BN2/PPP2PPP/R2QK2R b "
	for rights, want := range map[string][]string{"KQ": {"Weiss cannot castle short while the bishop on c4 covers f1."}, "-": nil} {
		h := newTold(fen+rights+" - 0 12", "Bc4 h3")
		h.tell(1)
		h.tell(2)
		h.want(t, "rights "+rights, want...)
	}
	shuffled := newTold("bqnbrkrn/pppppppp/8/8/8/8/PPPPPPPP/BQNBRKRN w - - 0 1", "Ng3 Ng6 Nb3 Nb6")
	for plies := range 5 {
		shuffled.tell(plies)
	}
	if b := shuffled.stage.Board(1); b.Fault != "" || len(b.Plies) != 4 {
		t.Errorf("%d plies, fault %q", len(b.Plies), b.Fault)
	}
	shuffled.want(t, "shuffled")
}

// TestRemarksInGerman: the panel's language is the remarks'.
func TestRemarksInGerman(t *testing.T) {
	plan := relaytest.Plan()
	plan.Language = "de"
	h := newTold("", "f3 e5 g4")
	h.stage = relaytest.NewStageOf(plan)
	h.tell(2)
	h.tell(3)
	h.want(t, "mate", "Noir kann in einem Zug matt setzen: Dame nach h4.")
}
