package overlay

import (
	"errors"
	"strings"
	"unicode/utf8"

	"github.com/coder/websocket"

	"clocktell/overlay/access"
	"clocktell/overlay/wire"
)

// Why a page goes.
var (
	errSilentPage   = errors.New("the page has said nothing for 30 seconds")
	errSlowPage     = errors.New("the page has taken nothing for 5 seconds, and there is more for it")
	errStops        = errors.New("the relay stops")
	errTooManyPages = errors.New("too many pages; max_pages in the configuration sets how many")
	errRenewed      = errors.New("the token of this page has been renewed; open the page with its new link")
	errMistake      = errors.New("a mistake in the relay, which its log tells of")
	errUnknownPage  = errors.New("the address names no page or board")
	errCutOff       = errors.New("this relay does not hear the show at this moment; the page comes back by itself")
)

// close says good-bye with the code that tells the page whether to come back.
func (v *viewer) close(err error) {
	bad := new(badFrame)
	switch {
	case errors.Is(err, errStops):
		v.conn.Close(websocket.StatusGoingAway, short(err))
	case errors.Is(err, errTooManyPages), errors.Is(err, errCutOff):
		v.conn.Close(websocket.StatusTryAgainLater, short(err))
	case errors.Is(err, errRenewed):
		v.conn.Close(wire.CloseTokenRenewed, short(err))
	case errors.As(err, &bad):
		v.conn.Close(bad.code, short(err))
	case errors.Is(err, errSlowPage):
		v.server.pages.wasDropped()
	}
	v.conn.CloseNow()
}

// short is an error as a close reason, which is UTF-8 (RFC 6455, 5.5.1) also where a page's address,
// of which it may have a piece, is none.
func short(err error) string {
	reason := strings.ToValidUTF8(access.Redact(err.Error()), "?")
	for len(reason) > closeReasonMost || !utf8.ValidString(reason) {
		reason = reason[:min(len(reason)-1, closeReasonMost)]
	}
	return reason
}
