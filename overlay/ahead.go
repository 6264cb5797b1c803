package overlay

import (
	"net/url"
	"strconv"
	"time"
)

// aheadMost is how long a page waits for this server to hear what another one has shown it, in wall
// time. By then whoever does not hear the show knows that it is cut off, and lets no page in.
const aheadMost = 5 * time.Second

// ahead is how far another server of the same show has shown it to a page, as the page says. The
// zero value is a page that says nothing of it.
type ahead struct {
	at  int64  // when the newest of its boards came, milliseconds of show time
	log uint64 // the last line of the show log

	until time.Time // from then on it is shown what there is; wall
}

// aheadBy reads it from a page's address.
func (s *Server) aheadBy(query url.Values) ahead {
	if query.Get("run") != s.Run {
		return ahead{}
	}
	at, _ := strconv.ParseInt(query.Get("seen"), 10, 64)
	log, _ := strconv.ParseUint(query.Get("log"), 10, 64)
	if at <= 0 && log == 0 {
		return ahead{}
	}
	return ahead{at: at, log: log, until: s.Now().Add(aheadMost)}
}

// waits reports that the page has seen what this server has not heard of yet: it is sent nothing
// of the show, and keeps the picture that it has, which is newer.
func (v *viewer) waits() bool {
	if v.ahead == (ahead{}) {
		return false
	}
	show := v.server.Relay.Show()
	if has := show.At.UnixMilli() >= v.ahead.at && show.Log.Total >= v.ahead.log; has || !v.server.Now().Before(v.ahead.until) {
		v.ahead = ahead{}
	}
	return v.ahead != (ahead{})
}
