package overlay

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"sync"
	"testing"
	"time"

	"clocktell/overlay/wire"
)

// picture is what a scene shows but for what depends on the time.
type picture struct {
	Show    *wire.Show
	Board   *wire.Board // whole
	Caption *wire.CaptionFrame
	Air     *wire.Air
}

// watched is a picture and when it came.
type watched struct {
	at time.Time
	picture
}

// watcher is a scene that writes down everything it is sent.
type watcher struct {
	*page
	name string

	mu     sync.Mutex // protects following
	now    picture
	film   []watched // the picture at the end of every instant at which it changed
	frames []sent
	base   struct { // as a page keeps time
		wall time.Time
		now  int64
		rate float64
	}
	pongs    int
	problems []string
	done     chan struct{}
}

// sent is a frame and when it came.
type sent struct {
	at   time.Time
	kind string
	data []byte
}

// watch opens a scene and reads all that it is sent.
func (h *hall) watch(query string) *watcher {
	w := &watcher{page: h.open(query), name: query, done: make(chan struct{})}
	go func() {
		defer close(w.done)
		for {
			_, data, err := w.conn.Read(context.Background())
			if err != nil {
				return
			}
			w.take(data)
		}
	}()
	return w
}

// heard returns what the scene has been sent so far.
func (w *watcher) heard() []sent {
	w.mu.Lock()
	defer w.mu.Unlock()
	return slices.Clone(w.frames)
}

// leave ends the scene.
func (w *watcher) leave() {
	w.conn.CloseNow()
	<-w.done
}

func (w *watcher) take(data []byte) {
	w.mu.Lock()
	defer w.mu.Unlock()
	var head struct{ Type string }
	json.Unmarshal(data, &head)
	now := time.Now()
	w.frames = append(w.frames, sent{now, head.Type, data})
	before := w.now
	switch head.Type {
	case wire.TypeWelcome, wire.TypeTime:
		var frame wire.Time
		json.Unmarshal(data, &frame)
		w.base.wall, w.base.now, w.base.rate = now, frame.Now, frame.Rate
	case wire.TypePong:
		w.takePong(data, now)
	case wire.TypeShow:
		w.now.Show = new(wire.Show)
		json.Unmarshal(data, w.now.Show)
	case wire.TypeCaption:
		w.now.Caption = new(wire.CaptionFrame)
		json.Unmarshal(data, w.now.Caption)
	case wire.TypeAir:
		w.now.Air = new(wire.Air)
		json.Unmarshal(data, w.now.Air)
	case wire.TypeBoard:
		w.merge(data)
	}
	if w.now == before {
		return
	}
	if n := len(w.film); n > 0 && w.film[n-1].at.Equal(now) {
		w.film = w.film[:n-1]
	}
	w.film = append(w.film, watched{now, w.now})
}

func (w *watcher) takePong(data []byte, now time.Time) {
	var pong wire.Pong
	json.Unmarshal(data, &pong)
	w.pongs++
	if off := float64(pong.Now) - w.reckoned(now); off < -1 || off > 1 {
		w.problems = append(w.problems, fmt.Sprintf("a pong says %d, the page reckons with %.3f", pong.Now, w.reckoned(now)))
	}
}

func (w *watcher) merge(data []byte) {
	next := new(wire.Board)
	json.Unmarshal(data, next)
	if next.Base != 0 {
		if w.now.Board == nil || w.now.Board.Rev != next.Base {
			w.problems = append(w.problems, fmt.Sprintf("an update on revision %d, which the page does not hold", next.Base))
			return
		}
		next.Plies = append(append([]wire.Ply{}, w.now.Board.Plies[:next.Keep]...), next.Plies...)
		next.Base, next.Keep = 0, 0
	}
	if w.now.Board != nil && next.Rev < w.now.Board.Rev {
		w.problems = append(w.problems, fmt.Sprintf("revision %d after %d", next.Rev, w.now.Board.Rev))
	}
	w.now.Board = next
}

// timeAt is the page's show time at a time of the wall, in milliseconds.
func (w *watcher) timeAt(wall time.Time) float64 {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.reckoned(wall)
}

func (w *watcher) reckoned(wall time.Time) float64 {
	return float64(w.base.now) + float64(wall.Sub(w.base.wall))/1e6*w.base.rate
}

// at returns what the scene showed at a time of the wall.
func (w *watcher) at(wall time.Time) picture {
	w.mu.Lock()
	defer w.mu.Unlock()
	last := picture{}
	for _, p := range w.film {
		if p.at.After(wall) {
			break
		}
		last = p.picture
	}
	return last
}

// text is a picture as one line.
func (p picture) text() string {
	data, err := json.Marshal(p)
	if err != nil {
		panic(err)
	}
	return string(data)
}

// drawn is what a board's clocks show at a show time, in milliseconds, as PROTOCOL.md
// says how to draw them.
func drawn(b *wire.Board, now float64) (white, black float64) {
	left := func(c wire.Clock) float64 {
		if c.State != wire.StateRunning {
			return float64(c.LeftMs)
		}
		return max(0, float64(c.LeftMs)-max(0, now-float64(c.At)))
	}
	return left(b.White.Clock), left(b.Black.Clock)
}

// instants returns every instant of the past that a frame names, but for those that are
// set beforehand.
func instants(t *testing.T, data []byte) []int64 {
	var value any
	if err := json.Unmarshal(data, &value); err != nil {
		t.Fatal(err)
	}
	var out []int64
	var walk func(key string, value any)
	walk = func(key string, value any) {
		switch v := value.(type) {
		case map[string]any:
			for k, inner := range v {
				if k != "clock" { // from when it falls may be ahead
					walk(k, inner)
				}
			}
		case []any:
			for _, inner := range v {
				walk(key, inner)
			}
		case float64:
			if v > 1e11 && key != "until" && key != "ends" { // no length of time is that long
				out = append(out, int64(v))
			}
		}
	}
	walk("", value)
	return out
}
