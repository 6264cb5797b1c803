package overlay

import (
	"bytes"
	"fmt"
	"html/template"
	"math"
	"net/http"
	"net/url"
	"strconv"

	"clocktell/overlay/access"
)

// againKey in a page's address says that the browser has come back by itself.
const againKey = "again"

// headers tells programs why they were refused (RFC 9110, 11.6.1 and 10.2.3; RFC 6750, 3).
func (f *refusal) headers(h http.Header) {
	h.Set("Cache-Control", "no-store")
	if f.status == http.StatusUnauthorized || f.why != "" {
		challenge := `Bearer realm="clocktell"`
		if f.why != "" {
			challenge += `, error="` + f.why + `"`
		}
		h.Set("WWW-Authenticate", challenge)
	}
	if f.retry > 0 {
		h.Set("Retry-After", strconv.Itoa(int(math.Ceil(f.retry.Seconds()))))
	}
}

// pageWords are the words of the page that says no.
type pageWords struct {
	Page  string // its name as people say it
	Title string
	Why   string
	Do    []string // what to do, step by step
	Path  string   // of the page; "" there is no use in trying again
	Again string   // where the browser is to go by itself; "" nowhere
}

var pageTitles = map[string]string{"panel": "panel", "desk": "desk", "health": "health page"}

// wordsFor says to people why a page does not open, and what to do.
func wordsFor(d door, refused *refusal) pageWords {
	name := pageTitles[d.page]
	if name == "" {
		name = "scene"
	}
	link := fmt.Sprintf("Ask the producer for the %s’s link, and open it here once.", d.role)
	words := pageWords{Page: name, Title: "This " + name + " needs its link", Path: "/" + d.page}
	switch {
	case d.role == access.Producer:
		link = "The producer’s link opens it. On the machine of the relay, clocktell tokens --renew producer makes a new one."
	case isScene(d.page):
		link = "Ask the producer for the address of this scene, and put it into the streaming software. The health page makes it."
	}
	switch {
	case refused.status == http.StatusForbidden && refused.role != access.Nobody:
		words.Why = fmt.Sprintf("The link that you have opened is the %s’s. It does not open the %s.", refused.role, name)
		words.Do = []string{link, "It adds to what you can open here, and takes nothing away."}
	case refused.status == http.StatusForbidden:
		words.Title, words.Why, words.Path = "This page cannot be opened from there", sentence(refused.text), ""
	case refused.status == http.StatusTooManyRequests:
		words.Title = "Too many wrong links"
		words.Why = "From your address more wrong links have come in the last minute than people open by mistake."
		words.Do = []string{link, "A right link is taken at once."}
	case refused.status == http.StatusBadRequest:
		words.Title, words.Why, words.Path = "This link is not in order", sentence(refused.text), ""
		words.Do = []string{link}
	case refused.why != "":
		words.Title = "This link is not valid any more"
		words.Why = "Its token is not known here: it may have been renewed, or cut short on the way."
		words.Do = []string{link}
	default:
		words.Why = "Nothing on this device says yet that you may open it."
		words.Do = []string{link, "With a tablet or a phone, scan the code that the producer has on the screen."}
	}
	return words
}

// refusePage says no on a page of its own. Who has come by a link on another site has
// not sent the cookie (RFC 6265bis, 5.2 and 8.8.3): that browser comes back once, from us.
func (s *Server) refusePage(w http.ResponseWriter, r *http.Request, d door, refused *refusal) {
	words := wordsFor(d, refused)
	query := r.URL.Query()
	if s.Keys != nil && !d.inAddress && refused.status == http.StatusUnauthorized && s.cookie(r).token == "" && !query.Has(againKey) && !query.Has("token") {
		query.Set(againKey, "")
		words.Again = "/" + d.page + "?" + query.Encode()
	}
	refused.headers(w.Header())
	words.write(w, refused.status)
}

// comeBack has a browser open a page's link once more, this time from us, so that it shows
// the cookie that it may have already: the link must not put a lower token in its place.
func (s *Server) comeBack(w http.ResponseWriter, d door, query url.Values) {
	query.Set(againKey, "")
	address := "/" + d.page + "?" + query.Encode()
	w.Header().Set("Cache-Control", "no-store")
	pageWords{Page: pageTitles[d.page], Title: "One moment", Why: "This page opens by itself.", Path: address, Again: address}.write(w, http.StatusOK)
}

func (words pageWords) write(w http.ResponseWriter, status int) {
	var body bytes.Buffer
	if err := refusedPage.Execute(&body, words); err != nil {
		panic(err) // texts of our own in a template of our own
	}
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	w.WriteHeader(status)
	_, _ = w.Write(body.Bytes())
}

func sentence(text string) string {
	return string(bytes.ToUpper([]byte(text[:1]))) + text[1:] + "."
}

var refusedPage = template.Must(template.New("refused").Parse(`<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8">
    <meta name="viewport" content="width=device-width, initial-scale=1">
    <meta name="color-scheme" content="dark">
    <meta name="robots" content="noindex">
{{- if .Again}}
    <meta http-equiv="refresh" content="0;url={{.Again}}">
{{- end}}
    <title>{{.Title}}</title>
    <link rel="icon" href="/static/surface/icon.svg">
    <link rel="stylesheet" href="/static/refused/page.css">
  </head>
  <body>
    <main>
      <p class="from">clocktell</p>
      <h1>{{.Title}}</h1>
      <p class="why">{{.Why}}</p>
{{- if .Do}}
      <ul>
{{- range .Do}}
        <li>{{.}}</li>
{{- end}}
      </ul>
{{- end}}
{{- if .Path}}
      <p><a class="button" href="{{.Path}}">Try the {{.Page}} again</a></p>
{{- end}}
    </main>
  </body>
</html>
`))
