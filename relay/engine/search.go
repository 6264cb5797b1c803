package engine

import (
	"context"
	"fmt"
	"strings"
	"time"

	"clocktell/relay/bitboard"
)

// search is one search that goes on.
type search struct {
	*session
	wish    Wish
	place   bitboard.Position
	found   *gathering
	began   time.Time
	told    int       // how often it has been told of before its end
	stopped time.Time // since when it should stop; zero: it should not
	early   bool      // it was stopped for something more urgent
}

// serve searches what is most urgent, or waits until something is.
func (s *session) serve(ctx context.Context) error {
	wish, ok := s.pick()
	if !ok {
		return s.idle(ctx)
	}
	err := s.search(ctx, wish)
	s.ended(wish, err)
	return err
}

// idle waits for wishes. What the engine says meanwhile is heard all the same.
func (s *session) idle(ctx context.Context) error {
	select {
	case h, ok := <-s.lines:
		words, err := s.words(h, ok)
		if len(words) > 0 {
			s.stray(words)
		}
		return err
	case <-s.wake:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// search searches a position and tells what it finds.
func (s *session) search(ctx context.Context, wish Wish) error {
	line := wish.Line()
	r := &search{session: s, wish: wish, place: line.End()}
	r.found = gather(r.place, s.several())
	if err := s.ready(ctx); err != nil {
		return err
	}
	if err := s.say("%s\n%s", positionText(line), goText(wish.Limit)); err != nil {
		return err
	}
	r.began = time.Now()
	ticker := time.NewTicker(beat)
	defer ticker.Stop()
	for {
		over, err := r.next(ctx, ticker.C)
		if err != nil || over {
			return err
		}
	}
}

// next goes on by one step, and reports whether the search is over.
func (r *search) next(ctx context.Context, ticks <-chan time.Time) (bool, error) {
	select {
	case h, ok := <-r.lines:
		words, err := r.words(h, ok)
		if err != nil || len(words) == 0 {
			return false, err
		}
		return r.hear(ctx, words)
	case <-r.wake:
		return false, r.yield()
	case <-ticks:
		return false, r.look(ctx)
	case <-ctx.Done():
		return false, ctx.Err()
	}
}

func (r *search) hear(ctx context.Context, words []string) (bool, error) {
	switch words[0] {
	case "info":
		in, ok := readInfo(words[1:])
		reason := FaultRubbish
		if ok {
			reason = r.found.take(in)
		}
		switch reason {
		case "":
		case FaultRubbish:
			return false, r.foundRubbish()
		default:
			r.counted(reason)
		}
	case "bestmove":
		return true, r.end(ctx, words)
	}
	return false, nil
}

// yield stops the search if something is more urgent now.
func (r *search) yield() error {
	if r.stopped.IsZero() && r.yields(r.wish, time.Since(r.began)) {
		r.early = true
		return r.stop()
	}
	return nil
}

func (r *search) stop() error {
	r.stopped = time.Now()
	return r.say("stop")
}

// look is what happens at every beat.
func (r *search) look(ctx context.Context) error {
	now := time.Now()
	took := now.Sub(r.began)
	switch limit := r.wish.Limit.Time; {
	case !r.stopped.IsZero():
		if now.Sub(r.stopped) > r.limits.stop {
			return faultf(FaultHang, "the engine has not ended its search within %v of being told to", r.limits.stop)
		}
		return nil
	case limit > 0 && took > limit+r.limits.overrun:
		return r.stop()
	}
	if r.isNews(took) {
		if o, ok := r.found.opinion(r.name, r.wish.Limit.Time, took, false); ok {
			r.told++
			r.Tell(ctx, Answer{Wish: r.wish, Place: r.place.Hash(), Opinion: o})
		}
	}
	return r.yield()
}

// isNews reports whether it is time to tell what has been found so far.
func (r *search) isNews(took time.Duration) bool {
	if r.told == 0 {
		n := len(r.found.steps)
		return took >= firstAfter || n > 0 && r.found.steps[n-1].Depth >= usefulDepth
	}
	for r.told <= len(toldAfter) && took >= toldAfter[r.told-1] {
		if r.told == len(toldAfter) || took < toldAfter[r.told] {
			return true
		}
		r.told++
	}
	return false
}

// end tells what has come of the search.
func (r *search) end(ctx context.Context, words []string) error {
	if len(words) < 2 {
		r.counted(FaultRubbish)
	} else if _, legal := moveOf(&r.place, words[1]); !legal {
		r.counted(FaultIllegal)
	}
	o, ok := r.found.opinion(r.name, r.wish.Limit.Time, time.Since(r.began), !r.early)
	if !ok {
		return r.foundNothing()
	}
	r.empty = 0
	if !r.early {
		r.keep(r.wish, o)
	}
	r.Tell(ctx, Answer{Wish: r.wish, Place: r.place.Hash(), Opinion: o})
	return nil
}

// foundNothing counts searches without a line. One that was stopped at once has none.
func (r *search) foundNothing() error {
	if r.early {
		return nil
	}
	r.counted(FaultEmpty)
	r.spoil(r.wish)
	if r.empty++; r.empty >= emptyMost {
		return faultf(FaultUseless, "the engine has ended %d searches without a line that can be played", emptyMost)
	}
	return nil
}

// positionText is the command that names a position.
func positionText(l Line) string {
	var out strings.Builder
	out.WriteString("position fen " + l.Start.FEN())
	for i, m := range l.Moves {
		if i == 0 {
			out.WriteString(" moves")
		}
		out.WriteString(" " + m.String())
	}
	return out.String()
}

// goText is the command that begins a search.
func goText(l Limit) string {
	text := "go"
	if l.Time > 0 {
		text += fmt.Sprint(" movetime ", l.Time.Milliseconds())
	}
	if l.Depth > 0 {
		text += fmt.Sprint(" depth ", l.Depth)
	}
	if l.Nodes > 0 {
		text += fmt.Sprint(" nodes ", l.Nodes)
	}
	if l == (Limit{}) {
		text += " infinite"
	}
	return text
}
