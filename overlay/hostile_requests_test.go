package overlay

import (
	"fmt"
	"io/fs"
	"regexp"
	"strings"
	"testing/fstest"
	"time"
)

// longFile is more than any buffer on the way takes.
const longFile = 4 << 20

// withLongFile adds a long file, and a file that nobody may have, beside what is served.
func withLongFile(from fs.FS) fs.FS {
	files := from.(fstest.MapFS)
	files["lib/long.bin"] = &fstest.MapFile{Data: make([]byte, longFile)}
	return files
}

// ask is a request without a body.
func ask(method, path string, head ...string) string {
	return method + " " + path + " HTTP/1.1\r\n" + heads(head...) + "\r\n"
}

// placeholder stands for a token, of 32 letters.
var placeholder = regexp.MustCompile(`\{(viewer|panel|desk|producer|stale)\}`)

// put is a request of method POST with a body.
func put(path, body string, head ...string) string {
	return "POST " + path + " HTTP/1.1\r\n" + heads(append(head, "Content-Type: application/json", fmt.Sprintf("Content-Length: %d", len(placeholder.ReplaceAllString(body, strings.Repeat("x", 32)))))...) + "\r\n" + body
}

func heads(head ...string) string {
	return "Host: 127.0.0.1:8600\r\n" + strings.Join(append(head, "Connection: close"), "\r\n") + "\r\n"
}

const (
	viewerCookie   = "Cookie: clocktell-8600={viewer}"
	panelCookie    = "Cookie: clocktell-8600={panel}"
	deskCookie     = "Cookie: clocktell-8600={desk}"
	producerCookie = "Cookie: clocktell-8600={producer}"
	producerBearer = "Authorization: Bearer {producer}"
	badMove        = `{"id":"h1","board":1,"act":"move","ply":3,"san":"Nf3"}`
)

// hostileForms are requests that are none: RFC 9110 and RFC 9112.
func hostileForms() []hostile {
	many := func(n int, line string) string { return strings.Repeat(line+"\r\n", n) }
	raw := func(start string, head string) string { return start + "\r\n" + head + "\r\n" }
	const host = "Host: 127.0.0.1:8600\r\n"
	return []hostile{
		{name: "no Host (RFC 9112, 3.2)", send: raw("GET /panel HTTP/1.1", ""), want: "400"},
		{name: "two Hosts (RFC 9112, 3.2)", send: raw("GET /panel HTTP/1.1", host+"Host: other.example\r\n"), want: "400"},
		{name: "a Host that writes into the policy", send: raw("GET /scene/board?token={viewer} HTTP/1.1", "Host: a;script-src *\r\n"), want: "400", lacks: "script-src *"},
		{name: "a Host with a path", send: raw("GET /panel HTTP/1.1", "Host: a/b\r\n"), want: "400"},
		{name: "HTTP/1.0 without a Host", send: raw("GET /panel HTTP/1.0", ""), want: "400"},
		{name: "another host's absolute form (RFC 9112, 3.2.2)", send: raw("GET http://elsewhere.example/panel HTTP/1.1", host+"Connection: close\r\n"), want: "401", lacks: "<p>panel"},
		{name: "a version that there is not", send: raw("GET / HTTP/9.9", host), want: "505"},
		{name: "a handshake of TLS where there is none", send: "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03\r\n\r\n", want: "400"},
		{name: "a preface of HTTP/2 (RFC 9113, 3.4)", send: "PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n", want: "400"},
		{name: "an unknown method", send: ask("BREW", "/panel"), want: "405"},
		{name: "TRACE (RFC 9110, 9.3.8)", send: ask("TRACE", "/panel", "Cookie: x=secret"), want: "405", lacks: "secret"},
		{name: "CONNECT to elsewhere (RFC 9110, 9.3.6)", send: raw("CONNECT elsewhere.example:443 HTTP/1.1", host+"Connection: close\r\n"), want: "405"},
		{name: "DELETE of a page", send: ask("DELETE", "/panel", producerCookie), want: "405"},
		{name: "a space in a field's name (RFC 9112, 5.1)", send: ask("GET", "/panel", "Bad Field: x"), want: "400"},
		{name: "NUL in a field (RFC 9110, 5.5)", send: ask("GET", "/panel", "X: a\x00b"), want: "400"},
		{name: "CR alone in a field (RFC 9110, 5.5)", send: ask("GET", "/panel", "X: a\rSet-Cookie: y=z"), want: "400", lacks: "y=z"},
		{name: "an expectation that is not known (RFC 9110, 10.1.1)", send: ask("GET", "/panel", "Expect: 200-maybe"), want: "417"},
		{name: "a header of 64 KiB (RFC 6585, 5)", send: ask("GET", "/panel", "X: "+strings.Repeat("x", 64<<10)), want: "431"},
		{name: "5000 fields (RFC 6585, 5)", send: raw("GET /panel HTTP/1.1", host+many(5000, "A: b")), want: "431"},
		{name: "one field too many (RFC 6585, 5)", send: raw("GET /panel HTTP/1.1", host+many(headersMost, "A: b")+"Connection: close\r\n"), want: "431", says: "at most 100"},
		{name: "an address of 64 KiB", send: ask("GET", "/panel?x="+strings.Repeat("x", 64<<10)), want: "431"},
		{name: "a cookie of 100 kB", send: ask("GET", "/panel", "Cookie: clocktell-8600="+strings.Repeat("A", 100_000)), want: "431"},
		{name: "two lengths (RFC 9112, 6.3)", send: ask("POST", "/at-panel", "Content-Length: 3", "Content-Length: 5", producerBearer) + "abcde", want: "400"},
		{name: "a negative length (RFC 9110, 8.6)", send: ask("POST", "/at-panel", "Content-Length: -3", producerBearer), want: "400"},
		{name: "an unknown coding (RFC 9112, 6.1)", send: ask("POST", "/at-panel", "Transfer-Encoding: gzip", producerBearer), want: "501"},
		{name: "a chunk of 2^68 bytes (RFC 9112, 7.1)", send: ask("POST", "/by-hand", "Transfer-Encoding: chunked", "Content-Type: application/json", producerBearer) + "FFFFFFFFFFFFFFFFF\r\n", want: "400"},
		{name: "chunks without end", send: ask("POST", "/by-hand", "Transfer-Encoding: chunked", "Content-Type: application/json", producerBearer) + strings.Repeat("400\r\n"+strings.Repeat("x", 1024)+"\r\n", 64), want: "413"},
		{name: "a second request in the body of the first (RFC 9112, 11.2)", send: put("/by-hand", ask("POST", "/by-hand", producerBearer)), want: "401", lacks: `"done":true`},
	}
}

