package feed

import (
	"context"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"time"
)

// reply is a complete exchange that ended in 200 or 304.
type reply struct {
	unchanged bool // 304
	body      []byte
	valid     validators
	modified  time.Time // zero: not said
}

// exchange asks once, follows redirects and reads the body, all within the timeout.
func (p *poll) exchange(ctx context.Context) (reply, *failure) {
	ctx, cancel := context.WithTimeout(ctx, p.o.Timeout)
	defer cancel()
	client := &http.Client{Transport: p.transport, CheckRedirect: p.redirected}
	resp, err := client.Do(p.request(ctx))
	if err != nil {
		return reply{}, p.noAnswer(ctx, err)
	}
	defer resp.Body.Close()
	r := reply{valid: validatorsOf(resp, p.o.Now()), modified: lastModified(resp.Header)}
	switch resp.StatusCode {
	case http.StatusOK:
		body, f := p.read(ctx, resp)
		r.body = body
		return r, f
	case http.StatusNotModified:
		r.unchanged = true
		return r, nil
	}
	return reply{}, p.badStatus(resp)
}

func (p *poll) request(ctx context.Context) *http.Request {
	r := p.HTTP.request(ctx)
	p.valid.setOn(r.Header)
	return r
}

// request asks for the whole.
func (h *HTTP) request(ctx context.Context) *http.Request {
	address := *h.address
	r := (&http.Request{Method: http.MethodGet, URL: &address, Host: address.Host, Header: http.Header{}}).WithContext(ctx)
	r.Header.Set("User-Agent", h.userAgent)
	r.Header.Set("Accept-Encoding", "gzip") // asked by us, so that the transport leaves decoding to us
	r.Header.Set("Cache-Control", "no-cache")
	if h.authorize != "" {
		r.Header.Set("Authorization", h.authorize)
	}
	return r
}

var (
	errManyRedirects = fmt.Errorf("redirected more than %d times", MaxRedirects)
	errOddRedirect   = errors.New("redirected to something other than http or https")
)

// redirected decides on one redirect. The client copies the header of the first
// request, and that copy would reach subdomains, other ports and unencrypted addresses too.
func (h *HTTP) redirected(next *http.Request, via []*http.Request) error {
	if len(via) > MaxRedirects {
		return errManyRedirects
	}
	if next.URL.Scheme != "http" && next.URL.Scheme != "https" {
		return errOddRedirect
	}
	next.Header.Del("Referer") // it would carry the query, where some servers want a token
	if !h.trusts(next.URL) {
		next.Header.Del("Authorization")
		next.URL.User = nil
	}
	return nil
}

// trusts tells whether u is the configured host and port, not less encrypted.
func (h *HTTP) trusts(u *url.URL) bool {
	downgrade := h.address.Scheme == "https" && u.Scheme == "http"
	return u.Host == h.address.Host && !downgrade
}
