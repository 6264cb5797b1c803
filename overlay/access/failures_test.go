package access

import (
	"net/netip"
	"testing"
	"time"
)

// TestFailuresAreLimited: so many in a minute, each address by itself, and again after it.
func TestFailuresAreLimited(t *testing.T) {
	c := newClock()
	f := NewFailures(c.now)
	for n := range FailuresMost {
		if wait := f.Note("192.0.2.1:1000"); wait != 0 {
			t.Fatalf("turned away for %v after %d", wait, n+1)
		}
	}
	c.at = c.at.Add(20 * time.Second)
	if wait := f.Note("192.0.2.1:2000"); wait != 40*time.Second {
		t.Errorf("turned away for %v, want the rest of the minute", wait)
	}
	if wait, other := f.Wait("192.0.2.1:3000"), f.Wait("192.0.2.2:1000"); wait != 40*time.Second || other != 0 {
		t.Errorf("turned away for %v, another address for %v", wait, other)
	}
	if wait := f.Note("192.0.2.2:1000"); wait != 0 {
		t.Errorf("another address is turned away for %v", wait)
	}
	c.at = c.at.Add(40 * time.Second)
	if wait := f.Note("192.0.2.1:1000"); wait != 0 {
		t.Errorf("still turned away for %v after the minute", wait)
	}
	if f.Total() != FailuresMost+3 {
		t.Errorf("%d in all", f.Total())
	}
}

// TestFailuresAreBounded: a crowd of addresses costs no more memory, and is one to us.
func TestFailuresAreBounded(t *testing.T) {
	c := newClock()
	f := NewFailures(c.now)
	turned := 0
	for n := range 3 * FailuresAddress {
		if f.Note(netip.AddrFrom4([4]byte{10, byte(n >> 16), byte(n >> 8), byte(n)}).String()+":1") > 0 {
			turned++
		}
	}
	if len(f.counts) > FailuresAddress+1 || turned != 2*FailuresAddress-FailuresMost {
		t.Errorf("%d addresses remembered, %d turned away", len(f.counts), turned)
	}
	c.at = c.at.Add(FailuresWindow)
	if wait := f.Note("192.0.2.1:1"); wait != 0 || len(f.counts) != 1 {
		t.Errorf("a minute later: turned away for %v, %d remembered", wait, len(f.counts))
	}
}

// TestSource: RFC 4291, 2.5.4 and 2.5.5.2; addresses of RFC 5737 and RFC 3849.
func TestSource(t *testing.T) {
	for remote, want := range map[string]string{
		"192.0.2.1:80": "192.0.2.1/32", "[::ffff:192.0.2.1]:80": "192.0.2.1/32", "[2001:db8:1:2:3:4:5:6]:80": "2001:db8:1:2::/64",
		"[fe80::1%eth0]:80": "fe80::/64", "pipe": "invalid Prefix", "": "invalid Prefix",
	} {
		if got := Source(remote).String(); got != want {
			t.Errorf("%s is %s, want %s", remote, got, want)
		}
	}
}
