package main

import (
	"context"
	"fmt"
	"log/slog"
	"net"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"github.com/chromedp/chromedp"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/relaytest"
)

// keptShow is a show with prompts that is written down, and can be stopped and started again.
type keptShow struct {
	t    *testing.T
	c    config.Config
	addr string
	st   *station
	stop func()
}

// startKept starts a show of four games in which one side is far behind on the clock, so that there
// is something to say.
func startKept(t *testing.T) *keptShow {
	t.Helper()
	var games []relaytest.Game
	for n := range 4 {
		g := relaytest.Game{White: fmt.Sprintf("Marlow%d, M", n), Black: fmt.Sprintf("Thorn%d, T", n), Control: "600+10"}
		g.Moves = "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7 Re1 b5 Bb3 d6 c3 O-O h3 Nb8 d4"
		for ply := range 19 {
			left := 600 - 2*ply
			if ply%2 == 1 {
				left = 600 - 20*ply // Black thinks, and falls behind
			}
			g.Clocks = append(g.Clocks, fmt.Sprintf("0:%02d:%02d", left/60, left%60))
		}
		games = append(games, g)
	}
	s := startKeptOf(t, games...)
	waitShow(t, s.st, func(s *relay.Show) bool { return len(s.Said.Items) >= 3 })
	return s
}

// startKeptOf starts a show of these games.
func startKeptOf(t *testing.T, games ...relaytest.Game) *keptShow {
	t.Helper()
	s := &keptShow{t: t, c: config.Default(), addr: "127.0.0.1:0"}
	f := config.DefaultFeed()
	f.Name, f.File, f.StaleAfter.Duration = "hall", filepath.Join(t.TempDir(), "games.pgn"), time.Hour
	s.c.Feeds = []config.Feed{f}
	s.c.Journal.Dir = t.TempDir()
	s.tell(games...)
	s.start()
	t.Cleanup(func() { s.stop() })
	return s
}

// tell lets the feed tell the games so.
func (s *keptShow) tell(games ...relaytest.Game) {
	s.t.Helper()
	if err := os.WriteFile(s.c.Feeds[0].File, []byte(relaytest.Packet(games...)), 0o600); err != nil {
		s.t.Fatal(err)
	}
}

func (s *keptShow) start() {
	s.t.Helper()
	var err error
	if s.st, err = newStation(s.t.Context(), s.c, relay.NewTimebase(1), slog.New(slog.DiscardHandler)); err != nil {
		s.t.Fatal(err)
	}
	l, err := net.Listen("tcp", s.addr)
	if err != nil {
		s.t.Fatal(err)
	}
	s.addr = l.Addr().String()
	ctx, cancel := context.WithCancel(context.Background())
	done := make(chan error)
	go func() { done <- s.st.run(ctx, l) }()
	s.stop = func() {
		cancel()
		if err := <-done; err != nil {
			s.t.Error(err)
		}
		s.stop = func() {}
	}
}

// sit opens a panel in a browser of its own and gives a name there.
func (s *keptShow) sit(ctx context.Context, name string) context.Context {
	s.t.Helper()
	ctx, cancel := chromedp.NewContext(ctx, chromedp.WithNewBrowserContext())
	s.t.Cleanup(cancel)
	watchConsole(s.t, ctx)
	visit(s.t, ctx, "http://"+s.addr+"/panel")
	waitFor(s.t, ctx, "something to say", "document.querySelectorAll('#cards article[data-state=open]').length >= 3")
	evaluate[bool](s.t, ctx, `(document.querySelector('#who-name').value = '`+name+`', document.querySelector('#who').requestSubmit(), true)`)
	return ctx
}

// card is a script's word for the card of a prompt.
func card(key string) string { return `document.querySelector('article[data-prompt="` + key + `"]')` }

// press presses a button of a card.
func (s *keptShow) press(ctx context.Context, key, action string) {
	s.t.Helper()
	evaluate[bool](s.t, ctx, `(`+card(key)+`.querySelector('[data-action=`+action+`]:not(:disabled)').click(), true)`)
}

func (s *keptShow) waitCard(ctx context.Context, what, key, holds string) {
	s.t.Helper()
	waitFor(s.t, ctx, what, `((card) => card !== null && `+holds+`)(`+card(key)+`)`)
}

// TestPanelIsShared opens three panels on one show: what one does all see, of two who
// take the same one is told at once, and nothing is lost or done twice when a page is
// loaded again or the relay goes away.
func TestPanelIsShared(t *testing.T) {
	ctx := browser(t)
	s := startKept(t)
	visit(t, ctx, "about:blank") // the browser is there before its contexts
	nadja, ilja, suri := s.sit(ctx, "Nadja"), s.sit(ctx, "Ilja"), s.sit(ctx, "Suri")
	waitFor(t, nadja, "all at the table", `['Nadja', 'Ilja', 'Suri'].every((n) => document.querySelector('#people').textContent.includes(n))`)
	keys := evaluate[[]string](t, nadja, `[...document.querySelectorAll('#cards article[data-state=open]')].map((c) => c.dataset.prompt)`)

	s.still(ilja, nadja, keys[0])
	s.waitCard(suri, "Nadja to have it", keys[0], `card.dataset.form === 'saying' && card.textContent.includes('Nadja is saying this')`)
	s.conflict(ilja, suri, keys[1])
	s.press(suri, keys[2], "pin")
	s.waitCard(ilja, "the shelf", keys[2], `card.closest('#shelf-cards') !== null && card.textContent.includes('pinned by Suri')`)

	page(t, nadja, "loading again", chromedp.Reload())
	s.waitCard(nadja, "hers after loading again", keys[0], `card.hasAttribute('data-mine') && card.textContent.includes('you have it')`)
	s.apart(nadja, ilja, keys[0])
	s.onAir(ilja, suri, keys[2])
	s.seenAfter(ilja, suri, keys[2])
}

