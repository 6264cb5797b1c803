package feed

import (
	"compress/gzip"
	"context"
	"errors"
	"io"
	"net/http"
	"strings"
)

// read reads the whole body and decodes it. The limit counts decoded bytes.
func (p *poll) read(ctx context.Context, resp *http.Response) ([]byte, *failure) {
	coded := rawLimit(p.o.MaxBytes)
	if resp.ContentLength > coded {
		return nil, p.tooLarge()
	}
	raw := &watched{from: http.MaxBytesReader(nil, resp.Body, coded)}
	plain, f := p.decoded(ctx, resp, raw)
	if f != nil {
		return nil, f
	}
	body, err := io.ReadAll(http.MaxBytesReader(nil, plain, p.o.MaxBytes))
	if err != nil {
		return nil, p.badBody(ctx, raw, err)
	}
	return body, nil
}

// rawLimit is how many bytes may come over the line for limit decoded ones. gzip
// can grow what it cannot shrink, by 5 bytes per block and 18 around all [RFC 1951 §3.2.4,
// RFC 1952 §2.3]; an endless row of empty members must end somewhere too.
func rawLimit(limit int64) int64 { return limit + limit/64 + 1024 }

// decoded wraps raw according to its Content-Encoding.
func (p *poll) decoded(ctx context.Context, resp *http.Response, raw *watched) (io.ReadCloser, *failure) {
	switch coding := strings.ToLower(resp.Header.Get("Content-Encoding")); coding {
	case "", "identity":
		return io.NopCloser(raw), nil
	case "gzip", "x-gzip":
		plain, err := gzip.NewReader(raw)
		if err != nil {
			return nil, p.badBody(ctx, raw, err)
		}
		return plain, nil
	default:
		return nil, p.fail(ReasonMalformed, "the answer is coded as %.20q, which nobody asked for; switch that off in the arena's server", coding)
	}
}

// watched remembers how the line failed, because the decoder above it reports
// a line that ends early as a broken file of its own.
type watched struct {
	from io.Reader
	got  int64
	err  error // other than io.EOF
}

func (w *watched) Read(b []byte) (int, error) {
	n, err := w.from.Read(b)
	w.got += int64(n)
	if err != nil && err != io.EOF {
		w.err = err
	}
	return n, err
}

// badBody classes an error met while reading the body.
func (p *poll) badBody(ctx context.Context, raw *watched, err error) *failure {
	tooLarge := (*http.MaxBytesError)(nil)
	switch {
	case ctx.Err() != nil:
		return p.timedOut()
	case errors.As(err, &tooLarge):
		return p.tooLarge()
	case raw.err == nil:
		return p.fail(ReasonMalformed, "the answer's gzip is broken (%v); if it stays, switch compression off in the arena's server or the proxy between", err)
	case strings.Contains(raw.err.Error(), "chunk"): // net/http exports no name for these
		return p.fail(ReasonMalformed, "the answer's chunks are broken (%v); if it stays, look at the arena's server or the proxy between", raw.err)
	}
	return p.fail(ReasonCut, "the answer ended early, after %d bytes (%v); if it stays, look at the arena's server or the line to it", raw.got, raw.err)
}
