package overlay

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"maps"
	"mime"
	"net/http"
	"os"
	"slices"
	"strings"

	"clocktell/overlay/wire"
	"clocktell/relay"
	"clocktell/relay/clock"
)

// Limits of an entry by hand.
const (
	entryMost   = 16 << 10 // bytes of its JSON; a question's ID may hold a name from a feed
	entryIDMost = 64       // bytes of its ID
)

// byHand takes what the producer enters (POST /by-hand). loopback says that only
// this machine reaches the server.
func (s *Server) byHand(loopback bool) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		refused := s.mayEnter(r, loopback)
		if refused == nil {
			refused = s.enter(w, r)
		}
		status, reply := http.StatusOK, wire.EntryReply{Done: true}
		if refused != nil {
			status, reply = refused.status, wire.EntryReply{Error: refused.text}
			s.Log.Info("entry refused", "from", r.RemoteAddr, "status", status, "why", refused.text)
		}
		if status == http.StatusUnauthorized {
			w.Header().Set("WWW-Authenticate", `Bearer realm="clocktell"`) // RFC 9110, 15.5.2: must be there
		}
		w.Header().Set("Content-Type", "application/json")
		w.WriteHeader(status)
		w.Write(encode(reply))
	}
}

// enter reads an entry and brings it into the show.
func (s *Server) enter(w http.ResponseWriter, r *http.Request) *refusal {
	if !isJSON(r.Header.Get("Content-Type")) {
		return &refusal{http.StatusUnsupportedMediaType, "an entry is sent as application/json, in UTF-8"}
	}
	body, refused := entryBody(w, r)
	if refused != nil {
		return refused
	}
	entry, err := parseEntry(body)
	if err != nil {
		return &refusal{http.StatusBadRequest, "entry not understood: " + err.Error()}
	}
	entry.At = s.Time.Now()
	switch entered, err := s.ByHand(r.Context(), entry); {
	case err != nil:
		return &refusal{http.StatusServiceUnavailable, "no answer from the show: " + err.Error()}
	case entered.Refused != "":
		return &refusal{http.StatusConflict, entered.Refused}
	}
	return nil
}

func isJSON(contentType string) bool {
	media, params, err := mime.ParseMediaType(contentType)
	charset, given := params["charset"]
	return err == nil && media == "application/json" && (!given || strings.EqualFold(charset, "utf-8"))
}

func entryBody(w http.ResponseWriter, r *http.Request) ([]byte, *refusal) {
	body, err := io.ReadAll(http.MaxBytesReader(w, r.Body, entryMost))
	switch {
	case err == nil:
		return body, nil
	case errors.As(err, new(*http.MaxBytesError)):
		return nil, &refusal{http.StatusRequestEntityTooLarge, fmt.Sprintf("an entry has at most %d bytes", entryMost)}
	case errors.Is(err, os.ErrDeadlineExceeded):
		return nil, &refusal{http.StatusRequestTimeout, fmt.Sprintf("the entry did not come whole within %v", requestWait)}
	}
	return nil, &refusal{http.StatusBadRequest, "the entry broke off: " + err.Error()}
}

// parseEntry reads an entry strictly. The error says what is wrong with it.
func parseEntry(body []byte) (relay.ByHand, error) {
	var entry wire.Entry
	if err := decodeEntry(body, &entry); err != nil {
		return relay.ByHand{}, err
	}
	e := relay.ByHand{
		ID: entry.ID, Board: entry.Board, Act: relay.Act(entry.Act), Ply: entry.Ply, SAN: entry.SAN,
		Side: entry.Side, Text: entry.Text, Feed: entry.Feed, Keep: entry.Keep, Asked: entry.Asked,
	}
	switch {
	case e.ID == "" || len(e.ID) > entryIDMost:
		return e, fmt.Errorf("an id has 1 to %d bytes, this one %d", entryIDMost, len(e.ID))
	case !slices.Contains(relay.Acts, e.Act):
		return e, fmt.Errorf("there is no act %q; the acts are %v", e.Act, relay.Acts)
	case e.Act == relay.ActClock:
		left, err := clock.ParseReading(entry.Clock)
		e.Left = left
		return e, err
	}
	return e, nil
}

// decodeEntry takes the fields of wire.Entry and no others: a name misspelt must not
// pass for one left out.
func decodeEntry(body []byte, entry *wire.Entry) error {
	var fields, known map[string]json.RawMessage
	if err := json.Unmarshal(body, &fields); err != nil {
		return errors.New("it is not one JSON object")
	}
	if err := json.Unmarshal(encode(entry), &known); err != nil {
		panic(err) // we wrote it ourselves
	}
	for _, name := range slices.Sorted(maps.Keys(fields)) {
		if _, ok := known[name]; !ok {
			return fmt.Errorf("there is no field %q", name)
		}
	}
	err := json.Unmarshal(body, entry)
	if wrong := new(json.UnmarshalTypeError); errors.As(err, &wrong) {
		return fmt.Errorf("field %q holds a %s, which it cannot", wrong.Field, wrong.Value)
	}
	return err
}
