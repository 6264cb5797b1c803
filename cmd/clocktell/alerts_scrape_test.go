package main

import (
	"context"
	"net/http"
	"slices"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/metrics"
)

// alertScenes is a normal match, and a fault for each alert that a fault of the feeds, of
// a page, of the disk or of the producer raises within seconds. What takes longer is in
// configs/clocktell.rules.test.yml.
var alertScenes = []alertScene{
	{rate: matchTime, before: playOn, adjust: journalled},
	{alert: "FeedSilent", may: falling, adjust: quickly(arenaFeed, 400*time.Millisecond, 800*time.Millisecond), begin: failing("")},
	{alert: "SpareFeedSilent", may: falling, backup: true, rate: 20, before: first, adjust: quickly(backupFeed, 400*time.Millisecond, 800*time.Millisecond), begin: failing("backup")},
	{alert: "BackupInUse", may: falling, backup: true, rate: 20, before: first, adjust: quickly(arenaFeed, 400*time.Millisecond, 800*time.Millisecond), begin: failing("games")},
	{alert: "FeedOftenLate", adjust: quickly(arenaFeed, 400*time.Millisecond, 2*rowPatience), begin: func(s *faultScene) {
		s.server.set(func(_ http.ResponseWriter, r *http.Request) { <-r.Context().Done() })
	}},
	{alert: "FeedFailing", begin: everySecond},
	{alert: "PushRefused", begin: pushBadly, adjust: func(_ *testing.T, c *config.Config) {
		door := config.DefaultFeed()
		door.Name, door.Push, door.Token = "door", true, "right"
		door.LateAfter.Duration, door.StaleAfter.Duration = 2*rowPatience, 2*rowPatience
		c.Feeds = append(c.Feeds, door)
	}},
	{alert: "GameUnplayable", begin: serving(suffering("e4 e5 Nf3 Nc6 Qxh7"))},
	{alert: "GamesWithoutBoard", adjust: func(_ *testing.T, c *config.Config) { c.Show.MaxBoards = 1 }},
	{alert: "ClockImpossible", begin: serving(strings.Replace(suffering("e4 e5 Nf3 Nc6 Bc4"), clk(5), "{[%clk 0:11:00]}", 1))},
	{alert: "RunningClockWrong", rate: 40, begin: jumping},
	{alert: "QuestionOpen", begin: func(s *faultScene) {
		hand(relay.ByHand{Act: relay.ActMove, Ply: beforePlies + 1, SAN: "d3"})(s)
		s.server.set(answer(s.packet(duringPlies, duringPlies)))
	}},
	{alert: "FreezeForgotten", begin: hand(relay.ByHand{Act: relay.ActFreeze})},
	{alert: "FramesLate", begin: latePage(50, 300)},
	{alert: "PagesFarBehind", rate: 40, begin: func(s *faultScene) { playLong(s); stalls(s, true); stalls(s, true) }, may: []string{"RunningClockWrong"}},
	{alert: "PagesDropped", rate: 40, may: []string{"RunningClockWrong", "PagesFarBehind"}, begin: func(s *faultScene) {
		playLong(s)
		for range 3 {
			stalls(s, false)
		}
	}},
	{alert: "PagesRefused", adjust: func(_ *testing.T, c *config.Config) { c.Server.MaxPages = 1 }, begin: crowd},
	{alert: "SceneLost",
		before: func(s *faultScene) {
			s.scene, s.close = context.WithCancel(context.Background())
			s.page(s.scene, "scene/clocks")
		},
		begin: func(s *faultScene) { s.close() }},
	{alert: "JournalFailing", adjust: journalled, begin: lockJournal},
	{alert: "JournalDiskLow", adjust: func(t *testing.T, c *config.Config) {
		journalled(t, c)
		c.Journal.MaxBytes = 1 << 60 // more than any disk has
	}},
	{alert: "EngineDown", engine: func() metrics.EngineFigures { return metrics.EngineFigures{Restarts: 9} }},
	{alert: "EngineUnsteady", engine: func() metrics.EngineFigures {
		return metrics.EngineFigures{Running: true, Restarts: unsteady.Add(1)}
	}},
	// Two that lead a show have no fault of their own, nor has the show a relay of its own.
	{alert: "TwoLead", ofShow: true, bus: shares("twins", relay.BusLeads, false)},
	{alert: "TwoLead", ofShow: true, bus: shares("twins", relay.BusLeads, false)},
	{alert: "NobodyLeads", ofShow: true, bus: shares("orphan", relay.BusFollows, true)},
	{alert: "", bus: shares("hall", relay.BusLeads, false)},
	{alert: "BusCut", bus: shares("hall", relay.BusFollows, true)},
	{alert: "LeadsAlone", adjust: busInside("alone"), begin: func(s *faultScene) { s.st.sharing.server.Close() }},
	{alert: "BusKeptLong", bus: func() metrics.Bus {
		return metrics.Bus{Show: "lonely", Role: relay.BusLeads, Cut: true, Kept: 60_000} // takes hours
	}},
	{alert: "ReferenceFailing", adjust: func(t *testing.T, c *config.Config) { c.Reference.File = write(t, "games.ref", "no reference") }},
}

