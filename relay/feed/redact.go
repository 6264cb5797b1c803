package feed

import (
	"net/url"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// seconds writes d the way people say it, to the hundredth: "10 s", "0.83 s".
func seconds(d time.Duration) string {
	return strconv.FormatFloat(d.Round(10*time.Millisecond).Seconds(), 'g', -1, 64) + " s"
}

// Shown is as much of an address as pages and logs may show: no user, no password,
// no query, which may hold a token.
func Shown(address string) string {
	u, err := url.Parse(strings.TrimSpace(address))
	if err != nil || u.Host == "" {
		return shownText(address)
	}
	return shownURL(u)
}

// shownURL is as much of an address as an error may show.
func shownURL(u *url.URL) string {
	shown := u.Scheme + "://" + u.Host + u.EscapedPath()
	if u.RawQuery != "" {
		shown += "?…"
	}
	return shown
}

// shownText is shownURL for text that is not a usable address, so that nobody can
// tell for sure where a password in it begins and ends: it rather shows too little.
func shownText(raw string) string {
	scheme, rest, found := strings.Cut(raw, "://")
	if !found || strings.ContainsAny(scheme, "@:/?") {
		scheme, rest = "", raw
	} else {
		scheme += "://"
	}
	at, ask := strings.LastIndexByte(rest, '@'), strings.IndexByte(rest, '?')
	switch {
	case at >= 0 && ask >= 0 && ask < at: // a password with "?" or a query with "@"
		return scheme + "…"
	case at >= 0:
		rest = "…" + rest[at:]
	}
	rest, _, found = strings.Cut(rest, "?")
	if found {
		rest += "?…"
	}
	return scheme + rest
}

var (
	userinfo = regexp.MustCompile(`//[^/?#\s"]*@`)
	query    = regexp.MustCompile(`\?[^\s"]+`)
)

// scrubbed takes out of a foreign text the user, password and query of every address
// in it, and h's own credentials.
func (h *HTTP) scrubbed(text string) string {
	text = query.ReplaceAllString(userinfo.ReplaceAllString(text, "//…@"), "?…")
	for _, secret := range []string{h.o.Bearer, h.o.Password} {
		if secret != "" {
			text = strings.ReplaceAll(text, secret, "…")
		}
	}
	return text
}
