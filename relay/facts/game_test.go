package facts

import (
	"slices"
	"strings"
	"testing"

	notnil "github.com/notnil/chess"

	"clocktell/relay/bitboard"
)

func play(tb testing.TB, fen, moves string) Game {
	tb.Helper()
	g := NewGame(position(tb, fen))
	for san := range strings.FieldsSeq(moves) {
		p := g.Position()
		m, err := p.ParseSAN(san)
		if err != nil {
			tb.Fatalf("%s: %v", san, err)
		}
		g.Play(m)
	}
	return g
}

func TestGame(t *testing.T) {
	const kings = "r3k2r/8/8/8/8/8/6B1/R3K2R w KQkq - 0 1"
	for _, test := range []struct {
		name, fen, moves string
		kind             Kind
		want             []string
	}{
		{"Black's king has moved", kings, "Bf3 Ke7 Bg2 Ke8", CastlingLost, []string{
			"Black queen's side e8e7 e8 ke7 2", "Black king's side e8e7 e8 ke7 2"}},
		{"a rook has moved, and come back", kings, "Ra2 Rb8 Ra1 Ra8", CastlingLost, []string{
			"White queen's side a1a2 a1 Ra2 1", "Black queen's side a8b8 a8 rb8 2"}},
		{"a bishop takes the rook", kings, "Bxa8", CastlingLost, []string{"Black queen's side g2a8 g2 Ba8 1"}},
		{"rook takes rook: both have lost", kings, "Rxh8+", CastlingLost, []string{
			"White king's side h1h8 h1 Rh8 1", "Black king's side h1h8 h1 Rh8 1"}},
		{"who castles has lost nothing", kings, "O-O O-O-O", CastlingLost, nil},
		{"castled on both wings", kings, "O-O O-O-O", Castled, []string{
			"White king's side e1g1 Kg1 Rf1 1", "Black queen's side e8c8 kc8 rd8 2"}},
		{"one move from a repetition", kings, "Bf3 Rb8 Bg2", Repetition, nil},
		{"not the same rights as at first", kings, "Bf3 Rb8 Bg2 Ra8", Repetition, nil},
		{"twice", kings, "Bf3 Rb8 Bg2 Ra8 Bf3 Rb8 Bg2 Ra8", Repetition, []string{"2"}},
		{"three times, the start among them", bitboard.StartFEN, "Nf3 Nf6 Ng1 Ng8 Nf3 Nf6 Ng1 Ng8", Repetition, []string{"3"}},
		{"the start of counting moves on", bitboard.StartFEN, "Nf3 Nf6 Ng1 Ng8 e4 Nf6 Nf3 Ng8 Ng1", Repetition, []string{"2"}},
		{"five times", bitboard.StartFEN, strings.Repeat("Nf3 Nf6 Ng1 Ng8 ", 4), Repetition, []string{"5"}},
		{"taking en passant was possible the first time", "rnbqkbnr/ppp1pppp/8/8/3p4/8/PPPPPPPP/RNBQKBNR w KQkq - 0 1",
			"e4 Nf6 Nf3 Ng8 Ng1", Repetition, nil},
		{"a pawn beside which none stands", bitboard.StartFEN, "e4 Nf6 Nf3 Ng8 Ng1", Repetition, []string{"2"}},
		{"80 half-moves", "4k3/8/8/8/8/8/3R4/4K3 w - - 79 90", "Ke2", FiftyMoves, []string{"80"}},
		{"79", "4k3/8/8/8/8/8/3R4/4K3 w - - 78 90", "Ke2", FiftyMoves, nil},
		{"a claim at 100", "4k3/8/8/8/8/8/3R4/4K3 w - - 99 90", "Ke2", FiftyMoves, []string{"100"}},
		{"drawn at 150", "4k3/8/8/8/8/8/3R4/4K3 w - - 149 90", "Ke2", FiftyMoves, []string{"150"}},
		{"mate comes first", "7k/8/6K1/8/8/8/8/R7 w - - 149 90", "Ra8#", FiftyMoves, nil},
	} {
		g := play(t, test.fen, test.moves)
		if got := lines(g.Facts(), test.kind); !slices.Equal(got, test.want) {
			t.Errorf("%s: %s %q, want %q", test.name, test.kind, got, test.want)
		}
	}
}