// shares is a process's part in a show.
func shares(show string, role relay.BusRole, cut bool) func() metrics.Bus {
	return func() metrics.Bus { return metrics.Bus{Show: show, Role: role, Cut: cut} }
}

// busInside shares the show over a bus inside the relay.
func busInside(show string) func(*testing.T, *config.Config) {
	return func(t *testing.T, c *config.Config) {
		c.Bus.Listen, c.Bus.Dir, c.Bus.Show = "127.0.0.1:0", t.TempDir(), show
	}
}

// unsteady counts the restarts of an engine that never lasts until the next scrape.
var unsteady atomic.Uint64

// TestPrometheusRaisesAlerts lets Debian's Prometheus scrape running relays, each with a
// fault of its own: the rules raise that fault's alert and no other, and none at all in a
// normal match. Only how long a condition must hold is shortened, to impatientFor.
func TestPrometheusRaisesAlerts(t *testing.T) {
	program(t, "prometheus")
	if raced {
		t.Skip("with the race detector two dozen relays do not keep up with their scrapes; the fault table runs with it")
	}
	scenes, want := make([]*faultScene, len(alertScenes)), make(map[raised]bool)
	nobody := freeAddress(t)
	targets := []string{nobody}
	want[raised{nobody, "RelayDown"}] = true
	for i := range alertScenes {
		scenes[i] = alertScenes[i].open(t)
		targets = append(targets, scenes[i].address())
		if alert := alertScenes[i].alert; alertScenes[i].ofShow {
			want[raised{"", alert}] = true
		} else if alert != "" {
			want[raised{scenes[i].address(), alert}] = true
		}
	}
	w := newWatcher(t, targets)
	w.up(nobody)
	for i := range alertScenes {
		if begin := alertScenes[i].begin; begin != nil {
			begin(scenes[i])
		}
	}
	var got map[raised]bool
	missing := func() (names []string) {
		for a := range want {
			if !got[a] {
				names = append(names, a.alert)
			}
		}
		return names
	}
	w.until(func() string { return strings.Join(missing(), ", ") }, func() bool {
		got = w.raisedEver()
		return len(missing()) == 0
	})
	for i, scene := range scenes {
		for _, name := range namesOf(got, scene.address()) {
			if row := &alertScenes[i]; name != row.alert && !slices.Contains(row.may, name) {
				t.Errorf("where %q is to be raised, %s was too", row.alert, name)
			}
		}
	}
	for _, name := range namesOf(got, "") {
		if !want[raised{"", name}] && name != "RelayDown" { // which nobody is before the first scrape
			t.Errorf("%s was raised of a show", name)
		}
	}
	if normal := scenes[0].st.relay.Show(); len(normal.Boards) != 2 || len(normal.Boards[0].Plies) != len(goodLine) || normal.Totals.Packets < 4 {
		t.Errorf("the normal match was none: %s", told(normal))
	}
	w.draws(dashboardQueries(t))
	for name, annotations := range w.words() {
		for _, kind := range []string{"summary", "description"} {
			if text := annotations[kind]; text == "" || strings.Contains(text, "<no value>") || strings.Contains(text, "error") {
				t.Errorf("%s: %s %q", name, kind, text)
			}
		}
	}
}

// open starts the show of a scene.
func (a *alertScene) open(t *testing.T) *faultScene {
	t.Helper()
	s := newFaultScene(t, &faultRow{name: a.alert, backup: a.backup, rate: a.rate, wire: a.wire, adjust: func(c *config.Config) {
		for i := range c.Feeds {
			c.Feeds[i].Every.Duration, c.Feeds[i].MaxWait.Duration = 100*time.Millisecond, 100*time.Millisecond
		}
		if a.adjust != nil {
			a.adjust(t, c)
		}
	}})
	s.until("a board", func(show *relay.Show) bool { return len(show.Boards) > 0 })
	if a.before != nil {
		a.before(s)
	}
	return s
}

// wire puts the figures of a scene in place of those of the relay.
func (a *alertScene) wire(st *station) {
	st.figures.Engine = a.engine
	if a.bus != nil {
		st.figures.Bus = a.bus
	}
}

func (s *faultScene) address() string { return strings.TrimPrefix(s.pages, "http://") }
