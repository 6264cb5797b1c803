package feed

import (
	"bytes"
	"time"
)

// tick does what is due at now.
func (g *growth) tick(now time.Time) {
	if !g.due.IsZero() && !now.Before(g.due) {
		g.offer(now)
	}
	if !now.Before(g.repeatAt()) {
		g.repeat(now)
	}
}

// offer delivers what has come, unless it has to wait.
func (g *growth) offer(now time.Time) {
	body, quiet := g.content, now.Sub(g.last)
	if quiet < growPause {
		body = upToGap(body)
	}
	g.held, g.due = time.Time{}, time.Time{}
	if len(body) < len(g.content) {
		g.held, g.due = now, g.last.Add(growPause)
	}
	if g.heard && len(body) < len(g.delivered) && quiet < growGrace {
		g.hold(now)
		return
	}
	f := g.judge(body)
	if f != nil && quiet < growGrace && now.Sub(g.began) < g.patience {
		g.hold(now)
		return
	}
	g.settle(body, f)
}

// hold waits for more bytes, or for as many of them as make a grace.
func (g *growth) hold(now time.Time) {
	g.held, g.due = now, g.last.Add(growGrace)
}

// judge tells what is wrong with body. What was delivered was checked then.
func (g *growth) judge(body []byte) *failure {
	if g.check == nil || g.heard && bytes.Equal(body, g.delivered) {
		return nil
	}
	if err := g.check(body); err != nil {
		return g.notPGN(err)
	}
	return nil
}

// settle tells the sink of body, which f refuses if there is one.
func (g *growth) settle(body []byte, f *failure) {
	before := g.refusal
	g.refusal, g.doubt = f, f != nil
	switch {
	case f != nil && before != nil: // repeat will say so
	case f != nil:
		g.failed(Fault{Took: time.Since(g.began), Reason: f.reason, Err: f.err})
	case !g.heard || !bytes.Equal(body, g.delivered):
		g.deliver(body)
	case g.silent:
		g.same()
	}
}

func (g *growth) deliver(body []byte) {
	g.heard, g.delivered = true, body[:len(body):len(body)]
	took := g.last.Sub(g.asked)
	g.asked = time.Time{}
	if len(body) < len(g.content) {
		g.asked = g.last
	}
	g.answer(Answer{At: g.lastAt, Took: took, New: true, Body: g.delivered})
}

// repeat reports a stream that is open and brings nothing new: it is there.
func (g *growth) repeat(now time.Time) {
	switch {
	case g.refusal != nil:
		g.failed(Fault{Took: now.Sub(g.began), Reason: g.refusal.reason, Err: g.refusal.err})
	case g.heard && !g.doubt:
		g.same()
	default:
		g.spoke = now // nothing to say yet
	}
}

func (g *growth) same() { g.answer(Answer{At: g.now()}) }

func (g *growth) answer(a Answer) {
	a.Modified = g.modified
	g.answers++
	g.to.Answered(a)
	g.silent, g.spoke = false, time.Now()
}

func (g *growth) failed(f Fault) {
	f.At = g.now()
	g.to.Failed(f)
	g.silent, g.spoke = true, time.Now()
}

// finish takes the content as complete: its end was announced.
func (g *growth) finish() *failure {
	f := g.judge(g.content)
	if g.doubt = f != nil; g.doubt {
		return f
	}
	if !g.heard || !bytes.Equal(g.content, g.delivered) {
		g.deliver(g.content)
	} else {
		g.same()
	}
	return nil
}

// salvage delivers what came before the stream broke off, if that is news.
func (g *growth) salvage() {
	body := upToGap(g.content)
	if g.due.IsZero() || g.heard && len(body) <= len(g.delivered) || g.judge(body) != nil {
		return
	}
	g.doubt = false
	g.deliver(body)
}
