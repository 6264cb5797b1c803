package main

import (
	"log/slog"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"clocktell/relay"
	"clocktell/relay/config"
)

// TestSharedShowStartsAgain starts the process that leads again and again, and looks at what it
// goes on with: what the bus holds, whatever becomes of the plan and of the journal.
func TestSharedShowStartsAgain(t *testing.T) {
	server := newTestBus(t)
	feed := httptest.NewServer(gameOf("e4 e5 Nf3"))
	defer feed.Close()
	dir := t.TempDir()
	c := config.Default()
	source := config.DefaultFeed()
	source.Name, source.URL = "arena", feed.URL+"/games.pgn"
	c.Feeds, c.Bus.URL, c.Journal.Dir = []config.Feed{source}, server.URL(), dir
	start := func(why string, c config.Config) (epoch string) {
		t.Helper()
		st, err := newStation(t.Context(), c, relay.NewTimebase(1), slog.New(slog.DiscardHandler))
		if err != nil {
			t.Fatalf("%s: %v", why, err)
		}
		running := runStation(t, st)
		eventually(t, why+": a board with three plies", func() bool {
			show := st.relay.Show()
			return len(show.Boards) == 1 && len(show.Boards[0].Plies) == 3 && st.sharing.bus.Now().Role == relay.BusLeads
		})
		running.stop()
		return st.epoch()
	}
	files := func() int {
		found, err := filepath.Glob(filepath.Join(dir, "show-*.db"))
		if err != nil {
			t.Fatal(err)
		}
		return len(found)
	}
	first := start("for the first time", c)
	if again := start("again", c); again != first || files() != 1 {
		t.Errorf("started again it has the show %s after %s, and %d journals", again, first, files())
	}
	c.Show.Title = "Velmarin Harbour Festival, blitz"
	if other := start("with another plan", c); other == first || files() != 1 {
		t.Errorf("with another plan it has the show %s after %s, and %d journals", other, first, files())
	}
	found, _ := filepath.Glob(filepath.Join(dir, "show-*.db"))
	if err := os.WriteFile(found[0], []byte("not a journal, whatever its name says"), 0o644); err != nil {
		t.Fatal(err)
	}
	start("with a damaged journal", c)
}
