package main

import (
	"context"
	"time"
)

// herdLook is how often a herd looks which of its pages are due.
const herdLook = 50 * time.Millisecond

// herd sends the pings of many pages, and lets those leave whose time has come.
func herd(ctx context.Context, pages []*page, now func() time.Time) {
	ticker := time.NewTicker(herdLook)
	defer ticker.Stop()
	for {
		select {
		case <-ctx.Done():
			return
		case <-ticker.C:
		}
		for _, p := range pages {
			p.tend(now())
		}
	}
}

// tend does what is due at a page.
func (p *page) tend(now time.Time) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch {
	case p.line == nil:
	case p.temper == reconnecting && now.After(p.leave):
		p.leaveNow()
	case now.After(p.due):
		p.unanswered++
		dead := p.unanswered > silentPings && (p.temper == healthy || p.temper == reconnecting)
		if err := p.ping(now); dead || err != nil {
			_ = p.line.conn.Close() // the reader tells what became of it
			if p.temper == stalled {
				p.line = nil
				p.counts.open.Add(-1)
			}
		}
	}
}

// leaveNow takes a page away, every other time without a word.
func (p *page) leaveNow() {
	p.gone = true
	if now := p.counts.left.Load(); now%2 == 0 {
		_ = p.line.goodbye() // it leaves all the same
	}
	_ = p.line.conn.Close()
}
