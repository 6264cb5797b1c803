package build

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
)

// pile gathers what becomes a run, and where the build stands behind it.
type pile struct {
	records []record
	rows    []byte // of its games
	first   int    // game of the reference
	games   int
	at      place
	report  Report
	last    bool // nothing is left to read
}

// rowsMost is how many bytes of games make a pile full, however few its records are.
const rowsMost = 32 << 20

func (p *pile) clear() {
	*p = pile{records: p.records[:0], rows: p.rows[:0]}
}

// holds reports whether a block still fits in.
func (p *pile) holds(b *block) bool {
	return p.games == 0 || len(p.records)+len(b.records) <= cap(p.records) && len(p.rows)+len(b.rows) <= rowsMost
}

// collector takes the blocks in the order of the text, numbers their games and leaves
// out doubles.
type collector struct {
	options *Options
	inputs  []Input
	total   int64
	seen    *doubles
	pile    *pile
	games   int // numbered
	at      place
	report  Report
}

// newCollector goes on where the work directory stands.
func newCollector(o *Options, w *work) (*collector, error) {
	m := &w.manifest
	c := &collector{
		options: o, inputs: m.Inputs, seen: newDoubles(o.sizes.doubles),
		at: m.At, report: m.Report.copy(), games: m.Report.Kept,
	}
	for _, in := range m.Inputs {
		c.total += in.Size
	}
	for i := range m.Runs {
		err := w.eachGame(&m.Runs[i], func(r *row) error {
			if r.identity != 0 {
				c.seen.add(r.identity)
			}
			return nil
		})
		if err != nil {
			return nil, err
		}
	}
	return c, nil
}

func (c *collector) run(ctx context.Context, r *reading) error {
	defer close(r.full)
	if err := c.begin(ctx, r); err != nil {
		return err
	}
	for {
		b, ok, err := receive(ctx, r.order)
		if err != nil {
			return err
		}
		if !ok {
			c.pile.last = c.at.Input == len(c.inputs)
			return c.end(ctx, r)
		}
		if _, _, err := receive(ctx, b.done); err != nil {
			return err
		}
		if !c.pile.holds(b) {
			if err := c.end(ctx, r); err != nil {
				return err
			}
			if err := c.begin(ctx, r); err != nil {
				return err
			}
		}
		c.take(b)
		c.options.Progress(Status{Stage: Reading, Done: b.packed, Total: c.total, Games: c.report.Games, Resumed: c.report.Resumed})
		r.free <- b
	}
}

// begin takes an empty pile.
func (c *collector) begin(ctx context.Context, r *reading) error {
	p, _, err := receive(ctx, r.empty)
	if err == nil {
		c.pile = p
		c.pile.first = c.games
	}
	return err
}

// end gives the pile to the spiller.
func (c *collector) end(ctx context.Context, r *reading) error {
	c.pile.at, c.pile.report = c.at, c.report.copy()
	return send(ctx, r.full, c.pile)
}

// take takes the games of a block.
func (c *collector) take(b *block) {
	from := 0
	for i := range b.games {
		g := &b.games[i]
		c.report.Games++
		if g.reason == "" && g.identity != 0 && !c.seen.add(g.identity) {
			g.reason = ReasonDouble
		}
		if g.reason == "" {
			c.keep(b, g, from)
		} else {
			c.report.skip(g.reason, func() Example { return c.example(b, i) })
		}
		from = g.records
	}
	c.report.Text += b.length
	c.at.Offset += b.length
	c.at.Line += b.lines
	c.at.Game += len(b.games)
	if b.last {
		c.at = place{Input: c.at.Input + 1}
	}
}

// keep puts a game and its records on the pile.
func (c *collector) keep(b *block, g *found, from int) {
	p := c.pile
	p.rows = append(p.rows, b.rows[g.row:g.end]...)
	for _, r := range b.records[from:g.records] {
		p.records = append(p.records, record{r.pos, r.rest>>32<<32 | uint64(c.games)})
	}
	p.games++
	c.games++
	c.report.Kept++
	c.report.Records += int64(g.records - from)
}

// example names game i of a block.
func (c *collector) example(b *block, i int) Example {
	g := &b.games[i]
	return Example{File: c.inputs[b.input].Path, Game: c.at.Game + i + 1, Line: c.at.Line + g.line, Who: g.who, Detail: g.detail}
}

// add makes a run of a pile. When it returns, the manifest on the disk names it.
func (w *work) add(p *pile, o *Options) error {
	next := run{First: p.first, Count: p.games}
	var err error
	if p.games > 0 {
		if err := sortRecords(p.records, o.Workers); err != nil {
			return err
		}
		n := len(w.manifest.Runs)
		if next.Games, err = w.spillRows(fmt.Sprintf("run-%05d.games", n), p.rows); err != nil {
			return err
		}
		name := fmt.Sprintf("run-%05d.records", n)
		if next.Records, err = writeRun(w.path(name), name, p.records); err != nil {
			return err
		}
		w.manifest.Runs = append(w.manifest.Runs, next)
	}
	if err := o.pass("run written"); err != nil {
		return err
	}
	w.manifest.At, w.manifest.Read, w.manifest.Report = p.at, p.last, p.report
	if err := w.save(); err != nil {
		return err
	}
	return o.pass("manifest written")
}

func (w *work) spillRows(name string, rows []byte) (spilled, error) {
	s, err := createSpill(w.path(name), name)
	if err != nil {
		return spilled{}, err
	}
	if _, err := s.w.Write(rows); err != nil {
		return spilled{}, fmt.Errorf("%w (and %v)", err, s.f.Close())
	}
	return s.end()
}

// eachGame reads the games of a run in order.
func (w *work) eachGame(r *run, take func(*row) error) error {
	path := w.path(r.Games.Name)
	text, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		return fmt.Errorf("%s: %w", path, errDamaged)
	}
	if err != nil {
		return err
	}
	if !r.Games.is(text) {
		return fmt.Errorf("%s: %w", path, errDamaged)
	}
	n := 0
	for ; len(text) > 0; n++ {
		next, size, err := readRow(text)
		if err != nil {
			return fmt.Errorf("%s: %w", path, err)
		}
		if err := take(&next); err != nil {
			return err
		}
		text = text[size:]
	}
	if n != r.Count {
		return fmt.Errorf("%s: %w", path, errDamaged)
	}
	return nil
}
