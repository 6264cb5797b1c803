package overlay

import (
	"slices"
	"sync"
	"time"

	"clocktell/overlay/access"
)

// pageKind says what a page is sent.
type pageKind struct {
	boards               sentBoards
	show, prompts, pages bool
	feeds, sources, log  bool
	table, caption       bool
	air, desk            bool
	holds, opinions      bool
	held                 bool // may be
}

// sentBoards says which boards a page is sent.
type sentBoards uint8

const (
	allBoards sentBoards = iota // or the one that its address names
	oneBoard                    // the one that its address names, else the first
	fewBoards                   // those that its address names, else the first wallMost
	noBoards
)

// pageKinds is every page there is, by its path.
var pageKinds = map[string]pageKind{
	"scene/board":     {boards: oneBoard, show: true, caption: true, air: true, held: true},
	"scene/clocks":    {boards: oneBoard, show: true, air: true, held: true},
	"scene/wall":      {boards: fewBoards, show: true, held: true},
	"scene/caption":   {boards: noBoards, show: true, caption: true, held: true},
	"scene/challenge": {boards: allBoards, show: true, air: true, held: true},
	"desk":            {show: true, prompts: true, caption: true, air: true, desk: true, holds: true, opinions: true},
	"panel":           {show: true, prompts: true, table: true, caption: true, opinions: true},
	"health":          {show: true, feeds: true, sources: true, log: true, pages: true, holds: true},
}

// lateKept is how many figures of lateness are kept of a page.
const lateKept = 30

// PagesNow is what the metrics read of the pages.
type PagesNow struct {
	Connected  map[string]int // by kind of page, all kinds present
	Superseded uint64         // revisions skipped because a newer one was there
	Dropped    uint64         // pages dropped because they took nothing for a while, though there was something for them
	Refused    uint64         // pages refused because too many were connected
}

// pages knows every connected page.
type pages struct {
	most int
	wall func() time.Time
	wg   sync.WaitGroup // of pages that are in

	mu                           sync.Mutex // protects following
	open                         map[*connected]struct{}
	peopleRev                    uint64   // grows when somebody comes, leaves or gets another name
	elsewhere                    []string // who sits at pages of other servers
	closing                      bool
	arrived                      uint64
	past                         latePast
	superseded, dropped, refused uint64

	listing sync.Mutex // protects following
	listed  listed
}

// connected is one page as the others may know it.
type connected struct {
	kind, from string
	board      int
	held       held
	role       access.Role // of the token that it came with
	box        *mailbox
	order      uint64 // of arrival; guarded by pages.mu, like what follows
	who        string // sits at it, "" unknown
	since      time.Time
	late       []int64
	superseded uint64
	symptoms   symptoms
}

func newPages(most int) *pages {
	return &pages{most: most, wall: time.Now, open: make(map[*connected]struct{}), peopleRev: 1}
}

// add lets a page in unless there are too many, or the relay stops. Who is let in must leave.
func (p *pages) add(c *connected) error {
	p.mu.Lock()
	defer p.mu.Unlock()
	if p.closing {
		return errStops
	}
	if len(p.open) >= p.most {
		p.refused++
		return errTooManyPages
	}
	p.arrived++
	c.order, c.symptoms.heard = p.arrived, p.wall()
	p.open[c] = struct{}{}
	p.wg.Add(1)
	return nil
}

func (p *pages) leave(c *connected) {
	p.mu.Lock()
	delete(p.open, c)
	if c.who != "" {
		p.peopleRev++
	}
	p.mu.Unlock()
	p.wg.Done()
}

// cutOff ends the pages that came with the token of a role.
func (p *pages) cutOff(role access.Role) {
	p.mu.Lock()
	defer p.mu.Unlock()
	for c := range p.open {
		if c.role == role {
			c.box.end(errRenewed)
		}
	}
}

// stop lets no further page in, and has the others leave.
func (p *pages) stop() {
	p.mu.Lock()
	p.closing = true
	for c := range p.open {
		c.box.end(errStops)
	}
	p.mu.Unlock()
}

// skipped takes that a page was not sent some revisions, and how many states of boards it was sent.
func (p *pages) skipped(c *connected, revisions, sent uint64) {
	p.mu.Lock()
	defer p.mu.Unlock()
	c.superseded += revisions
	c.symptoms.skips(revisions, sent, p.wall())
	p.superseded += revisions
}

func (p *pages) wasDropped() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.dropped++
}

// wasLate takes a ping of a page, with the figures in it.
func (p *pages) wasLate(c *connected, figures []int64) {
	p.mu.Lock()
	defer p.mu.Unlock()
	now := p.wall()
	c.symptoms.pinged(figures, now)
	p.past.add(c.kind, figures, now)
	c.late = append(c.late, figures...)
	c.late = slices.Clone(c.late[max(0, len(c.late)-lateKept):])
}

func (p *pages) now() PagesNow {
	p.mu.Lock()
	defer p.mu.Unlock()
	now := PagesNow{Connected: make(map[string]int), Superseded: p.superseded, Dropped: p.dropped, Refused: p.refused}
	for kind := range pageKinds {
		now.Connected[kind] = 0
	}
	for c := range p.open {
		now.Connected[c.kind]++
	}
	return now
}
