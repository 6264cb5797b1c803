package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"
)

// member is a process of a show that several share, behind its own way to the bus.
type member struct {
	t       *testing.T
	name    string
	address string // of its pages
	proxy   *proxy
	log     string // its file
	disk    *smallDisk
	start   func() *child
	*child

	panel, health *watched
}

// party is a show that several processes share.
type party struct {
	t       *testing.T
	program string
	dir     string
	bus     *busChild
	most    string     // of its stream, as the configuration says it
	disk    *smallDisk // that the next process keeps its journal on; nil: a usual one
	feed    *parade
	watch   *watch
	members []*member

	entering *entering
	wanderer *watched // a page that goes from process to process; nil: there is none
}

func newParty(t *testing.T) *party { return newPartyOn(t, 0) }

// newPartyOn is newParty with a bus on a disk of so many bytes; 0: a usual one.
func newPartyOn(t *testing.T, bytes int) *party {
	t.Helper()
	notUnderRace(t)
	p := &party{t: t, program: builtOnce(t), dir: t.TempDir(), feed: newParade(t)}
	dir := filepath.Join(p.dir, "bus")
	if bytes > 0 {
		p.disk = newSmallDisk(t, dir, bytes)
		p.most = fmt.Sprintf("[bus]\nmax_bytes = %d\n", bytes/4) // a server promises no more than three quarters of its disk
	}
	p.bus = newBusChild(t, dir, p.disk)
	p.disk = nil
	p.watch = newWatch(t)
	return p
}

// notUnderRace skips a test of processes of their own where tests run for the race detector,
// which those do not have.
func notUnderRace(t *testing.T) {
	t.Helper()
	if os.Getenv("CLOCKTELL_TESTS") == "relay" {
		t.Skip("CLOCKTELL_TESTS=relay leaves out what is tested in processes of their own: they have no race detector")
	}
}

// serve starts a process that reads the feed. Flags are those that a test adds.
func (p *party) serve(name string, flags ...string) *member {
	config := filepath.Join(p.dir, name+".toml")
	text := p.most + fmt.Sprintf("[server]\nlisten = \"127.0.0.1:0\"\n[journal]\ndir = %q\n[log]\nlevel = \"info\"\n"+
		"[[feed]]\nname = \"arena\"\nurl = %q\nevery = \"250ms\"\ntimeout = \"1m\"\nlate_after = \"1h\"\nstale_after = \"1h\"\n", p.journal(name), p.feed.url)
	if err := os.WriteFile(config, []byte(text), 0o644); err != nil {
		p.t.Fatal(err)
	}
	return p.add(name, append([]string{"serve", "--config", config}, flags...)...)
}

func (p *party) journal(name string) string { return filepath.Join(p.dir, "journal-"+name) }

func (p *party) edge(name string) *member { return p.add(name, "edge") }

// add starts a process with the way to the bus, and opens pages at it.
func (p *party) add(name string, args ...string) *member {
	p.t.Helper()
	m := &member{t: p.t, name: name, address: freeAddress(p.t), proxy: newProxy(p.t, p.bus.address), log: filepath.Join(p.dir, name+".log"), disk: p.disk}
	args = append(args, "--bus", m.proxy.url(), "--listen", m.address)
	m.start = func() *child {
		log, err := os.OpenFile(m.log, os.O_CREATE|os.O_APPEND|os.O_WRONLY, 0o644)
		if err != nil {
			p.t.Fatal(err)
		}
		defer log.Close()
		program, args := m.disk.command(p.program, args...)
		return startChildTo(p.t, log, program, args...)
	}
	p.t.Cleanup(m.tellLog)
	m.child = m.start()
	m.waitForAddress()
	at := func() string { return m.address }
	m.panel, m.health = p.watch.open(name, "panel", at), p.watch.open(name, "health", at)
	p.members = append(p.members, m)
	return m
}

// again starts the process again.
func (m *member) again() {
	m.child = m.start()
	m.waitForAddress()
}

func (m *member) signal(s syscall.Signal) {
	m.t.Helper()
	if err := m.command.Process.Signal(s); err != nil {
		m.t.Fatalf("%s: %v", m.name, err)
	}
}

// terminate ends the process as a supervisor does, and waits for it.
func (m *member) terminate() {
	m.t.Helper()
	m.once.Do(func() {
		m.signal(syscall.SIGTERM)
		if err := m.command.Wait(); err != nil {
			m.t.Errorf("%s, told to end: %v", m.name, err)
		}
		close(m.ended)
	})
}

// tellLog shows the end of the log of a process when the test has failed.
func (m *member) tellLog() {
	if !m.t.Failed() {
		return
	}
	text, _ := os.ReadFile(m.log)
	lines := slices.DeleteFunc(strings.Split(string(text), "\n"), func(line string) bool {
		return strings.Contains(line, "entry refused") || strings.Contains(line, "page ")
	})
	m.t.Logf("%s said:\n%s", m.name, strings.Join(lines[max(0, len(lines)-60):], "\n"))
}

// leads returns the member that leads, by what the bus holds; nil: none of these.
func (p *party) leads(by string) *member {
	for _, m := range p.members {
		if by == fmt.Sprintf("%s, process %d", hostName(), m.command.Process.Pid) {
			return m
		}
	}
	return nil
}

func hostName() string {
	host, err := os.Hostname()
	if err != nil {
		return "here"
	}
	return host
}

// within waits until something holds, and fails the test if it does not in time.
func (p *party) within(d time.Duration, what string, holds func() bool) {
	p.t.Helper()
	for end := time.Now().Add(d); !holds(); {
		if time.Now().After(end) {
			p.t.Fatalf("%s: not within %v", what, d)
		}
		<-time.After(10 * time.Millisecond)
	}
}

// settle waits until all pages show what the feed has told and what was acknowledged.
func (p *party) settle(after string) {
	p.t.Helper()
	plies := p.feed.plies()
	moves, _ := p.entering.acknowledged()
	for _, page := range p.pages() {
		p.within(2*takeoverMost, fmt.Sprintf("%s after %s: ply %d", page.name, after, plies), func() bool { n, _ := page.plies(0); return n >= plies })
		p.within(takeoverMost, fmt.Sprintf("%s after %s: what was acknowledged", page.name, after), func() bool {
			have := page.hand()
			return len(have) >= len(moves) && slices.Equal(have[:len(moves)], moves)
		})
	}
	p.watch.check()
	p.entering.check(p.t)
}

// pages returns all pages of all processes.
func (p *party) pages() (pages []*watched) {
	if p.wanderer != nil {
		pages = append(pages, p.wanderer)
	}
	for _, m := range p.members {
		pages = append(pages, m.panel, m.health)
	}
	return pages
}