// still rests a finger on one panel while somebody else takes a sentence: it says so at
// once in the room it has, and nothing moves until the finger is up.
func (s *keptShow) still(finger, other context.Context, key string) {
	s.t.Helper()
	evaluate[bool](s.t, finger, `(window.rooms = () => [...document.querySelectorAll('#cards article')].map((c) => c.offsetTop + '+' + c.offsetHeight).join(' '),
		window.before = rooms(), dispatchEvent(new PointerEvent('pointerdown', { pointerId: 7 })), true)`)
	s.press(other, key, "take")
	s.waitCard(finger, "Nadja to have it", key, `card.dataset.form === 'saying' && card.textContent.includes('Nadja is saying this')`)
	if now := evaluate[string](s.t, finger, "rooms()"); now != evaluate[string](s.t, finger, "before") {
		s.t.Errorf("cards moved under a finger: they stand at %s", now)
	}
	evaluate[bool](s.t, finger, `dispatchEvent(new PointerEvent('pointerup', { pointerId: 7 }))`)
	waitFor(s.t, finger, "the card to shrink", "rooms() !== before")
}

// conflict lets two take the same before either sees what the other did: one has it, the
// other is told who.
func (s *keptShow) conflict(one, other context.Context, key string) {
	s.t.Helper()
	evaluate[bool](s.t, other, `(window.held = new Promise((go) => (window.release = go)), window.plain = fetch,
		window.fetch = (...args) => held.then(() => plain(...args)), true)`)
	s.press(other, key, "take")
	s.waitCard(other, "hers at once", key, `card.hasAttribute('data-mine')`)
	s.press(one, key, "take")
	s.waitCard(other, "Ilja to have it", key, `card.textContent.includes('Ilja is saying this')`)
	evaluate[bool](s.t, other, `(window.fetch = plain, release(), true)`)
	s.waitCard(other, "the reason", key, `/Ilja was first, and has had it for \d+:\d\d/.test(card.querySelector('.saying').textContent)`)
	waitFor(s.t, other, "the reason to be spoken", `document.querySelector('#spoken').textContent.includes('Ilja was first')`)
	// A tap meant for what the button did before does nothing, so it may take a second one.
	s.waitCard(other, "taking over", key, `(card.querySelector('[data-action=over]')?.click(), card.hasAttribute('data-mine'))`)
	s.waitCard(one, "Suri to have taken over", key, `card.textContent.includes('Suri is saying this')`)
}

// apart takes the relay away: the panel goes on, and what was done is sent once, in its
// order, when the relay is back.
func (s *keptShow) apart(here, there context.Context, key string) {
	s.t.Helper()
	before := s.st.relay.Show().Totals.AtPanel
	s.stop()
	waitFor(s.t, here, "the page to notice", "document.body.dataset.line === 'lost'")
	s.press(here, key, "said")
	evaluate[bool](s.t, here, `(document.querySelector('#note').value = 'back soon', document.querySelector('#note').dispatchEvent(new Event('input')),
		document.querySelector('#note-form').requestSubmit(), true)`)
	s.waitCard(here, "said here", key, `card.dataset.state === 'said' && card.textContent.includes('not sent yet')`)
	waitFor(s.t, here, "the count of what waits", `document.querySelector('#unsent').textContent.includes('2 acts')`)
	s.start()
	s.waitCard(there, "said there", key, `card.textContent.includes('Said by Nadja')`)
	waitFor(s.t, there, "the note", `document.querySelector('#notes-list').textContent.includes('back soon')`)
	waitFor(s.t, here, "an empty outbox", `document.querySelector('#unsent').hidden && Object.keys(localStorage).every((k) => !k.includes('.act.'))`)
	if got := s.st.relay.Show().Totals.AtPanel; got != before+2 {
		s.t.Errorf("%d acts were done, want %d", got, before+2)
	}
}

// onAir puts a sentence on the air: all see who did, and any of them takes it off.
func (s *keptShow) onAir(one, other context.Context, key string) {
	s.t.Helper()
	s.press(one, key, "air")
	s.waitCard(other, "on the air", key, `card.dataset.aired === 'on' && card.textContent.includes('on the air, Ilja')`)
	waitShow(s.t, s.st, func(s *relay.Show) bool { return s.OnAir.Caption != nil && s.OnAir.Caption.Key == key })
	s.waitCard(other, "taking off", key, `(card.querySelector('[data-action=off]')?.click(), card.dataset.aired !== 'on')`)
	s.waitCard(one, "off the air", key, `card.dataset.aired === undefined`)
	waitShow(s.t, s.st, func(s *relay.Show) bool { return s.OnAir.Caption == nil })
	if i := slices.IndexFunc(s.st.relay.Show().Said.Items, func(b relay.BoardPrompt) bool { return b.Key() == key }); i < 0 {
		s.t.Error("the sentence is gone from the list")
	}
}
