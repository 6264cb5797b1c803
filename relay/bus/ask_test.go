package bus

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"golang.org/x/sync/errgroup"

	"clocktell/relay"
)

// TestAsk brings entries of followers to the leader, more at once than it takes.
func TestAsk(t *testing.T) {
	t.Parallel()
	a, b, _, _ := pair(t)
	group, ctx := errgroup.WithContext(t.Context())
	for i := range 3 * askedAtOnce {
		id := fmt.Sprintf("asked-%d", i)
		group.Go(func() error {
			entered, err := b.bus.Ask(ctx, id, note(b, id))
			if err == nil && (entered.ID != id || entered.Refused != "") {
				return fmt.Errorf("%s became %+v", id, entered)
			}
			return err
		})
	}
	if err := group.Wait(); err != nil {
		t.Fatal(err)
	}
	for i := range 3 * askedAtOnce {
		id := fmt.Sprintf("asked-%d", i)
		until(t, "b has "+id, func() bool { return b.has(id) })
	}
	if entered, err := b.bus.Ask(t.Context(), "refused", relay.AtPanel{At: b.now(), ID: "refused", Who: "Ada", Act: relay.PanelWipe, Note: "none"}); err != nil || entered.Refused == "" {
		t.Errorf("what the show refuses: %+v, %v", entered, err)
	}
	if err := a.stop(); err != nil {
		t.Fatal(err)
	}
	leading(t, b)
	until(t, "a leader takes its own", func() bool { _, err := b.bus.Ask(t.Context(), "own", note(b, "own")); return err == nil })
}

// TestAskNobody asks while nobody leads.
func TestAskNobody(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	n := newNode(t, s.URL(), "a")
	if err := n.open(t.Context()); err != nil {
		t.Fatal(err)
	}
	defer n.bus.Close()
	ctx, cancel := context.WithTimeout(t.Context(), askWait/2) // it must not come to that
	defer cancel()
	if _, err := n.bus.Ask(ctx, "x", note(n, "x")); !errors.Is(err, ErrNoLeader) || ctx.Err() != nil {
		t.Errorf("got %v", err)
	}
	s.Close()
	until(t, "the line is cut", func() bool { return !n.bus.stream.conn.IsConnected() })
	if _, err := n.bus.Ask(ctx, "x", note(n, "x")); !errors.Is(err, ErrNoBus) || !strings.Contains(err.Error(), "there is no connection; send the entry again") {
		t.Errorf("without a bus: %v", err)
	}
}

// TestAskedLeaderDies asks a leader whose answer never comes.
func TestAskedLeaderDies(t *testing.T) {
	t.Parallel()
	a, b, line, _ := pair(t)
	line.stall(true)
	ctx, cancel := context.WithTimeout(t.Context(), 200*time.Millisecond) // for askWait
	defer cancel()
	if _, err := b.bus.Ask(ctx, "lost", note(b, "lost")); !errors.Is(err, ErrNoBus) || !strings.Contains(err.Error(), "send the entry again") {
		t.Errorf("got %v", err)
	}
	leading(t, b)
	line.heal()
	until(t, "a follows", func() bool { return a.bus.Now().Leader == "b" && !a.leads.Load() })
	if _, err := a.bus.Ask(t.Context(), "lost", note(a, "lost")); err != nil {
		t.Errorf("again: %v", err)
	}
}

// TestAskedLeaderLeaves asks a leader that ends before the show has the entry.
func TestAskedLeaderLeaves(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	a := newNode(t, s.URL(), "a")
	asked := make(chan struct{})
	a.o.Enter = func(ctx context.Context, _ string, _ relay.Event) (relay.Entered, error) {
		close(asked)
		<-ctx.Done()
		return relay.Entered{}, ctx.Err()
	}
	a.start()
	leading(t, a)
	b := newNode(t, s.URL(), "b").start()
	var group errgroup.Group
	group.Go(func() error {
		<-asked
		return a.stop()
	})
	_, err := b.bus.Ask(t.Context(), "x", note(b, "x"))
	if err == nil || !strings.Contains(err.Error(), "send the entry again") {
		t.Errorf("got %v", err)
	}
	if err := group.Wait(); err != nil {
		t.Fatal(err)
	}
}

// TestAskedNonsense sends what no process would.
func TestAskedNonsense(t *testing.T) {
	t.Parallel()
	a, b, _, _ := pair(t)
	passed, err := json.Marshal(question{ID: "x", Entry: item{Kind: kindPassed}})
	if err != nil {
		t.Fatal(err)
	}
	for _, text := range []string{"", "null", "{", "[]", `{"id":"x"}`, `{"entry":{"kind":"hand"}}`, `{"entry":{"kind":"hand","event":3}}`, `{"entry":{"kind":"applause"}}`, string(passed)} {
		m, err := b.bus.stream.conn.Request("clocktell.test.enter", []byte(text), soon)
		if err != nil {
			t.Fatal(text, err)
		}
		var r reply
		if err := json.Unmarshal(m.Data, &r); err != nil || r.Wrong == "" {
			t.Errorf("%s: %s, %v", text, m.Data, err)
		}
	}
	if _, err := b.bus.Ask(t.Context(), "x", relay.JournalState{}); !errors.Is(err, errNotShared) {
		t.Errorf("got %v", err)
	}
	enters(t, a, b, "the leader lives")
}
