package main

import (
	"fmt"
	"io"
	"net/http"
	"strings"
	"sync/atomic"
	"time"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/feed"
)

// status answers with a status and a web page of it.
func status(code int, fields ...string) func(*faultScene) http.HandlerFunc {
	return func(*faultScene) http.HandlerFunc {
		return func(w http.ResponseWriter, _ *http.Request) {
			for i := 0; i < len(fields); i += 2 {
				w.Header().Set(fields[i], fields[i+1])
			}
			w.WriteHeader(code)
			if code != http.StatusNotModified {
				io.WriteString(w, "<!doctype html><h1>1. e4 is out of order</h1>")
			}
		}
	}
}

// asked is how long the rows about Retry-After wait at the most: what the server asks
// for is more.
const asked = 400 * time.Millisecond

func patient(c *config.Config) { c.Feeds[0].MaxWait.Duration = asked }

// afterDate answers 429 and asks to come back at a date.
func afterDate(*faultScene) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		now := time.Now().UTC()
		w.Header().Set("Date", now.Format(http.TimeFormat))
		w.Header().Set("Retry-After", now.Add(time.Hour).Format(http.TimeFormat))
		status(http.StatusTooManyRequests)(nil)(w, r)
	}
}

// keptAway looks whether the feed was left alone as long as it asked for, with all that
// max_wait allows.
func keptAway(_ *faultScene, show *relay.Show) string {
	beats := show.Feeds[0].Rhythm()
	for i, beat := range beats[:len(beats)-1] {
		if wait := beats[i+1].At.Sub(beat.At); beat.Kind == relay.BeatFault && wait < asked {
			return fmt.Sprintf("after Retry-After the next answer came within %v, want %v or more", wait, asked)
		}
	}
	return ""
}

// redirect sends elsewhere, from wherever one comes.
func redirect(to string) func(*faultScene) http.HandlerFunc {
	return status(http.StatusFound, "Location", to)
}

var statusRows = []faultRow{
	{name: "redirect loop", basis: "RFC 9110 §15.4: a client should detect it", serve: redirect("/games.pgn"),
		want: faultWant{reason: feed.ReasonStatus, says: "redirected more than 5 times"}},
	{name: "redirect to another scheme", basis: "the program reads http and https alone", serve: redirect("ftp://127.0.0.1/games.pgn"),
		want: faultWant{reason: feed.ReasonStatus, says: "other than http or https"}},
	{name: "redirect to an unknown host", basis: "RFC 1035 §2.3.4: no label has more than 63 octets, so that no server needs to be asked",
		serve: redirect("http://" + strings.Repeat("h", 64) + ".invalid/games.pgn"),
		want:  faultWant{reason: feed.ReasonConnect, says: "no such host"}},
	{name: "redirect to nowhere", basis: "RFC 9110 §15.4", serve: status(http.StatusFound),
		want: faultWant{reason: feed.ReasonStatus, says: "status 302 Found"}},
	{name: "401", basis: "RFC 9110 §15.5.2", serve: status(http.StatusUnauthorized, "WWW-Authenticate", "Bearer"),
		want: faultWant{reason: feed.ReasonStatus, says: "status 401 Unauthorized; set token_env"}},
	{name: "403", basis: "RFC 9110 §15.5.4", serve: status(http.StatusForbidden),
		want: faultWant{reason: feed.ReasonStatus, says: "status 403 Forbidden"}},
	{name: "404", basis: "RFC 9110 §15.5.5", serve: status(http.StatusNotFound),
		want: faultWant{reason: feed.ReasonStatus, says: "status 404 Not Found; check the address"}},
	{name: "410", basis: "RFC 9110 §15.5.11", serve: status(http.StatusGone),
		want: faultWant{reason: feed.ReasonStatus, says: "status 410 Gone; check the address"}},
	{name: "429 with seconds", basis: "RFC 6585 §4, RFC 9110 §10.2.3", serve: status(http.StatusTooManyRequests, "Retry-After", "3600"), adjust: patient,
		want: faultWant{reason: feed.ReasonStatus, says: "wants fewer requests", times: 1, late: keptAway}},
	{name: "429 with a date", basis: "RFC 6585 §4, RFC 9110 §10.2.3", serve: afterDate, adjust: patient,
		want: faultWant{reason: feed.ReasonStatus, says: "wants fewer requests", times: 1, late: keptAway}},
	{name: "500", basis: "RFC 9110 §15.6.1", serve: status(http.StatusInternalServerError),
		want: faultWant{reason: feed.ReasonStatus, says: "status 500 Internal Server Error; the arena's server is in trouble"}},
	{name: "503", basis: "RFC 9110 §15.6.4", serve: status(http.StatusServiceUnavailable),
		want: faultWant{reason: feed.ReasonStatus, says: "status 503 Service Unavailable"}},
	{name: "503 with seconds", basis: "RFC 9110 §15.6.4, §10.2.3", serve: status(http.StatusServiceUnavailable, "Retry-After", "3600"), adjust: patient,
		want: faultWant{reason: feed.ReasonStatus, says: "status 503 Service Unavailable", times: 1, late: keptAway}},
	{name: "204", basis: "RFC 9110 §15.3.5: no content", serve: func(*faultScene) http.HandlerFunc {
		return func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) }
	}, want: faultWant{reason: feed.ReasonStatus, says: "status 204 No Content"}},
	{name: "304 without a body before", basis: "RFC 9110 §15.4.5: an answer to a conditional request alone", serve: status(http.StatusNotModified),
		want: faultWant{reason: feed.ReasonStatus, says: "status 304 (unchanged) for a body never read"}},
}