// hostilePaths are ways around the routes: RFC 3986.
func hostilePaths() []hostile {
	as := func(cookie, path string) string { return ask("GET", path, cookie) }
	return []hostile{
		{name: "up and out", send: as(producerCookie, "/static/../../go.mod"), want: "307", lacks: "module"},
		{name: "up and out, encoded (RFC 3986, 2.1)", send: as(producerCookie, "/static/%2e%2e/%2e%2e/go.mod"), want: "404", lacks: "module"},
		{name: "up and out, slashes encoded too", send: as(producerCookie, "/static/..%2f..%2fgo.mod"), want: "404", lacks: "module"},
		{name: "up and out, encoded twice", send: as(producerCookie, "/static/%252e%252e%252fgo.mod"), want: "404"},
		{name: "up and out, backslashes", send: as(producerCookie, `/static/..%5c..%5cgo.mod`), want: "404"},
		{name: "an absolute path", send: as(producerCookie, "/static/%2fetc/passwd"), want: "404", lacks: "root:"},
		{name: "NUL in a path", send: as(producerCookie, "/panel%00"), want: "404"},
		{name: "NUL before another ending", send: as(producerCookie, "/static/lib/x.js%00.css"), want: "404"},
		{name: "a line end in a path", send: as(producerCookie, "/panel%0d%0aSet-Cookie:%20a=b"), want: "404", lacks: "\nSet-Cookie: a=b"},
		{name: "a listing", send: as(producerCookie, "/static/lib/"), want: "404"},
		{name: "two slashes", send: as(viewerCookie, "//panel"), want: "307", says: "Location: /panel\r\n"},
		{name: "a redirect to elsewhere (RFC 3986, 4.2)", send: as(viewerCookie, "//elsewhere.example/..//panel/"), want: "307", lacks: "Location: //"},
		{name: "a redirect to elsewhere by the token's address", send: ask("GET", "//elsewhere.example/panel?token={panel}"), want: "307", lacks: "Location: //", may: "{panel}"},
		{name: "through an open page to a shut one", send: as(viewerCookie, "/scene/board/../../health"), want: "307", says: "Location: /health\r\n"},
		{name: "the same, encoded", send: as(viewerCookie, "/scene/board/%2e%2e/%2e%2e/health"), want: "404", lacks: "<p>health"},
		{name: "a shut page, in other letters", send: as(viewerCookie, "/HEALTH"), want: "404"},
		{name: "a shut page, encoded", send: as(viewerCookie, "/%68ealth"), want: "403", lacks: "<p>health"},
		{name: "a shut page with a parameter of its path", send: as(viewerCookie, "/health;x=y"), want: "404"},
		{name: "a shut page with a slash", send: as(viewerCookie, "/health/"), want: "302", lacks: "<p>health"},
		{name: "a shut page's document", send: as(viewerCookie, "/static/health/index.html"), want: "301", lacks: "<p>health"},
		{name: "another action under an allowed one", send: put("/api/actions/to-live/../../../by-hand", badMove, deskCookie), want: "307", lacks: `"done":true`},
		{name: "an action that there is not", send: put("/api/actions/%2e%2e%2fby-hand", badMove, deskCookie), want: "404", lacks: `"done":true`},
		{name: "the method in a field", send: ask("GET", "/by-hand", "X-HTTP-Method-Override: POST", producerBearer), want: "405"},
		{name: "the path in a field", send: ask("GET", "/favicon.ico", "X-Original-URL: /health", "X-Rewrite-URL: /health"), want: "204"},
	}
}

