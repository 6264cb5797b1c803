package main

import (
	"fmt"
	"net/http"
	"strconv"
	"sync"
	"time"
)

// skewMost is how far apart the clocks of this machine and of a feed's may be. Further,
// times in the show log and in recordings do not go together.
const skewMost = 2 * time.Second

// checkedSkew is by how much this machine's clock is ahead of that of a feed's server.
type checkedSkew struct {
	AheadSeconds  float64 `json:"ahead_seconds"`  // less than 0: behind
	WithinSeconds float64 `json:"within_seconds"` // the truth lies so near on either side
}

// dates is a transport that notes what the last answer says of its server's time.
type dates struct {
	now  func() time.Time
	next *http.Transport

	mu    sync.Mutex // protects following
	known bool
	least time.Duration // this machine is ahead by at least so much
	most  time.Duration // and at most
}

// RoundTrip sends a request on.
func (d *dates) RoundTrip(r *http.Request) (*http.Response, error) {
	sent := d.now()
	resp, err := d.next.RoundTrip(r)
	if err == nil {
		d.note(sent, d.now(), resp.Header)
	}
	return resp, err
}

// note takes the Date of an answer: the time when it was made, in whole seconds (RFC 9110,
// 6.6.1), which was after the request was sent and before the answer came. What a cache
// kept is older by its Age, in whole seconds too (RFC 9111, 5.1).
func (d *dates) note(sent, received time.Time, h http.Header) {
	date, err := http.ParseTime(h.Get("Date"))
	if err != nil {
		return
	}
	unsure := time.Second
	age, err := strconv.ParseInt(h.Get("Age"), 10, 32)
	if err == nil && age >= 0 {
		date = date.Add(time.Duration(age) * time.Second)
		unsure += time.Second
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	d.known, d.least, d.most = true, sent.Sub(date)-unsure, received.Sub(date)
}

// skew returns the middle of what is possible and how far it reaches.
func (d *dates) skew() (ahead, within time.Duration, known bool) {
	d.mu.Lock()
	defer d.mu.Unlock()
	return (d.least + d.most) / 2, (d.most - d.least) / 2, d.known
}

// checkSkew compares the clock of this machine with that of the feed's.
func (k *checker) checkSkew(feed string, d *dates, checked *checkedFeed) {
	ahead, within, known := d.skew()
	if !known {
		return
	}
	checked.Skew = &checkedSkew{AheadSeconds: ahead.Seconds(), WithinSeconds: within.Seconds()}
	word := "ahead of"
	if ahead < 0 {
		word = "behind"
	}
	f := finding{Area: areaClock, Feed: feed, State: stateFine,
		Text: fmt.Sprintf("this machine's is %.1f s %s that of feed %s, give or take %.1f s", ahead.Abs().Seconds(), word, feed, within.Seconds())}
	if ahead.Abs()-within > skewMost {
		f.State = stateWarning
		f.Do = "running clocks are not affected, but times in the show log are other than the arena's: have this machine set its clock from the network, or tell the arena that its server's is wrong"
	}
	k.add(f)
}
