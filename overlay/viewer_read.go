package overlay

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/coder/websocket"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// badFrame is a frame from a page that makes no sense.
type badFrame struct {
	err  error
	code websocket.StatusCode // that the socket ends with
}

// Frames that a page may send, and as many pings besides; after a gap it asks for every board again.
const (
	framesMost   = 600 // in framesWindow
	framesWindow = 10 * time.Second
)

var (
	errBinary = &badFrame{errors.New("frames are text"), websocket.StatusUnsupportedData}           // RFC 6455, 7.4.1
	errUTF8   = &badFrame{errors.New("not UTF-8"), websocket.StatusInvalidFramePayloadData}         // RFC 6455, 8.1
	errFlood  = &badFrame{errors.New("too many frames at a time"), websocket.StatusPolicyViolation} // RFC 6455, 7.4.1
)

// flood counts the frames of a page, or its pings. The reader alone uses it.
type flood struct {
	since time.Time
	count int
}

// more counts a frame and reports whether it was not too many.
func (f *flood) more(now time.Time) bool {
	if now.Sub(f.since) >= framesWindow {
		*f = flood{since: now}
	}
	f.count++
	return f.count <= framesMost
}

func (e *badFrame) Error() string { return "frame not understood: " + e.err.Error() }

// read takes what the page says until the socket ends. Its time limit is the connection's: one
// of a context would cost a timer and a goroutine for each frame.
func (v *viewer) read() error {
	for {
		if err := v.outlet.SetReadDeadline(time.Now().Add(silenceMost)); err != nil {
			return err
		}
		kind, data, err := v.conn.Read(context.Background())
		switch {
		case errors.Is(err, os.ErrDeadlineExceeded):
			return errSilentPage
		case err != nil:
			return err
		case !v.flood.more(v.server.Now()):
			return errFlood
		case kind != websocket.MessageText:
			return errBinary
		case !utf8.Valid(data):
			return errUTF8
		}
		if err := v.take(data); err != nil {
			return &badFrame{err, wire.CloseBadFrame}
		}
	}
}

func (v *viewer) take(data []byte) error {
	if t, late, ok := plainPing(data); ok {
		v.report(late)
		v.box.ask(request{pong: pongBegun(t)})
		return nil
	}
	return v.takeJSON(data)
}

func (v *viewer) takeJSON(data []byte) error {
	var head struct{ Type string }
	if err := json.Unmarshal(data, &head); err != nil {
		return errors.New("not JSON")
	}
	switch head.Type {
	case wire.TypePing:
		var ping wire.Ping
		if err := json.Unmarshal(data, &ping); err != nil {
			return errors.New("a ping of another shape")
		}
		v.report(ping.Late)
		v.box.ask(request{pong: pongBegun(encode(ping.T))})
	case wire.TypeAgain:
		var again wire.Again
		if err := json.Unmarshal(data, &again); err != nil {
			return errors.New("an again of another shape")
		}
		v.box.ask(request{again: again.Board})
	case wire.TypeWho:
		var who wire.Who
		if err := json.Unmarshal(data, &who); err != nil || utf8.RuneCountInString(who.Name) > relay.WhoMost {
			return fmt.Errorf("a who of another shape, or with a name of more than %d characters", relay.WhoMost)
		}
		if !v.kind.table && !v.kind.desk {
			return errors.New("a who from a page that nobody sits at; panel and desk send one")
		}
		v.server.pages.sits(v.me, strings.TrimSpace(who.Name))
		v.box.ask(request{who: true})
	default:
		return fmt.Errorf("unknown type %.20q", head.Type)
	}
	return nil
}

func (v *viewer) report(late []int64) {
	believed := make([]int64, 0, len(late))
	for _, ms := range late {
		if ms >= 0 && ms <= lateMost {
			believed = append(believed, ms)
			v.server.Late(time.Duration(ms) * time.Millisecond)
		}
	}
	v.server.pages.wasLate(v.me, believed)
}

// reasonToLeave is the end of a socket as the log says it.
func reasonToLeave(err error) string {
	switch websocket.CloseStatus(err) {
	case -1:
		return err.Error()
	case websocket.StatusNormalClosure, websocket.StatusGoingAway, websocket.StatusNoStatusRcvd:
		return "closed by the page"
	}
	return fmt.Sprintf("closed by the page with %d", websocket.CloseStatus(err)) // its reason is anybody's words
}