// hostileTokens are wrong, missing and misplaced tokens, and pages of others: RFC 6750 and
// RFC 6265bis.
func hostileTokens() []hostile {
	challenge := `Www-Authenticate: Bearer realm="clocktell"`
	const ours = "Origin: http://127.0.0.1:8600"
	rows := []hostile{
		{name: "no token (RFC 6750, 3.1: without a code)", send: ask("GET", "/panel"), want: "401", says: challenge + "\r\n"},
		{name: "no token at the metrics", send: ask("GET", "/metrics"), want: "401", lacks: "figures"},
		{name: "a stale cookie", send: ask("GET", "/panel", "Cookie: clocktell-8600={stale}"), want: "401", says: challenge + `, error="invalid_token"`},
		{name: "a stale link", send: ask("GET", "/panel?token={stale}"), want: "401", says: "not valid any more"},
		{name: "the viewers' cookie at the panel", send: ask("GET", "/panel", viewerCookie), want: "403", says: `error="insufficient_scope"`},
		{name: "the viewers' link at the panel", send: ask("GET", "/panel?token={viewer}"), want: "403", says: "Ask the producer for the panel’s link"},
		{name: "the panel's cookie at the desk", send: ask("GET", "/desk", panelCookie), want: "403"},
		{name: "the desk's cookie at the health page", send: ask("GET", "/health", deskCookie), want: "403"},
		{name: "the desk's cookie at the metrics", send: ask("GET", "/metrics", deskCookie), want: "403", lacks: "figures"},
		{name: "the panel's token at an action", send: put("/api/actions/to-live", "", "Authorization: Bearer {panel}"), want: "403"},
		{name: "the desk's token by hand", send: put("/by-hand", badMove, "Authorization: Bearer {desk}"), want: "403"},
		{name: "the desk renews the producer's token", send: put("/api/access/producer", "", "Authorization: Bearer {desk}"), want: "403"},
		{name: "the desk asks for the viewers' token", send: ask("GET", "/api/access", "Authorization: Bearer {desk}"), want: "403"},
		{name: "the producer's token in a call's address", send: put("/by-hand?token={producer}", badMove), want: "401"},
		{name: "the producer's token in the address of the metrics", send: ask("GET", "/metrics?token={producer}"), want: "401", lacks: "figures"},
		{name: "the token as a password (RFC 7617)", send: ask("GET", "/metrics", "Authorization: Basic {producer}"), want: "401"},
		{name: "the token in a field of another name", send: ask("GET", "/metrics", "X-Api-Key: {producer}"), want: "401"},
		{name: "the token in a form (RFC 6750, 2.2)", send: put("/by-hand", "access_token={producer}"), want: "401"},
		{name: "the token in two places (RFC 6750, 2)", send: ask("GET", "/scene/board?token={viewer}", "Authorization: Bearer {viewer}"), want: "400", says: `error="invalid_request"`},
		{name: "two fields of tokens", send: ask("GET", "/metrics", "Authorization: Bearer {viewer}", producerBearer), want: "400", lacks: "figures"},
		{name: "two tokens in an address", send: ask("GET", "/scene/board?token=x&token={viewer}"), want: "400"},
		{name: "the token in quotes (RFC 6750, 2.1)", send: ask("GET", "/metrics", `Authorization: Bearer "{producer}"`), want: "401"},
		{name: "the token in small letters", send: ask("GET", "/panel", "Authorization: Bearer {lower}"), want: "401"},
		{name: "the start of the token", send: ask("GET", "/panel", "Authorization: Bearer {pan}"), want: "401"},
		{name: "more than the token", send: ask("GET", "/panel", "Authorization: Bearer {panel}A"), want: "401"},
		{name: "an empty token", send: ask("GET", "/panel", "Authorization: Bearer "), want: "401"},
		{name: "a wrong token beside a right cookie", send: ask("GET", "/panel", "Authorization: Bearer x", panelCookie), want: "401"},
		{name: "the cookie of another port's relay (RFC 6265bis, 8.5)", send: ask("GET", "/panel", "Cookie: clocktell-8601={panel}"), want: "401"},
		{name: "the right one behind four wrong cookies", send: ask("GET", "/panel", "Cookie: "+strings.Repeat("clocktell-8600=x; ", cookiesMost)+"clocktell-8600={panel}"), want: "401"},
		{name: "a page of another site with the cookie", send: put("/by-hand", badMove, producerCookie, "Origin: https://elsewhere.example"), want: "403", says: "another address"},
		{name: "a page of another site, by its metadata", send: put("/by-hand", badMove, producerCookie, "Sec-Fetch-Site: cross-site"), want: "403"},
		{name: "a page without an origin", send: put("/by-hand", badMove, producerCookie, "Origin: null"), want: "403"},
		{name: "a page of another port", send: put("/by-hand", badMove, producerCookie, "Origin: http://127.0.0.1:9999"), want: "403"},
		{name: "a page of another site renews a token", send: put("/api/access/panel", "", producerCookie, "Origin: https://elsewhere.example"), want: "403"},
		{name: "a form of another site", send: ask("POST", "/api/actions/to-live", deskCookie, "Content-Length: 0", "Origin: https://elsewhere.example"), want: "403"},
		{name: "a question whether another site may (Fetch, 3.2)", send: ask("OPTIONS", "/by-hand", "Origin: https://elsewhere.example", "Access-Control-Request-Method: POST"), want: "405", lacks: "Access-Control"},
		{name: "a socket of another site (RFC 6455, 10.2)", send: shake("page=panel", panelCookie, "Origin: https://elsewhere.example"), want: "403"},
		{name: "a socket without an origin", send: shake("page=panel", panelCookie, "Origin: null"), want: "403"},
		{name: "a scene of another site", send: shake("page=scene/board&token={viewer}", "Origin: https://elsewhere.example"), want: "403"},
		{name: "a socket without a token", send: shake("page=panel", ours), want: "401"},
		{name: "the panel's socket with a token in its address", send: shake("page=panel&token={panel}", ours), want: "401"},
		{name: "the health page's socket for the desk", send: shake("page=health", deskCookie, ours), want: "403"},
		{name: "the panel's socket for viewers", send: shake("page=panel", viewerCookie, ours), want: "403"},
		{name: "the health page's socket as a scene's", send: shake("page=scene/../health&token={viewer}"), want: "close 4000", socket: true},
		{name: "a push without its token", send: put("/push/hall", "x"), want: "401"},
		{name: "a push with the producer's token to no feed", send: put("/push/none", "x", producerBearer), want: "404"},
	}
	guesses := ""
	for n := range 11 {
		guesses += strings.Replace(ask("GET", fmt.Sprintf("/scene/board?token=GUESS%d", n)), "Connection: close\r\n", "", 1)
	}
	return append(rows, hostile{name: "eleven guesses (RFC 6585, 4)", send: guesses + ask("GET", "/metrics", "Authorization: Bearer x"), want: "401", says: "\r\nRetry-After: "})
}

