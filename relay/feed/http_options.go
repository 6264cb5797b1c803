package feed

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"net/http"
	"net/url"
	"strings"
	"time"
)

// What a zero value in the options stands for.
const (
	DefaultEvery    = time.Second      // between two requests: as fast as a clock counts
	DefaultTimeout  = 10 * time.Second // for a whole exchange
	DefaultMaxBytes = 16 << 20         // decoded bytes of one content, wherever it comes from
	DefaultMaxWait  = 30 * time.Second // longest back-off: what a show can bear after a repair
	DefaultIdle     = 5 * time.Second  // longest wait while nothing goes on
)

// IdleAfter is how long nothing new may come before the requests of an idle feed
// begin to slow down: longer than a round takes to start once its first board has.
const IdleAfter = time.Minute

// MaxRedirects is how many redirects one poll follows.
const MaxRedirects = 5

// maxHeaderBytes limits an answer's header in the transport NewHTTP makes.
const maxHeaderBytes = 64 << 10

// HTTPOptions say what to poll and how. A zero value means its default.
type HTTPOptions struct {
	URL      string        // http or https; user and password in it move to User and Password
	Every    time.Duration // from the start of one request to the next; 0: DefaultEvery
	Timeout  time.Duration // for a whole exchange, redirects and body included; 0: DefaultTimeout
	MaxBytes int64         // largest answer after decoding; 0: DefaultMaxBytes
	MaxWait  time.Duration // longest back-off, at least Every; 0: DefaultMaxWait, or Every if longer
	Idle     time.Duration // longest wait while nothing goes on, at least Every; 0: DefaultIdle, or Every if longer

	// Busy tells whether a game is on: while it does, the rhythm is Every. Otherwise the
	// waits grow to Idle once nothing new has come for IdleAfter, and the next new body
	// brings them back to Every. nil: always. It is called from Run.
	Busy func() bool

	Bearer   string // token for "Authorization: Bearer"; excludes User
	User     string // for Basic authentication; holds no colon [RFC 7617 §2]
	Password string

	// Transport carries the requests; nil: a clone of the default one with limits.
	// The caller closes the idle connections of one it passes.
	Transport http.RoundTripper

	// Check looks at a new body before it is delivered; nil: none. Its error makes
	// ReasonNotPGN, and the next poll asks for the whole. The error's text is shown;
	// bytes equal to the last delivered are not checked again.
	Check func(body []byte) error

	Now  func() time.Time // for stamps only, not for waiting; nil: time.Now
	Rand func() float64   // jitter, in [0, 1); nil: math/rand/v2
}

// filled returns o with every zero value replaced by its default.
func (o HTTPOptions) filled() HTTPOptions {
	o.Every = orDefault(o.Every, DefaultEvery)
	o.Timeout = orDefault(o.Timeout, DefaultTimeout)
	o.MaxBytes = orDefault(o.MaxBytes, DefaultMaxBytes)
	o.MaxWait = orDefault(o.MaxWait, max(DefaultMaxWait, o.Every))
	o.Idle = orDefault(o.Idle, max(DefaultIdle, o.Every))
	if o.Busy == nil {
		o.Busy = func() bool { return true }
	}
	if o.Now == nil {
		o.Now = time.Now
	}
	if o.Rand == nil {
		o.Rand = rand.Float64
	}
	return o
}

func orDefault[T time.Duration | int64](v, def T) T {
	if v == 0 {
		return def
	}
	return v
}

// limitsError tells which number in o, already filled, cannot work.
func (o HTTPOptions) limitsError() error {
	switch {
	case o.Every < 0:
		return fmt.Errorf("every %v is negative; give the time between two requests, or nothing for %v", o.Every, DefaultEvery)
	case o.Timeout < 0:
		return fmt.Errorf("timeout %v is negative; give the time for one answer, or nothing for %v", o.Timeout, DefaultTimeout)
	case o.MaxBytes < 0:
		return fmt.Errorf("size limit %d is negative; give a number of bytes, or nothing for %d", o.MaxBytes, DefaultMaxBytes)
	case o.MaxWait < o.Every:
		return fmt.Errorf("longest wait %v is shorter than every %v; make it at least as long", o.MaxWait, o.Every)
	case o.Idle < o.Every:
		return fmt.Errorf("longest idle wait %v is shorter than every %v; make it at least as long", o.Idle, o.Every)
	}
	return nil
}

// credentialsError tells what cannot be sent, without repeating it.
func (o HTTPOptions) credentialsError() error {
	switch {
	case o.Bearer != "" && (o.User != "" || o.Password != ""):
		return errors.New("both a bearer token and a user with password are set; keep the one the arena's server asks for")
	case strings.ContainsFunc(o.Bearer, notVisible):
		return errors.New("the bearer token holds a space, a line end or a character outside ASCII; check what token_env holds")
	case strings.Contains(o.User, ":"):
		return errors.New("the user name holds a colon, which Basic authentication cannot carry; check the user name")
	case o.User == "" && o.Password != "":
		return errors.New("a password is set without a user; set the user as well")
	}
	return nil
}

func notVisible(r rune) bool { return r <= ' ' || r > '~' }

// parseAddress reads raw, and moves what it holds of user and password into o.
// Its errors show no more of the address than scheme, host and path.
func (o *HTTPOptions) parseAddress() (*url.URL, error) {
	u, err := url.Parse(strings.TrimSpace(o.URL))
	switch {
	case err != nil:
		return nil, fmt.Errorf("feed address %q is not a URL; write it like http://192.0.2.1/games.pgn", shownText(o.URL))
	case u.Scheme != "http" && u.Scheme != "https":
		return nil, fmt.Errorf("feed address %q does not begin with http:// or https://; add it", shownText(o.URL))
	case u.Hostname() == "":
		return nil, fmt.Errorf("feed address %q names no host; write it like http://192.0.2.1/games.pgn", shownText(o.URL))
	}
	if u.User != nil {
		if o.User != "" || o.Bearer != "" {
			return nil, fmt.Errorf("feed address %s holds a user name and credentials are set beside it; keep one of the two", shownURL(u))
		}
		o.User = u.User.Username()
		o.Password, _ = u.User.Password()
		u.User = nil
	}
	u.Fragment = ""
	o.URL = u.String()
	return u, nil
}
