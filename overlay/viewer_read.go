package overlay

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/coder/websocket"

	"clocktell/overlay/wire"
	"clocktell/relay"
)

// badFrame is a frame from a page that makes no sense.
type badFrame struct{ err error }

func (e *badFrame) Error() string { return "frame not understood: " + e.err.Error() }

// read takes what the page says until the socket ends.
func (v *viewer) read(ctx context.Context) error {
	for {
		heard, cancel := context.WithTimeout(ctx, silenceMost)
		_, data, err := v.conn.Read(heard)
		cancel()
		if errors.Is(err, context.DeadlineExceeded) && ctx.Err() == nil {
			return errSilentPage
		}
		if err != nil {
			return err
		}
		if err := v.take(data); err != nil {
			return &badFrame{err}
		}
	}
}

func (v *viewer) take(data []byte) error {
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
		v.ask(request{pong: &wire.Pong{Type: wire.TypePong, T: ping.T}})
	case wire.TypeAgain:
		var again wire.Again
		if err := json.Unmarshal(data, &again); err != nil {
			return errors.New("an again of another shape")
		}
		v.ask(request{again: again.Board})
	case wire.TypeWho:
		var who wire.Who
		if err := json.Unmarshal(data, &who); err != nil || utf8.RuneCountInString(who.Name) > relay.WhoMost {
			return fmt.Errorf("a who of another shape, or with a name of more than %d characters", relay.WhoMost)
		}
		v.server.pages.sits(v.me, strings.TrimSpace(who.Name))
		v.ask(request{who: true})
	default:
		return fmt.Errorf("unknown type %.20q", head.Type)
	}
	return nil
}

// ask queues a request; past the limit a page that floods is not answered.
func (v *viewer) ask(r request) {
	select {
	case v.asked <- r:
	default:
	}
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
	case websocket.StatusNormalClosure, websocket.StatusGoingAway, websocket.StatusNoStatusRcvd:
		return "closed by the page"
	}
	return err.Error()
}