// hostileEntries are bodies from people who may send them.
func hostileEntries() []hostile {
	by := func(body string, head ...string) string {
		return put("/by-hand", body, append(head, producerBearer)...)
	}
	note := func(text string) string {
		return put("/at-panel", `{"id":"n`+fmt.Sprint(len(text))+`","who":"Nadja","act":"note","text":"`+text+`"}`, "Authorization: Bearer {panel}")
	}
	const script = `<script>alert(1)</script>`
	return []hostile{
		{name: "an entry too long", send: by(padded(entryMost + 1)), want: "413"},
		{name: "ten gigabytes announced", send: ask("POST", "/by-hand", "Content-Type: application/json", "Content-Length: 10000000000", producerBearer) + "{", want: "408", within: requestWait},
		{name: "brackets 15,000 deep", send: by(strings.Repeat("[", 15_000)), want: "400"},
		{name: "braces 4,000 deep", send: by(strings.Repeat(`{"a":`, 3_000)), want: "400"},
		{name: "a number that is none", send: by(`{"id":"h","board":1e999,"act":"thaw"}`), want: "400"},
		{name: "a name twice, in other letters", send: by(`{"id":"h","board":1,"ACT":"thaw"}`), want: "400"},
		{name: "no UTF-8", send: by("{\"id\":\"h\xff\",\"board\":9,\"act\":\"thaw\"}"), want: "409"},
		{name: "compressed without a word", send: by("\x1f\x8b\x08\x00\x00\x00\x00\x00", "Content-Encoding: gzip"), want: "400"},
		{name: "an entity (XML)", send: by(`<!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]><a>&b;</a>`), want: "400", lacks: "root:"},
		{name: "an ID too long", send: by(`{"id":"` + strings.Repeat("x", entryIDMost+1) + `","board":1,"act":"thaw"}`), want: "400"},
		{name: "HTML where a name is said back", send: by(`{"id":"h","board":1,"act":"` + script + `"}`), want: "400", lacks: "<script"},
		{name: "HTML as a field", send: by(`{"` + script + `":1}`), want: "400", lacks: "<script"},
		{name: "HTML as a player", send: by(`{"id":"h2","board":1,"act":"name","side":"white","text":"` + script + `"}`), want: "200"},
		{name: "control characters as a player", send: by(`{"id":"h3","board":1,"act":"name","side":"black","text":"\u0000\u001b[31m\u202e\u0007"}`), want: "409"},
		{name: "HTML as a note", send: note(script), want: "200"},
		{name: "control characters as a note", send: note(`a\u0000b\u001b]0;title\u0007`), want: "409"},
		{name: "a link with a token as a note", send: note("open http://relay.example/panel?token={panel}"), want: "400", says: "holds a token"},
		{name: "a token as a caption", send: put("/at-panel", `{"id":"c0","who":"N","act":"air","text":"{desk}"}`, "Authorization: Bearer {panel}"), want: "400", says: "holds a token"},
		{name: "a note too long", send: note(strings.Repeat("x", 4000)), want: "409"},
		{name: "HTML as a caption", send: put("/at-panel", `{"id":"c1","who":"`+script+`","act":"air","text":"`+script+`"}`, "Authorization: Bearer {panel}"), want: "200"},
		{name: "HTML as an action's person", send: put("/api/actions/to-live", `{"who":"<img src=x onerror=alert(1)>"}`, "Authorization: Bearer {desk}"), want: "200"},
		{name: "a role that there is not", send: put("/api/access/{panel}", "", producerBearer), want: "404"},
		{name: "a page's name with HTML", send: ask("GET", "/"+strings.ReplaceAll(script, " ", "%20"), producerCookie), want: "404", lacks: "<script"},
		{name: "HTML in a refused page's query", send: ask("GET", `/panel?x="><script>alert(1)</script>`), want: "401", lacks: "<script>alert"},
	}
}

