package feed

import (
	"bytes"
	"context"
	"net/http"
	"time"
)

// poll is one Run of an HTTP source and what it remembers between requests.
type poll struct {
	*HTTP
	to Sink

	// Owned by the goroutine in Run.
	valid    validators
	heard    bool   // body is the one delivered last
	body     []byte // shared with whoever took it, and changed by nobody
	modified time.Time
	faults   int // in a row
	rhythm   rhythm
}

// validators are what the server gave to ask "has it changed?" with [RFC 9110 §8.8].
type validators struct {
	etag     string // opaque, sent back as it came
	modified string // Last-Modified, as it came; "" where it is too young to tell one body from the next
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
	a.At, a.Took, a.Modified = at, took, p.modified
	beat := p.rhythm.next(p.o, start, a.New)
	p.to.Answered(a)
	return p.o.afterAnswer(beat, time.Since(start))
}

// judge turns a complete reply into an answer, or finds what is wrong with it.
func (p *poll) judge(r reply) (Answer, *failure) {
	if r.unchanged {
		return p.judgeUnchanged(r)
	}
	if p.heard && bytes.Equal(r.body, p.body) { // checked when it was new
		p.valid, p.modified = r.valid, r.modified
		return Answer{}, nil
	}
	if p.o.Check != nil {
		if err := p.o.Check(r.body); err != nil {
			p.valid = validators{}
			return Answer{}, p.notPGN(err)
		}
	}
	p.valid, p.modified, p.heard, p.body = r.valid, r.modified, true, r.body
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
	if !r.modified.IsZero() {
		p.modified = r.modified
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

// validatorsOf reads what resp, received at now, gives to ask with.
func validatorsOf(resp *http.Response, now time.Time) validators {
	v := validators{etag: sendable(resp.Header.Get("ETag")), from: resp.Request.URL.String()}
	if tells(resp.Header, now) {
		v.modified = sendable(resp.Header.Get("Last-Modified"))
	}
	return v
}

// tells says whether Last-Modified tells this body from the next. It counts whole
// seconds, so that one of the very second of the answer may hold for the next body
// as well, and one from the future for many: such a date tells only once it lies a
// second or more before the answer's [RFC 9110 §8.8.2.2].
func tells(h http.Header, now time.Time) bool {
	modified := lastModified(h)
	if date, err := http.ParseTime(h.Get("Date")); err == nil {
		now = date
	}
	return modified.IsZero() || now.Sub(modified) >= time.Second
}

// lastModified is the date of that name, zero where there is none or none that can be read.
func lastModified(h http.Header) time.Time {
	at, err := http.ParseTime(h.Get("Last-Modified"))
	if err != nil {
		return time.Time{}
	}
	return at
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
