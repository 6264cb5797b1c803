package overlay

import (
	"bytes"
	"compress/gzip"
	"io/fs"
	"log/slog"
	"net/http"
	"path"
	"strconv"
	"strings"
	"sync"
)

// files serves what pages load: folders are not listed, scripts and styles go each as one
// text with all that they import, and go compressed to whoever takes that.
type files struct {
	from fs.FS
	raw  http.Handler
	log  *slog.Logger

	mu   sync.Mutex // protects following
	made map[string]served
}

// textTypes is what is served lean, and as what (RFC 9239 for scripts).
var textTypes = map[string]string{".js": "text/javascript; charset=utf-8", ".css": "text/css; charset=utf-8"}

// served is a text as it is sent, made when it is first asked for.
type served struct{ plain, zipped []byte }

func newFiles(from fs.FS, log *slog.Logger) *files {
	return &files{from: from, raw: http.FileServerFS(from), log: log, made: make(map[string]served)}
}

func (f *files) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	if r.URL.Path == "" || strings.HasSuffix(r.URL.Path, "/") {
		http.NotFound(w, r)
		return
	}
	if textTypes[path.Ext(r.URL.Path)] == "" {
		f.raw.ServeHTTP(w, r)
		return
	}
	f.text(w, r, strings.TrimPrefix(r.URL.Path, "/"))
}

// text sends a text, whole: who asks for a part of it gets all (RFC 9110 §14.2).
func (f *files) text(w http.ResponseWriter, r *http.Request, name string) {
	text, err := f.get(name)
	if err != nil {
		http.NotFound(w, r)
		return
	}
	body, head := text.plain, w.Header()
	if takesGzip(r.Header.Get("Accept-Encoding")) {
		head.Set("Content-Encoding", "gzip")
		body = text.zipped
	}
	head.Add("Vary", "Accept-Encoding")
	head.Set("Content-Type", textTypes[path.Ext(name)])
	head.Set("Content-Length", strconv.Itoa(len(body)))
	_, _ = w.Write(body) // a page that has gone needs nothing more
}

func (f *files) get(name string) (served, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	if text, known := f.made[name]; known {
		return text, nil
	}
	whole, err := fs.ReadFile(f.from, name)
	if err != nil {
		return served{}, err
	}
	plain, err := lean(f.from, name)
	if err != nil {
		f.log.Error("a page's file cannot be shortened and is sent as it is", "file", name, "err", err)
		plain = whole // a browser reads it too, piece by piece
	}
	text := served{plain: plain}
	var out bytes.Buffer
	z, _ := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if _, err := z.Write(text.plain); err != nil {
		return served{}, err
	}
	if err := z.Close(); err != nil {
		return served{}, err
	}
	text.zipped = out.Bytes()
	f.made[name] = text
	return text, nil
}

// takesGzip reads an Accept-Encoding (RFC 9110 §12.5.3): gzip is named, and not by a
// weight of nothing.
func takesGzip(accept string) bool {
	for coding := range strings.SplitSeq(accept, ",") {
		name, weight, _ := strings.Cut(strings.TrimSpace(coding), ";")
		if strings.EqualFold(strings.TrimSpace(name), "gzip") {
			_, q, _ := strings.Cut(weight, "=")
			return strings.Trim(q, " 0.") != "" || !strings.Contains(q, "0")
		}
	}
	return false
}
