package bus

import (
	"testing"
	"time"
)

// TestFollowersClock starts followers whose clocks are wrong by an hour: they follow the
// leader's to within what the loopback takes, on a busy machine.
func TestFollowersClock(t *testing.T) {
	t.Parallel()
	s := serve(t, "127.0.0.1:0", t.TempDir())
	a, behind, before := newNode(t, s.URL(), "a").start(), newNode(t, s.URL(), "b"), newNode(t, s.URL(), "c")
	leading(t, a)
	behind.ahead.Store(int64(-time.Hour))
	before.ahead.Store(int64(time.Hour))
	for _, n := range []*node{behind.start(), before.start()} {
		until(t, n.o.ID+" follows", func() bool { return n.off(a).Abs() < 20*time.Millisecond })
		t.Logf("%s is off by %v", n.o.ID, n.off(a))
	}
	a.ahead.Add(int64(time.Minute)) // and when it is set
	for _, n := range []*node{behind, before} {
		until(t, n.o.ID+" follows again", func() bool { return n.off(a).Abs() < 20*time.Millisecond })
	}
}

func (n *node) off(of *node) time.Duration {
	return time.Duration(n.ahead.Load() - of.ahead.Load())
}

// TestLeaderWithAnotherClock lets one take over whose clock nobody has set: it is an hour
// behind or ahead, and nobody's show time goes back.
func TestLeaderWithAnotherClock(t *testing.T) {
	t.Parallel()
	for name, wrong := range map[string]time.Duration{"behind": -time.Hour, "ahead": time.Hour} {
		t.Run(name, func(t *testing.T) {
			s := serve(t, "127.0.0.1:0", t.TempDir())
			a := newNode(t, s.URL(), "a").start()
			leading(t, a)
			watcher := newNode(t, s.URL(), "w")
			watcher.o.Follow = true
			watcher.start()
			enters(t, a, watcher, "before")
			if err := a.stop(); err != nil {
				t.Fatal(err)
			}
			b := newNode(t, s.URL(), "b")
			b.ahead.Store(int64(wrong))
			leading(t, b.start())
			enters(t, b, watcher, "after")
			until(t, "the watcher's clock follows the new leader's", func() bool { return watcher.off(b).Abs() < 20*time.Millisecond })
			for _, n := range []*node{b, watcher} {
				n.mu.Lock()
				if n.back != "" {
					t.Errorf("%s: %s", n.o.ID, n.back)
				}
				n.mu.Unlock()
				if n.now().Before(n.show.Load().At) {
					t.Errorf("%s has the time %v, its show %v", n.o.ID, n.now(), n.show.Load().At)
				}
			}
			if wrong > 0 && b.ahead.Load() != int64(wrong) {
				t.Error("the clock of a leader was set although it is not behind the show")
			}
		})
	}
}
