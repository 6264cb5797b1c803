package feed

import (
	"context"
	"errors"
	"io"
	"net/http"
	"strings"
)

// read reads the whole body and decodes it. The limit counts decoded bytes.
func (p *poll) read(ctx context.Context, resp *http.Response) ([]byte, *failure) {
	raw, f := p.raw(resp)
	if f != nil {
		return nil, f
	}
	plain, err := unpacked(codingOf(resp.Header), raw)
	if err != nil {
		return nil, p.badBody(ctx, raw, err)
	}
	body, err := io.ReadAll(http.MaxBytesReader(nil, io.NopCloser(plain), p.o.MaxBytes))
	if err != nil {
		return nil, p.badBody(ctx, raw, err)
	}
	return body, nil
}

// raw limits what comes over the line, if its length was not announced as too much.
func (h *HTTP) raw(resp *http.Response) (*watched, *failure) {
	limit := rawLimit(h.o.MaxBytes)
	if resp.ContentLength > limit {
		return nil, h.tooLarge()
	}
	return &watched{from: http.MaxBytesReader(nil, resp.Body, limit)}, nil
}

// badBody classes an error met while reading the body.
func (h *HTTP) badBody(ctx context.Context, raw *watched, err error) *failure {
	tooLarge, coding := (*http.MaxBytesError)(nil), (*codingError)(nil)
	switch {
	case ctx.Err() != nil:
		return h.timedOut()
	case errors.As(err, &tooLarge):
		return h.tooLarge()
	case errors.As(err, &coding):
		return h.fail(ReasonMalformed, "the answer is %v, which nobody asked for; switch that off in the arena's server", coding)
	case raw.err == nil:
		return h.fail(ReasonMalformed, "the answer's gzip is broken (%v); if it stays, switch compression off in the arena's server or the proxy between", err)
	case strings.Contains(raw.err.Error(), "chunk"): // net/http exports no name for these
		return h.fail(ReasonMalformed, "the answer's chunks are broken (%v); if it stays, look at the arena's server or the proxy between", raw.err)
	}
	return h.fail(ReasonCut, "the answer ended early, after %d bytes (%v); if it stays, look at the arena's server or the line to it", raw.got, raw.err)
}
