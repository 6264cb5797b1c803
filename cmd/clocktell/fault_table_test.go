package main

import (
	"cmp"
	"flag"
	"net/http"
	"strings"
	"sync/atomic"
	"testing"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/feed"
)

// faultRow is one way a feed may misbehave, and what must hold meanwhile. The feed
// carries two games: one that suffers where the fault is in the content, and a good
// one, which moves on during the fault wherever the answer can be read at all.
type faultRow struct {
	name  string
	basis string // what says so; "": common practice, no source

	// What the feed carries.
	moves  string // of the game that suffers; "": usualMoves
	before int    // plies of it before the fault; 0: beforePlies
	during int    // plies of it in the packets of the fault; 0: duringPlies
	last   bool   // it stands behind the good game in the packet

	// What is served during the fault: one of them.
	game    func(text string) string             // instead of the suffering game's text
	packets func(g faultGames) []string          // one after the other, each once the one before was taken
	serve   func(s *faultScene) http.HandlerFunc // a transfer
	begin   func(s *faultScene)                  // something of the server itself
	end     func(s *faultScene)                  // what begin did is over

	// How the show is set up.
	url    string                 // instead of the server's own
	at     string                 // the server's address; "": any port
	secure *papers                // the server speaks TLS with these
	ready  func(*relay.Show) bool // what else must hold before the fault; nil: nothing
	rate   float64                // of show time; 0: 1
	backup bool                   // a second feed of the same games
	adjust func(c *config.Config)
	wire   func(st *station) // before it runs; nil: nothing

	want faultWant
}

// faultWant is what must hold during the fault, besides that the good game is right
// and nothing is named that is not listed here.
type faultWant struct {
	reason feed.Reason // of the feed's fault; "": the answers are taken
	says   string      // in its text
	times  int         // how often it has been told when the check is made; 0: 2

	reading []string         // health's lines about what could not be read: a part of each
	unread  map[string]int   // the same by reason, in the metric
	notes   []relay.NoteKind // unusual lines of the show log
	older   int              // older states counted
	loose   bool             // anything may be named, as long as something is
	taken   int              // moves taken back or replaced, counted
	verdict string           // part of health's sentence; "": not asked

	shows  string                 // on the board that suffers; "": the moves of the packet, or as before
	odd    []int                  // plies of it whose clock is not the right one
	result string                 // of it; "": *
	until  func(*relay.Show) bool // nil: the fault, or the packets, were heard
	also   func(s *faultScene, show *relay.Show) string
	late   func(s *faultScene, show *relay.Show) string // also, after the recovery
}

// faultRowsLeast is how many rows the table must have.
const faultRowsLeast = 55

// faultRowsAtOnce is how many rows run at the same time.
const faultRowsAtOnce = 4

// TestFaultTable plays every named fault against a whole show. Section numbers of the
// PGN standard, of its supplement, of the RFCs and of the FIDE Laws are from memory.
func TestFaultTable(t *testing.T) {
	ran, room := new(atomic.Int32), make(chan struct{}, faultRowsAtOnce)
	t.Run("rows", func(t *testing.T) {
		for _, rows := range [][]faultRow{
			slowRows, brokenRows, soundRows, statusRows, validatorRows, bodyRows, textRows, brokenTextRows, gamesRows, timeRows, clockRows, sanRows, moveRows,
		} {
			for i := range rows {
				t.Run(rows[i].name, func(t *testing.T) {
					t.Parallel()
					room <- struct{}{}
					defer func() { <-room }()
					rows[i].run(t)
					ran.Add(1)
				})
			}
		}
	})
	t.Run("machine", func(t *testing.T) { ran.Add(machineRowsRun(t)) })
	t.Logf("%d rows ran", ran.Load())
	if part := strings.Contains(flag.Lookup("test.run").Value.String(), "/"); !part && ran.Load() < faultRowsLeast {
		t.Errorf("%d rows ran to their end, want %d or more", ran.Load(), faultRowsLeast)
	}
}

// run plays a row: all is well, the fault, all is well again.
func (row *faultRow) run(t *testing.T) {
	t.Helper()
	s := newFaultScene(t, row)
	defer func() {
		if t.Failed() {
			t.Logf("what says so: %s", orNone(row.basis))
		}
	}()
	s.until("both games before the fault", s.bothShow(s.before(), beforePlies))
	if row.ready != nil {
		s.until("all to be ready", row.ready)
	}
	show := s.suffer()
	s.checkDuring(show)
	s.recover()
	show = s.until("both games after the fault", s.bothShow(len(s.moves()), len(goodLine)))
	s.checkAfter(show)
}

func orNone(basis string) string {
	if basis == "" {
		return "common practice, no source"
	}
	return basis
}

// suffer lets the fault begin, and returns the show once it was heard.
func (s *faultScene) suffer() *relay.Show {
	row, before := s.row, s.st.relay.Show().Totals.Packets
	seen := row.want.until
	if seen == nil { // a packet or a fault: which of them was wanted is checked then
		seen = func(show *relay.Show) bool {
			return show.Totals.Packets > before || show.Feeds[0].Faults >= cmp.Or(row.want.times, 2)
		}
	}
	switch {
	case row.begin != nil:
		row.begin(s)
	case row.serve != nil:
		s.server.set(row.serve(s))
	default:
		packets := s.faultPackets()
		for i, text := range packets[:len(packets)-1] {
			s.server.set(answer(text))
			s.until("a packet", func(show *relay.Show) bool { return show.Totals.Packets > before+uint64(i) })
		}
		before += uint64(len(packets) - 1)
		s.server.set(answer(packets[len(packets)-1]))
	}
	return s.until("the fault", seen)
}

// recover ends the fault.
func (s *faultScene) recover() {
	s.server.set(answer(s.packet(len(s.moves()), len(goodLine))))
	if s.row.end != nil {
		s.row.end(s)
	}
}
