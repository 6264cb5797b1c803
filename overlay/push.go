package overlay

import "net/http"

// pushed hands what is pushed to /push/NAME to the feed of that name.
func (s *Server) pushed(w http.ResponseWriter, r *http.Request) {
	feed, ok := s.Push[r.PathValue("feed")]
	if !ok {
		http.Error(w, "no feed of this name takes what is pushed; set push = true for it in the configuration", http.StatusNotFound)
		return
	}
	if err := s.origins.Check(r); err != nil {
		http.Error(w, "this request comes from a page of another address", http.StatusForbidden)
		return
	}
	feed.ServeHTTP(w, r)
}
