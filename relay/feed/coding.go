package feed

import (
	"compress/gzip"
	"fmt"
	"io"
	"net/http"
	"strings"
)

// codingOf is the Content-Encoding, several lines of it as one list [RFC 9110 §5.3].
func codingOf(h http.Header) string {
	return strings.ToLower(strings.Join(h.Values("Content-Encoding"), ","))
}

// isGzip knows the old name too, which counts as the same [RFC 9110 §8.4.1.3].
func isGzip(coding string) bool { return coding == "gzip" || coding == "x-gzip" }

// codingError says that content is coded in a way that is not read here.
type codingError struct{ coding string }

func (e *codingError) Error() string { return fmt.Sprintf("coded as %.20q", e.coding) }

// unpacked decodes raw. It may read the beginning of it at once.
func unpacked(coding string, raw io.Reader) (io.Reader, error) {
	switch {
	case coding == "" || coding == "identity":
		return raw, nil
	case isGzip(coding):
		return gzip.NewReader(raw)
	}
	return nil, &codingError{coding}
}

// rawLimit is how many bytes may come over the line for limit decoded ones. gzip
// can grow what it cannot shrink, by 5 bytes per block and 18 around all [RFC 1951 §3.2.4,
// RFC 1952 §2.3]; an endless row of empty members must end somewhere too.
func rawLimit(limit int64) int64 { return limit + limit/64 + 1024 }

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
