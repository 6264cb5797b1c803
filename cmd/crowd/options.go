package main

import (
	"errors"
	"flag"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
)

const help = `Usage: crowd --serve CLOCKTELL [flags]
       crowd --relay HOST:PORT --feeds-at HOST:PORT [flags]

Play invented games to a relay and let a crowd of pages watch them, each of which
verifies everything it is sent. It prints what the crowd was sent, how late, and what
the relay cost; it fails if the relay broke its word to any page.

Examples:
  go build -o clocktell ./cmd/clocktell
  go run ./cmd/crowd --serve ./clocktell --for 3m
  go run ./cmd/crowd --serve ./clocktell --idle
  go run ./cmd/crowd --serve ./clocktell --units
  go run ./cmd/crowd --serve ./clocktell --edges 2 --kill-edges 20s --for 3m

For a relay that runs by itself, write its configuration first, and start it anew for
each run, since its boards are held to the games of this one:
  go run ./cmd/crowd --write crowd.toml --port 8701 --feeds-at 127.0.0.1:8702
  ./clocktell serve --config crowd.toml
  go run ./cmd/crowd --relay 127.0.0.1:8701 --feeds-at 127.0.0.1:8702

Flags:
`

// options is what the crowd is told.
type options struct {
	serve, relay, feedsAt, write string
	port                         int
	pages, feeds, boards         int
	perSecond                    float64 // moves
	length, warmUp, hold, every  time.Duration
	settle                       time.Duration
	percent                      [tempers]float64 // of pages; the healthy are the rest
	held                         float64          // percent of scenes
	mix                          mix
	seed                         uint64
	idle                         bool
	prepared                     int // plies played at each table before it begins
	edges                        int
	relayToo, direct             bool
	killEvery                    time.Duration // 0: no edge is killed
	units                        bool
	plan                         string // a file of units; "": none
}

// mix is of how many pages in a hundred are of each kind.
type mix []struct {
	page  string
	share float64
}

const usualMix = "scene/board=60,scene/clocks=20,scene/wall=18,panel=1,desk=0.5,health=0.5"

// edgesMost is how many edges one machine is asked to carry.
const edgesMost = 32

// What the idle measurement is made with, unless flags say otherwise.
var idleFlags = map[string]string{
	"pages": "50", "boards": "100", "feeds": "4", "moves": "0", "prepared": "40", "for": "90s", "warm-up": "20s",
	"slow": "0", "stalled": "0", "reconnecting": "0", "hostile": "0", "held": "0",
	"mix": "scene/board=60,scene/clocks=20,scene/wall=10,panel=4,desk=2,health=4",
}

// What units are measured with, likewise.
var unitFlags = map[string]string{"pages": "500", "for": "30s"}

var errUsage = errors.New("wrong use")

func parse(args []string, stdout, stderr io.Writer) (options, error) {
	var o options
	flags := flag.NewFlagSet("crowd", flag.ContinueOnError)
	flags.SetOutput(stderr)
	flags.Usage = func() {
		fmt.Fprint(stdout, help)
		flags.SetOutput(stdout)
		flags.PrintDefaults()
	}
	share := o.define(flags)
	if err := flags.Parse(args); err != nil {
		return o, err
	}
	if err := o.preset(flags); err != nil {
		return o, err
	}
	err := o.check(flags.NArg(), *share)
	if err != nil {
		fmt.Fprintf(stderr, "crowd: %v; crowd -h tells how it is used\n", err)
		return o, errUsage
	}
	return o, nil
}

// preset gives flags that were not given other defaults where something special is measured.
func (o *options) preset(flags *flag.FlagSet) error {
	values := map[string]string{}
	switch {
	case o.idle:
		values = idleFlags
	case o.units:
		values = unitFlags
	}
	given := make(map[string]bool)
	flags.Visit(func(f *flag.Flag) { given[f.Name] = true })
	for name, value := range values {
		if !given[name] {
			if err := flags.Set(name, value); err != nil {
				return err
			}
		}
	}
	return nil
}