// frozenTag answers with a body and a tag once, and then for ever that nothing has
// changed; the backup's address tells the truth.
func frozenTag(s *faultScene) http.HandlerFunc {
	fresh := answer(s.packet(duringPlies, duringPlies))
	return func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("ETag", `"for ever"`)
		switch {
		case r.URL.Path == "/backup.pgn":
			w.Header().Del("ETag")
			fresh(w, r)
		case r.Header.Get("If-None-Match") == `"for ever"`:
			w.WriteHeader(http.StatusNotModified)
		default:
			io.WriteString(w, s.packet(beforePlies, beforePlies))
		}
	}
}

// followBoth reports that both boards follow a feed and show so many plies.
func followBoth(feed string, plies int) func(*relay.Show) bool {
	return func(show *relay.Show) bool {
		for _, b := range show.Boards {
			if b.Feed != feed || len(b.Plies) != plies {
				return false
			}
		}
		return true
	}
}

// whyBackup looks whether the show log says why the boards turned to the backup.
func whyBackup(_ *faultScene, show *relay.Show) string {
	boards := 0
	for _, n := range show.Log.After(0) {
		if n.Kind == relay.NoteFeed && n.Was == arenaFeed && n.Is == backupFeed && n.Text == "arena: it is behind" {
			boards++
		}
	}
	if boards != 2 {
		return fmt.Sprintf("the show log says of %d boards that the arena is behind, want 2", boards)
	}
	return ""
}

// backAtArena waits until both boards follow the arena again, with everything.
func backAtArena(s *faultScene, _ *relay.Show) string {
	s.until("the arena to be followed again", followBoth(arenaFeed, len(goodLine)))
	return ""
}

// fromTheFuture answers with a Last-Modified that stays an hour ahead although the games
// move on, and to whoever asks with it that nothing has changed.
func fromTheFuture(s *faultScene) http.HandlerFunc {
	modified := time.Now().Add(time.Hour).UTC().Format(http.TimeFormat)
	var answered atomic.Bool
	return func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Last-Modified", modified)
		switch {
		case r.Header.Get("If-Modified-Since") == modified:
			w.WriteHeader(http.StatusNotModified)
		case answered.Swap(true):
			io.WriteString(w, s.packet(duringPlies, duringPlies))
		default:
			io.WriteString(w, s.packet(beforePlies, beforePlies))
		}
	}
}

var validatorRows = []faultRow{
	{name: "a tag that never changes", basis: "RFC 9110 §8.8.3: a tag must change with the content; a client cannot notice that it does not",
		serve: frozenTag, backup: true, rate: 60, ready: followBoth(arenaFeed, beforePlies),
		want: faultWant{until: followBoth(backupFeed, duringPlies), notes: noted(relay.NoteFeed), also: whyBackup, late: backAtArena}},
	{name: "modified in the future", basis: "RFC 9110 §8.8.2.1: an origin server must not say so; §13.1.3: a client may not rely on it", serve: fromTheFuture},
}