// hostilePace are those who take their time.
func hostilePace() []hostile {
	slowHead := ask("POST", "/by-hand", "Content-Type: application/json", fmt.Sprintf("Content-Length: %d", len(badMove)), producerBearer)
	return []hostile{
		{name: "says nothing", send: "", want: "cut", within: headerWait},
		{name: "a byte of the header a second", then: []byte(ask("GET", "/panel")), every: time.Second, want: "400", within: headerWait + time.Second},
		{name: "half a header, then nothing", send: "GET /panel HTTP/1.1\r\nHost: 127.0", want: "cut", within: headerWait},
		{name: "a byte of the body a second (RFC 9110, 15.5.9)", send: slowHead, then: []byte(badMove), every: time.Second, want: "408", within: requestWait + time.Second},
		{name: "a chunk of a byte a second", send: ask("POST", "/by-hand", "Transfer-Encoding: chunked", "Content-Type: application/json", producerBearer),
			then: []byte(strings.Repeat("1\r\n \r\n", 50)), every: time.Second, want: "408", within: requestWait + time.Second},
		{name: "kept open after an answer", send: strings.Replace(ask("GET", "/favicon.ico"), "Connection: close\r\n", "", 1), want: "204", within: idleWait + time.Second},
		{name: "asks for a long file and does not read it", send: ask("GET", "/static/lib/long.bin"), deaf: true, want: "cut short"},
		{name: "opens a page and does not read it", send: shake("page=panel", "Authorization: Bearer {panel}"), socket: true, deaf: true, want: "cut short"},
	}
}