func (o *options) define(flags *flag.FlagSet) (mixText *string) {
	flags.StringVar(&o.serve, "serve", "", "start a relay from this clocktell `binary`, and tell what it costs")
	flags.StringVar(&o.relay, "relay", "", "visit the relay at this `HOST:PORT`, without tokens; it must read this arena's feeds")
	flags.StringVar(&o.feedsAt, "feeds-at", "127.0.0.1:0", "serve the feeds at this `HOST:PORT`")
	flags.StringVar(&o.write, "write", "", "write the configuration of a relay to this `FILE`, and end")
	flags.IntVar(&o.port, "port", 0, "`port` of the relay's pages in that configuration")
	flags.IntVar(&o.pages, "pages", 2000, "pages")
	flags.IntVar(&o.feeds, "feeds", 12, "feeds")
	flags.IntVar(&o.boards, "boards", 200, "boards, over all feeds")
	flags.Float64Var(&o.perSecond, "moves", 20, "moves a second, over all boards")
	flags.DurationVar(&o.length, "for", 30*time.Minute, "how long games are played")
	flags.DurationVar(&o.warmUp, "warm-up", time.Minute, "what of that does not count for costs")
	flags.DurationVar(&o.every, "every", time.Second, "how often the relay polls each feed")
	flags.DurationVar(&o.settle, "settle", 5*time.Second, "what has not come within this time, twice, at the end is lost")
	flags.Float64Var(&o.percent[slow], "slow", 10, "`percent` of pages that take a few bytes at a time")
	flags.Float64Var(&o.percent[stalled], "stalled", 1, "`percent` that take nothing")
	flags.Float64Var(&o.percent[reconnecting], "reconnecting", 5, "`percent` that leave and come back")
	flags.Float64Var(&o.percent[hostile], "hostile", 2, "`percent` that send what they must not")
	flags.Float64Var(&o.held, "held", 10, "`percent` of scenes that are held back")
	flags.DurationVar(&o.hold, "hold", 8*time.Second, "by how much")
	mixText = flags.String("mix", usualMix, "kinds of pages, in percent")
	flags.Uint64Var(&o.seed, "seed", 1, "of the games")
	flags.IntVar(&o.prepared, "prepared", 0, "`plies` played at each table at the start; every other game is then ended")
	flags.IntVar(&o.edges, "edges", 0, "start so `many` edges as well, and let pages come to these")
	flags.BoolVar(&o.relayToo, "relay-too", false, "let pages come to the relay as well, where there are edges")
	flags.BoolVar(&o.direct, "direct", false, "do not count what edges read from the bus: they read it themselves, not through this tool")
	flags.DurationVar(&o.killEvery, "kill-edges", 0, "kill one edge after the other, this `often`, and start it again")
	flags.BoolVar(&o.units, "units", false, "measure what a page, a move and an edge cost, with trials as long as --for and so many --pages, and tell what a hundred thousand pages take; other flags then have other defaults")
	flags.StringVar(&o.plan, "plan", "", "tell that from the units in this `FILE`, as --units prints them")
	flags.BoolVar(&o.idle, "idle", false, "measure a relay with which nothing happens; other flags then have other defaults")
	return mixText
}

func (o *options) check(rest int, share string) error {
	var err error
	o.mix, err = parseMix(share)
	sum := 0.0
	for _, p := range append(o.percent[:], o.held) {
		if sum += p; p < 0 || math.IsNaN(p) {
			err = errors.Join(err, errors.New("no percentage is below 0"))
		}
	}
	switch {
	case rest > 0:
		return errors.New("it takes flags only")
	case err != nil:
		return err
	case sum-o.held > 100 || o.held > 100:
		return errors.New("percentages are more than 100")
	case (o.serve == "") == (o.relay == "") && o.write == "" && o.plan == "":
		return errors.New("it needs either --serve or --relay")
	case o.pages < 1 || o.feeds < 1 || o.boards < o.feeds || o.boards > 500:
		return errors.New("it needs a page, a feed, and from one board for each feed to 500 in all")
	case o.units && o.serve == "":
		return errors.New("it needs --serve to measure units")
	case o.edges < 0 || o.edges > edgesMost || o.edges > 0 && o.serve == "":
		return fmt.Errorf("it needs --serve for edges, of which there are %d at most", edgesMost)
	case o.killEvery < 0 || o.killEvery > 0 && o.edges < 2:
		return errors.New("it needs two edges to kill one")
	case o.length <= 0 || o.perSecond < 0 || o.hold < 0 || o.settle < 0 || o.every <= 0:
		return errors.New("times and rates are not below 0")
	}
	return nil
}

func parseMix(text string) (mix, error) {
	var m mix
	for part := range strings.SplitSeq(text, ",") {
		name, figure, _ := strings.Cut(part, "=")
		value, err := strconv.ParseFloat(figure, 64)
		if _, known := framesOf[name]; !known || err != nil || !(value >= 0) {
			return nil, fmt.Errorf("%q is no kind of page with a percentage", part)
		}
		m = append(m, struct {
			page  string
			share float64
		}{name, value})
	}
	return m, nil
}

// deal hands out kinds to so many pages, each kind spread evenly, and at least one page to
// each that has a share.
func (m mix) deal(pages int) []string {
	var total float64
	for _, k := range m {
		total += k.share
	}
	var out []string
	for _, k := range m {
		n := int(math.Round(k.share / total * float64(pages)))
		if k.share > 0 {
			n = max(n, 1)
		}
		for range n {
			out = append(out, k.page)
		}
	}
	for len(out) < pages {
		out = append(out, m[0].page)
	}
	return out[len(out)-pages:] // rounding takes from the first kind
}