// lines returns the facts of a kind as text, without its name.
func lines(facts Facts, kind Kind) []string {
	var found []string
	for _, f := range facts.Of(kind) {
		found = append(found, strings.TrimSpace(strings.TrimPrefix(f.String(), kind.String())))
	}
	return found
}

// TestGameIsValue: a copy of a game goes its own way.
func TestGameIsValue(t *testing.T) {
	g := play(t, bitboard.StartFEN, "Nf3 Nf6 Ng1 Ng8 Nf3 Nf6")
	a, b := g, g
	for _, san := range []string{"Ng1", "Ng8"} {
		p := a.Position()
		m, _ := p.ParseSAN(san)
		a.Play(m)
		p = b.Position()
		m, _ = p.ParseSAN(map[string]string{"Ng1": "Nd4", "Ng8": "Nd5"}[san])
		b.Play(m)
	}
	if got := lines(a.Facts(), Repetition); !slices.Equal(got, []string{"3"}) {
		t.Errorf("repetition %q after another copy went on, want 3", got)
	}
}

// TestLibraryGamesFollowed follows games of the library: repetitions are counted on the
// positions of github.com/notnil/chess v1.10.0 as text, en passant left out unless its
// moves have one; rights are lost or used exactly where its positions lack them.
func TestLibraryGamesFollowed(t *testing.T) {
	every := 50
	if full() {
		every = 5
	}
	games, repeated, castled := 0, 0, 0
	for i, game := range libraryGames(t, "big.pgn") {
		if i%every != 0 || game.Tag("FEN") != "" {
			continue
		}
		games++
		g, view := NewGame(bitboard.Start()), notnil.StartingPosition()
		seen := map[string]int{key(view): 1}
		for _, move := range game.Moves {
			p := g.Position()
			m, err := p.ParseSAN(move.SAN)
			if err != nil {
				t.Fatal(err)
			}
			g.Play(m)
			view = view.Update(legal(t, view, m))
			seen[key(view)]++
			facts := g.Facts()
			if n := amountOf(facts, Repetition); n != seen[key(view)] && (n != 0 || seen[key(view)] > 1) {
				t.Fatalf("game %d, %s: occurred %d times, want %d", i+1, view, n, seen[key(view)])
			} else if n > 0 {
				repeated++
			}
			castled = max(castled, compareRights(t, facts, view))
		}
	}
	t.Logf("%d games, %d repeated positions", games, repeated)
	if repeated == 0 || castled != 2 {
		t.Error("nothing was repeated, or not both sides castled in any game: nothing was tested")
	}
}

// key is what makes a position the same (FIDE Laws 9.2.3).
func key(p *notnil.Position) string {
	fields := strings.Fields(p.String())
	if !slices.ContainsFunc(p.ValidMoves(), func(m *notnil.Move) bool { return m.HasTag(notnil.EnPassant) }) {
		fields[3] = "-"
	}
	return strings.Join(fields[:4], " ")
}

func amountOf(facts Facts, kind Kind) int {
	for _, f := range facts {
		if f.Kind == kind {
			return f.Amount
		}
	}
	return 0
}

// compareRights returns how many sides have castled.
func compareRights(t *testing.T, facts Facts, view *notnil.Position) int {
	t.Helper()
	rights := view.CastleRights()
	for c, side := range []notnil.Color{notnil.White, notnil.Black} {
		for wing, on := range map[Wing]notnil.Side{KingSide: notnil.KingSide, QueenSide: notnil.QueenSide} {
			gone := facts.Has(Castled, Colour(c))
			for _, f := range facts.Of(CastlingLost) {
				gone = gone || f.Side == Colour(c) && f.Wing == wing
			}
			if gone == rights.CanCastle(side, on) {
				t.Fatalf("%s: %s on the %s gone is %v", view, Colour(c), wing, gone)
			}
		}
	}
	return len(facts.Of(Castled))
}
