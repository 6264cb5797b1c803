package main

import (
	"fmt"
	"io"
	"os"
	"strconv"
	"time"

	"github.com/schollz/progressbar/v3"
	"golang.org/x/term"

	"clocktell/relay/reference/build"
)

// How often progress is told: on a terminal, and in lines.
const (
	barEvery  = 200 * time.Millisecond
	lineEvery = 10 * time.Second
)

// buildProgress tells how far a build is: a bar on a terminal, elsewhere a line now and
// then.
type buildProgress struct {
	w        io.Writer
	now      func() time.Time
	terminal bool
	every    time.Duration

	began, told time.Time
	stage       build.Stage
	staged      time.Time // when the stage began
	first       int64     // done when it did: what an interrupted build has read costs nothing
	bar         *progressbar.ProgressBar
}

func newBuildProgress(w io.Writer, now func() time.Time) *buildProgress {
	p := &buildProgress{w: w, now: now, every: lineEvery, began: now()}
	if f, ok := w.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		p.terminal, p.every = true, barEvery
	}
	return p
}

func (p *buildProgress) resumed(r build.Report) {
	fmt.Fprintf(p.w, "going on with an interrupted build: %s games have been read\n", thousands(r.Games))
}

// tell takes the news.
func (p *buildProgress) tell(s build.Status) {
	now := p.now()
	if p.told.IsZero() || s.Stage != p.stage {
		p.endBar()
		p.stage, p.staged, p.first, p.told = s.Stage, now, s.Done, now
		if p.terminal {
			p.bar = newBar(p.w, s.Total-s.Done)
		}
		return
	}
	if now.Sub(p.told) < p.every {
		return
	}
	p.told = now
	if p.terminal {
		p.bar.Describe(p.words(s, now))
		p.bar.Set64(s.Done - p.first) // fails only behind the end
		return
	}
	percent := 100 * float64(s.Done) / float64(max(1, s.Total))
	fmt.Fprintf(p.w, "%s, %.0f%%, %s left\n", p.words(s, now), percent, p.left(s, now))
}

func newBar(w io.Writer, total int64) *progressbar.ProgressBar {
	return progressbar.NewOptions64(total,
		progressbar.OptionSetWriter(w), progressbar.OptionSetPredictTime(true), progressbar.OptionSetElapsedTime(false),
		progressbar.OptionThrottle(barEvery), progressbar.OptionClearOnFinish(), progressbar.OptionFullWidth())
}

// words tells of the games.
func (p *buildProgress) words(s build.Status, now time.Time) string {
	if s.Stage == build.Writing {
		return fmt.Sprintf("writing %s games", thousands(s.Games))
	}
	rate := float64(s.Games-s.Resumed) / max(0.001, now.Sub(p.began).Seconds())
	return fmt.Sprintf("read %s games, %s a second", thousands(s.Games), thousands(int(rate)))
}

// left returns how much longer the stage takes at its pace so far.
func (p *buildProgress) left(s build.Status, now time.Time) time.Duration {
	done := s.Done - p.first
	if done <= 0 {
		return 0
	}
	took := now.Sub(p.staged)
	return time.Duration(float64(took) / float64(done) * float64(s.Total-s.Done)).Round(time.Second)
}

func (p *buildProgress) endBar() {
	if p.bar != nil {
		p.bar.Finish() // it only draws
		p.bar = nil
	}
}

// end clears the bar away and returns how long all took.
func (p *buildProgress) end() time.Duration {
	p.endBar()
	return p.now().Sub(p.began)
}

// thousands writes a number with a comma behind every three digits.
func thousands[T int | int64](n T) string {
	text := strconv.FormatInt(int64(n), 10)
	for i := len(text) - 3; i > 0 && text[i-1] != '-'; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}
