package feed

import (
	"context"
	"encoding/base64"
	"fmt"
	"net/http"
	"net/url"
	"runtime/debug"
	"strings"
	"time"
)

// HTTP polls one address. It holds nothing that changes after NewHTTP, so that Run
// may be called again after it returned.
type HTTP struct {
	o         HTTPOptions
	address   *url.URL
	shown     string // "GET http://host/path", the beginning of every error
	authorize string // the Authorization header; "" for none
	userAgent string
	transport http.RoundTripper
	own       *http.Transport // nil when the caller passed one
}

var _ Source = (*HTTP)(nil)

// NewHTTP returns a source that polls o.URL once Run is called. It connects to
// nobody. The error names the address without credentials or query, and the way out.
func NewHTTP(o HTTPOptions) (*HTTP, error) {
	address, err := o.parseAddress()
	if err != nil {
		return nil, err
	}
	o = o.filled()
	for _, err := range []error{o.limitsError(), o.credentialsError()} {
		if err != nil {
			return nil, fmt.Errorf("feed %s: %w", shownURL(address), err)
		}
	}
	h := &HTTP{o: o, address: address, shown: "GET " + shownURL(address), userAgent: userAgent(), transport: o.Transport}
	h.authorize = authorization(o)
	if h.transport == nil {
		h.own = limitedTransport(o.Timeout)
		h.transport = h.own
	}
	return h, nil
}

// Run polls until ctx ends, then returns nil. See the package's table for what it
// does under each fault.
func (h *HTTP) Run(ctx context.Context, to Sink) error {
	if h.own != nil {
		defer h.own.CloseIdleConnections()
	}
	p := &poll{HTTP: h, to: to}
	for ctx.Err() == nil {
		pause(ctx, p.once(ctx))
	}
	return nil
}

func authorization(o HTTPOptions) string {
	switch {
	case o.Bearer != "":
		return "Bearer " + o.Bearer
	case o.User != "":
		return "Basic " + base64.StdEncoding.EncodeToString([]byte(o.User+":"+o.Password))
	}
	return ""
}

// limitedTransport is the default one with a bound for the header and no time limit
// below that of the exchange.
func limitedTransport(timeout time.Duration) *http.Transport {
	t, ok := http.DefaultTransport.(*http.Transport)
	if !ok {
		t = &http.Transport{Proxy: http.ProxyFromEnvironment, ForceAttemptHTTP2: true}
	}
	t = t.Clone()
	t.MaxResponseHeaderBytes = maxHeaderBytes
	t.TLSHandshakeTimeout = timeout
	t.MaxIdleConnsPerHost = 1
	return t
}

// userAgent names the program and its version as one product token [RFC 9110 §10.1.5].
func userAgent() string {
	version := "devel"
	if info, ok := debug.ReadBuildInfo(); ok && strings.HasPrefix(info.Main.Version, "v") {
		version = info.Main.Version
	}
	return "clocktell/" + version
}
