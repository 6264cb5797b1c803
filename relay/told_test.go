package relay

import (
	"reflect"
	"testing"

	"clocktell/relay/pgn"
)

// TestKept: of a board whose place another game has taken, all stays that others may read, ply by
// ply, and what only the next move would need goes.
func TestKept(t *testing.T) {
	b := played(t, "e4 e5 Nf3 Nc6 Bb5 a6")
	kept := b.Kept()
	if kept.Plies[0].filter != nil || kept.Plies[0].remarks != nil || kept.Offers != nil || b.Plies[0].filter == nil {
		t.Errorf("what the next move would need is kept, or gone from the board itself")
	}
	if kept.Told() != b.Told() || kept.FENAfter(3) != b.FENAfter(3) || kept.FENAfter(0) != b.FENAfter(0) || kept.FENAfter(99) != b.FEN || kept.Kept().FENAfter(5) != b.FENAfter(5) || kept.Told() == (*pgn.Game)(nil) {
		t.Errorf("the game as it was told, or a position of it, is another one")
	}
	if kept.Turn() != b.Turn() || kept.Plies[0].position != nil {
		t.Errorf("the last position is to be kept, and it alone")
	}
	for i := range b.Plies {
		was, is := reflect.ValueOf(b.Plies[i]), reflect.ValueOf(kept.Plies[i])
		for n := range was.NumField() {
			if field := was.Type().Field(n); field.IsExported() && !reflect.DeepEqual(was.Field(n).Interface(), is.Field(n).Interface()) {
				t.Errorf("ply %d: %s is another one", i+1, field.Name)
			}
		}
	}
}

// played returns a board with these moves, as a feed told of them.
func played(t *testing.T, moves string) *Board {
	t.Helper()
	show := NewShow(Plan{Feeds: []FeedPlan{{Name: "arena"}}, MaxBoards: 1}, noon)
	packet := "[Event \"Harbour\"]\n[Round \"1\"]\n[White \"Quintanilha, D\"]\n[Black \"Tveiteras, H\"]\n[TimeControl \"600+5\"]\n\n" + moves + " *\n"
	show = show.After(NewIntake("arena").Read(noon, []byte(packet)))
	if len(show.Boards) != 1 || len(show.Boards[0].Plies) != 6 {
		t.Fatalf("%d boards", len(show.Boards))
	}
	return show.Boards[0]
}
