package feed

import (
	"errors"
	"fmt"
	"io"
	"net/http"
	"os"
)

// read reads the body of a push, decoded, within the timeout set before.
func (p *Push) read(w http.ResponseWriter, r *http.Request) ([]byte, *refusal) {
	if r.Header.Get("Content-Range") != "" { // RFC 9110 §14.5
		return nil, &refusal{status: http.StatusBadRequest, reason: ReasonMalformed, text: "Content-Range names a part; push the whole PGN as the body"}
	}
	coded := rawLimit(p.o.MaxBytes)
	if r.ContentLength > coded {
		return nil, p.tooLarge()
	}
	raw := &watched{from: http.MaxBytesReader(w, r.Body, coded)}
	plain, err := unpacked(codingOf(r.Header), raw)
	if err == nil {
		var body []byte
		if body, err = io.ReadAll(http.MaxBytesReader(nil, io.NopCloser(plain), p.o.MaxBytes)); err == nil {
			return body, nil
		}
	}
	return nil, p.badBody(raw, err)
}

// badBody classes an error met while reading the body.
func (p *Push) badBody(raw *watched, err error) *refusal {
	tooLarge, coding := (*http.MaxBytesError)(nil), (*codingError)(nil)
	switch {
	case errors.As(err, &tooLarge):
		return p.tooLarge()
	case errors.As(err, &coding): // what it can take is RFC 9110 §15.5.16's
		return &refusal{status: http.StatusUnsupportedMediaType, reason: ReasonMalformed, text: fmt.Sprintf("the body is %v; send it plain or as gzip", coding), header: [2]string{"Accept-Encoding", "gzip"}}
	case errors.Is(raw.err, os.ErrDeadlineExceeded):
		return &refusal{status: http.StatusRequestTimeout, reason: ReasonTimeout, text: fmt.Sprintf("no complete body within %s", seconds(p.o.Timeout)), header: [2]string{"Connection", "close"}}
	case raw.err == nil:
		return &refusal{status: http.StatusBadRequest, reason: ReasonMalformed, text: fmt.Sprintf("the body's gzip is broken (%v)", err)}
	}
	return &refusal{status: http.StatusBadRequest, reason: ReasonCut, text: fmt.Sprintf("the body ended early, after %d bytes (%v)", raw.got, raw.err)}
}

func (p *Push) tooLarge() *refusal {
	return &refusal{status: http.StatusRequestEntityTooLarge, reason: ReasonTooLarge, text: fmt.Sprintf("the body is larger than %d bytes; is it the PGN? If so, raise the size limit", p.o.MaxBytes)}
}
