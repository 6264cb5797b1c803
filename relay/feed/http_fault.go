package feed

import (
	"context"
	"crypto/tls"
	"crypto/x509"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/url"
	"strconv"
	"strings"
	"time"
)

// failure is a fault on its way to the sink.
type failure struct {
	reason     Reason
	err        error
	retryAfter time.Duration // what the server asks for; negative: nothing
}

// fail makes a failure whose text begins with the request. The text wraps nothing:
// the errors of net/http carry whole addresses, and those may carry secrets.
func (h *HTTP) fail(reason Reason, format string, args ...any) *failure {
	for i, arg := range args {
		if err, ok := arg.(error); ok {
			args[i] = h.scrubbed(err.Error())
		}
	}
	return &failure{reason: reason, err: errors.New(h.shown + ": " + fmt.Sprintf(format, args...)), retryAfter: -1}
}

func (h *HTTP) timedOut() *failure {
	return h.fail(ReasonTimeout, "no complete answer within %s; is the arena's server up?", seconds(h.o.Timeout))
}

func (h *HTTP) tooLarge() *failure {
	return h.fail(ReasonTooLarge, "the answer is larger than %d bytes; is this the address of the PGN? If so, raise the size limit", h.o.MaxBytes)
}

func (h *HTTP) notPGN(err error) *failure {
	return h.fail(ReasonNotPGN, "%v; is this the address of the PGN?", err)
}

// noAnswer classes an error met before a complete header.
func (h *HTTP) noAnswer(ctx context.Context, err error) *failure {
	if ctx.Err() != nil {
		return h.timedOut()
	}
	if outer := (*url.Error)(nil); errors.As(err, &outer) {
		err = outer.Err // the outer one repeats the address, with its query
	}
	timeout, cert, line := net.Error(nil), (*tls.CertificateVerificationError)(nil), (*net.OpError)(nil)
	switch {
	case errors.Is(err, errManyRedirects), errors.Is(err, errOddRedirect):
		return h.fail(ReasonStatus, "%v; check the address, it may have moved", err)
	case errors.As(err, &timeout) && timeout.Timeout():
		return h.fail(ReasonTimeout, "%v; is the arena's server up?", err)
	case errors.As(err, &cert):
		return h.fail(ReasonConnect, "%v; "+certificateWayOut(cert), err)
	case errors.As(err, &line):
		return h.noConnection(err)
	}
	return h.badHeader(err)
}

// certificateWayOut says what to do about a certificate; what is wrong with it stands
// in the text of crypto/x509 before.
func certificateWayOut(err error) string {
	unknown, invalid := x509.UnknownAuthorityError{}, x509.CertificateInvalidError{}
	switch {
	case errors.As(err, &unknown):
		return "is it the right host? If the arena vouches for itself, this machine must be told to trust it"
	case errors.As(err, &invalid) && invalid.Reason == x509.Expired:
		return "is this machine's date right? If so, the arena must renew its certificate"
	}
	return "is it the right host, and this machine's date right?"
}

// badHeader classes by their text the errors that net/http exports no name for.
func (h *HTTP) badHeader(err error) *failure {
	switch text := err.Error(); {
	case strings.Contains(text, "Location header"):
		return h.fail(ReasonStatus, "%v; check the address, it may have moved", err)
	case strings.Contains(text, "headers exceeded"):
		return h.fail(ReasonTooLarge, "the answer's header is larger than %d bytes; is this the address of the PGN?", maxHeaderBytes)
	case strings.Contains(text, "Content-Length"), strings.Contains(text, "transfer encoding"):
		return h.fail(ReasonMalformed, "the answer's length cannot be told (%v); if it stays, look at the arena's server or the proxy between", err)
	case strings.Contains(text, "malformed"):
		return h.fail(ReasonMalformed, "the answer is not HTTP; check the address and its port")
	}
	return h.noConnection(err)
}

func (h *HTTP) noConnection(err error) *failure {
	return h.fail(ReasonConnect, "no connection (%v); check the address, and is the arena's server up?", err)
}

// badStatus classes an answer whose status is neither 200 nor 304.
func (h *HTTP) badStatus(resp *http.Response) *failure {
	code := resp.StatusCode
	f := h.fail(ReasonStatus, "status %s; %s", strings.TrimSpace(strconv.Itoa(code)+" "+http.StatusText(code)), h.wayOut(code))
	if code == http.StatusTooManyRequests || code == http.StatusServiceUnavailable {
		f.retryAfter = retryAfter(resp.Header, h.o.Now())
	}
	return f
}

func (h *HTTP) wayOut(code int) string {
	switch {
	case code == http.StatusUnauthorized || code == http.StatusForbidden:
		if h.authorize == "" {
			return "set token_env, or user and password_env, to what the arena's server asks for"
		}
		return "the arena's server does not take these credentials; check what token_env, or user and password_env, hold"
	case code == http.StatusTooManyRequests:
		return "the arena's server wants fewer requests; raise every"
	case code == http.StatusProxyAuthRequired:
		return "the proxy wants credentials; check this machine's proxy settings"
	case code >= 500:
		return "the arena's server is in trouble; tell the arena if it stays"
	}
	return "check the address"
}
