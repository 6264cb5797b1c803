package feed

import (
	"context"
	"crypto/sha256"
	"net/http"
	"time"
)

// poll is one Run of an HTTP source and what it remembers between requests.
type poll struct {
	*HTTP
	to Sink

	// Owned by the goroutine in Run.
	valid  validators
	heard  bool              // sum holds the body delivered last
	sum    [sha256.Size]byte // SHA-256: a body that only looks the same would hide a move
	faults int               // in a row
}

// validators are what the server gave to ask "has it changed?" with [RFC 9110 §8.8].
type validators struct {
	etag     string // opaque, sent back as it came
	modified string // Last-Modified, as it came
	from     string // the address that gave them, after redirects
}

// maxValidator is the longest validator sent back; a longer one would rather
// make every request fail.
const maxValidator = 1 << 10

// once asks once, tells the sink and returns how long to wait.
func (p *poll) once(ctx context.Context) time.Duration {
	start := time.Now()
	r, f := p.exchange(ctx)
	at, took := p.o.Now(), time.Since(start)
	if ctx.Err() != nil {
		return 0
	}
	var a Answer
	if f == nil {
		a, f = p.judge(r)
	}
	if f != nil {
		p.faults++
		p.to.Failed(Fault{At: at, Took: took, Reason: f.reason, Err: f.err})
		return p.o.afterFault(p.faults, f)
	}
	p.faults = 0
	a.At, a.Took = at, took
	p.to.Answered(a)
	return p.o.afterAnswer(time.Since(start))
}

// judge turns a complete reply into an answer, or finds what is wrong with it.
func (p *poll) judge(r reply) (Answer, *failure) {
	if r.unchanged {
		return p.judgeUnchanged(r)
	}
	sum := sha256.Sum256(r.body)
	if p.heard && sum == p.sum { // checked when it was new
		p.valid = r.valid
		return Answer{}, nil
	}
	if p.o.Check != nil {
		if err := p.o.Check(r.body); err != nil {
			p.valid = validators{}
			return Answer{}, p.notPGN(err)
		}
	}
	p.valid, p.heard, p.sum = r.valid, true, sum
	return Answer{New: true, Body: r.body}, nil
}

// judgeUnchanged believes a 304 only when it answers validators that came with a
// body from the very same address: another address may use the same ETag.
func (p *poll) judgeUnchanged(r reply) (Answer, *failure) {
	if !p.valid.usable() || p.valid.from != r.valid.from {
		p.valid = validators{}
		return Answer{}, p.fail(ReasonStatus, "status 304 (unchanged) for a body never read; the next poll asks for the whole; if it stays, look at the arena's server or the cache between")
	}
	if r.valid.etag != "" { // a 304 renews what it carries [RFC 9111 §4.3.4]
		p.valid.etag = r.valid.etag
	}
	if r.valid.modified != "" {
		p.valid.modified = r.valid.modified
	}
	return Answer{}, nil
}

func (v validators) usable() bool { return v.etag != "" || v.modified != "" }

// setOn makes the request conditional: both validators [RFC 9111 §4.3.1].
func (v validators) setOn(h http.Header) {
	if v.etag != "" {
		h.Set("If-None-Match", v.etag)
	}
	if v.modified != "" {
		h.Set("If-Modified-Since", v.modified)
	}
}

func validatorsOf(resp *http.Response) validators {
	return validators{
		etag:     sendable(resp.Header.Get("ETag")),
		modified: sendable(resp.Header.Get("Last-Modified")),
		from:     resp.Request.URL.String(),
	}
}

// sendable returns value, or "" when no request could carry it.
func sendable(value string) string {
	if len(value) > maxValidator {
		return ""
	}
	for _, b := range []byte(value) {
		if b < ' ' && b != '\t' || b == 0x7f {
			return ""
		}
	}
	return value
}
