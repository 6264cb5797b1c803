package overlay

import (
	"bytes"
	"log/slog"
	"net/http"
	"strconv"
)

// recap answers with the recap of the show so far, as an archive to be saved.
func (s *Server) recap(w http.ResponseWriter, r *http.Request) {
	var out bytes.Buffer
	if err := s.Recap(r.Context(), &out); err != nil {
		s.Log.Warn("recap", slog.Any("err", err))
		http.Error(w, err.Error(), http.StatusConflict)
		return
	}
	h := w.Header()
	h.Set("Content-Type", "application/zip")
	h.Set("Content-Disposition", `attachment; filename="recap.zip"`)
	h.Set("Content-Length", strconv.Itoa(out.Len()))
	h.Set("Cache-Control", "no-store")
	w.Write(out.Bytes()) // whoever asked may be gone
}
