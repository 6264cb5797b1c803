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
	"time"

	"clocktell/overlay/access"
	"clocktell/overlay/wire"
	"clocktell/relay"
)

// Limits of what people enter.
const (
	entryMost   = 16 << 10 // bytes of its JSON; a question's ID may hold a name from a feed
	entryIDMost = 64       // bytes of its ID
)

// entryParser reads one entry strictly. The error says what is wrong with it.
type entryParser func(body []byte, at time.Time) (id string, e relay.Event, err error)

// entering takes what people enter, one entry a request.
func (s *Server) entering(parse entryParser) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		refused := s.enter(w, r, parse)
		if refused != nil {
			s.Log.Info("entry refused", "at", r.Pattern, "from", r.RemoteAddr, "status", refused.status, "why", access.Redact(refused.text))
		}
		reply(w, refused)
	}
}

// reply says what became of a request to change something. It logs nothing: whoever has no
// token must not be able to fill the log.
func reply(w http.ResponseWriter, refused *refusal) {
	status, said := http.StatusOK, wire.EntryReply{Done: true}
	if refused != nil {
		status, said = refused.status, wire.EntryReply{Error: access.Redact(refused.text)} // it may say back what was sent
		refused.headers(w.Header())
	}
	w.Header().Set("Content-Type", "application/json")
	w.WriteHeader(status)
	w.Write(encode(said))
}

// enter reads an entry and brings it into the show.
func (s *Server) enter(w http.ResponseWriter, r *http.Request, parse entryParser) *refusal {
	if r.ContentLength != 0 && !isJSON(r.Header.Get("Content-Type")) {
		return &refusal{status: http.StatusUnsupportedMediaType, text: "an entry is sent as application/json, in UTF-8"}
	}
	body, refused := entryBody(w, r)
	if refused != nil {
		return refused
	}
	if s.Keys != nil && s.Keys.Holds(body) {
		return &refusal{status: http.StatusBadRequest, text: "the entry holds a token, which would be written down, and might go on the air; leave it out"}
	}
	id, entry, err := parse(body, s.Time.Now())
	if err == nil && (id == "" || len(id) > entryIDMost) {
		err = fmt.Errorf("an id has 1 to %d bytes, this one %d", entryIDMost, len(id))
	}
	if err != nil {
		return &refusal{status: http.StatusBadRequest, text: "entry not understood: " + err.Error()}
	}
	switch entered, err := s.Enter(r.Context(), id, entry); {
	case err != nil:
		return &refusal{status: http.StatusServiceUnavailable, text: "no answer from the show: " + err.Error()}
	case entered.Refused != "":
		return &refusal{status: http.StatusConflict, text: entered.Refused}
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
		return nil, &refusal{status: http.StatusRequestEntityTooLarge, text: fmt.Sprintf("an entry has at most %d bytes", entryMost)}
	case errors.Is(err, os.ErrDeadlineExceeded):
		return nil, &refusal{status: http.StatusRequestTimeout, text: fmt.Sprintf("the entry did not come whole within %v", requestWait)}
	}
	return nil, &refusal{status: http.StatusBadRequest, text: "the entry broke off: " + err.Error()}
}

// decodeEntry takes the fields of an entry and no others: a name misspelt must not pass
// for one left out.
func decodeEntry(body []byte, entry any) error {
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
