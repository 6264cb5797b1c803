package access

import (
	"net"
	"net/netip"
	"sync"
	"time"
)

// Limits of wrong tokens.
const (
	FailuresMost    = 10          // from one address, in each FailuresWindow
	FailuresWindow  = time.Minute // from the first of them
	FailuresAddress = 1024        // addresses remembered; all others together count as one more
)

// Failures counts wrong tokens by the address that they come from, so that whoever shows them
// can be told to wait. Whether a right token is taken meanwhile is for the caller to say: of
// 160 random bits none is guessed, and nobody need be shut out who is behind the same router or
// proxy; what people make up can be guessed.
type Failures struct {
	now func() time.Time

	mu     sync.Mutex // protects following
	counts map[netip.Prefix]*failed
	total  uint64
}

type failed struct {
	since time.Time
	times int
}

// NewFailures returns a count that knows of none.
func NewFailures(now func() time.Time) *Failures {
	return &Failures{now: now, counts: make(map[netip.Prefix]*failed)}
}

// Note counts a wrong token from an address, as of http.Request.RemoteAddr. It returns for
// how long further ones are turned away, 0 while there may be more.
func (f *Failures) Note(remote string) time.Duration {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.total++
	now := f.now()
	count := f.of(Source(remote), now)
	if now.Sub(count.since) >= FailuresWindow {
		*count = failed{since: now}
	}
	count.times++
	if count.times <= FailuresMost {
		return 0
	}
	return count.since.Add(FailuresWindow).Sub(now)
}

// Wait returns for how long tokens from an address are turned away, 0 if they are not.
func (f *Failures) Wait(remote string) time.Duration {
	f.mu.Lock()
	defer f.mu.Unlock()
	now := f.now()
	count := f.counts[Source(remote)]
	if count == nil && len(f.counts) > FailuresAddress {
		count = f.counts[netip.Prefix{}]
	}
	if count == nil || count.times <= FailuresMost {
		return 0
	}
	return max(0, count.since.Add(FailuresWindow).Sub(now))
}

// of returns the count of a source; the caller holds the lock.
func (f *Failures) of(source netip.Prefix, now time.Time) *failed {
	if count := f.counts[source]; count != nil {
		return count
	}
	if len(f.counts) >= FailuresAddress {
		for old, count := range f.counts {
			if now.Sub(count.since) >= FailuresWindow {
				delete(f.counts, old)
			}
		}
	}
	if len(f.counts) >= FailuresAddress {
		source = netip.Prefix{} // of all that there is no room for
		if count := f.counts[source]; count != nil {
			return count
		}
	}
	f.counts[source] = &failed{since: now}
	return f.counts[source]
}

// Total returns how many wrong tokens there have been.
func (f *Failures) Total() uint64 {
	f.mu.Lock()
	defer f.mu.Unlock()
	return f.total
}

// Bits of an address that tell one household from the next: all of IPv4, the network of
// IPv6, of which whoever has one address has 2^64 (RFC 4291, 2.5.4).
const (
	bits4 = 32
	bits6 = 64
)

// Source is whom an address belongs to; all that cannot be read are one.
func Source(remote string) netip.Prefix {
	host, _, err := net.SplitHostPort(remote)
	if err != nil {
		host = remote
	}
	addr, err := netip.ParseAddr(host)
	if err != nil {
		return netip.Prefix{}
	}
	addr, bits := addr.Unmap().WithZone(""), bits4
	if addr.Is6() {
		bits = bits6
	}
	return netip.PrefixFrom(addr, bits).Masked()
}
