package overlay

import (
	"bytes"
	"io"
	"net/http"
	"strings"
	"testing"
	"testing/synctest"

	"clocktell/overlay/access"
)

// TestCookieWay: a link sets the cookie and leaves the address; the cookie opens the page,
// its socket and its calls. Attributes after RFC 6265bis, 5.6.
func TestCookieWay(t *testing.T) {
	inHallOf(t, withToken, func(t *testing.T, h *hall) {
		h.play("e4 e5")
		synctest.Wait()
		response := h.get(t, "/panel?x=1&token="+tokenOf(access.Panel), nil)
		cookies := response.Cookies()
		if response.StatusCode != 303 || response.Header.Get("Location") != "/panel?x=1" || len(cookies) != 1 {
			t.Fatalf("%d to %q with %d cookies", response.StatusCode, response.Header.Get("Location"), len(cookies))
		}
		c := cookies[0]
		if c.Name != "clocktell-8600" || c.Value != tokenOf(access.Panel) || !c.HttpOnly || c.Secure || c.SameSite != http.SameSiteStrictMode ||
			c.Path != "/" || c.Domain != "" || c.MaxAge != int(cookieAge.Seconds()) {
			t.Errorf("cookie %v", c)
		}
		with := header("Cookie", c.Name+"="+c.Value, "Origin", "http://127.0.0.1:8600")
		if got := h.get(t, "/panel", with); got.StatusCode != 200 || len(got.Cookies()) != 1 {
			t.Errorf("the page with the cookie: %d, %d cookies", got.StatusCode, len(got.Cookies()))
		}
		if status, err := h.upgrade(t, "page=panel", with); err != nil {
			t.Errorf("the socket with the cookie: %d, %v", status, err)
		}
		if got, reply := h.postTo("/at-panel", strings.NewReader(`{"id":"a","who":"Nadja","act":"note","text":"hello"}`), with); got.StatusCode != 200 {
			t.Errorf("an act with the cookie: %d %+v", got.StatusCode, reply)
		}
		if got := h.get(t, "/desk", with); got.StatusCode != 403 {
			t.Errorf("the desk with the panel's cookie: %d", got.StatusCode)
		}
	})
}

func (h *hall) get(t *testing.T, path string, head http.Header) *http.Response {
	t.Helper()
	request, err := http.NewRequest("GET", "http://127.0.0.1:8600"+path, nil)
	if err != nil {
		t.Fatal(err)
	}
	for name, values := range head {
		request.Header[name] = values
	}
	response, err := h.client.Transport.RoundTrip(request)
	if err != nil {
		t.Fatal(err)
	}
	body, err := io.ReadAll(response.Body)
	if err != nil {
		t.Fatal(err)
	}
	response.Body.Close()
	response.Body = io.NopCloser(bytes.NewReader(body))
	return response
}

// TestLinkTakesNothingAway: a producer who opens the panel's link stays the producer; who
// has less becomes more.
func TestLinkTakesNothingAway(t *testing.T) {
	inHallOf(t, withToken, func(t *testing.T, h *hall) {
		as := func(role access.Role) http.Header { return header("Cookie", "clocktell-8600="+tokenOf(role)) }
		if got := h.get(t, "/panel?token="+tokenOf(access.Panel), as(access.Producer)); got.StatusCode != 303 || len(got.Cookies()) != 0 {
			t.Errorf("the producer's cookie gives way: %d, %v", got.StatusCode, got.Cookies())
		}
		if got := h.get(t, "/panel?token="+tokenOf(access.Panel), as(access.Viewer)); got.StatusCode != 303 || len(got.Cookies()) != 1 {
			t.Errorf("the viewer's cookie stays: %d, %v", got.StatusCode, got.Cookies())
		}
	})
}

// TestCookieOfALinkElsewhere: a browser that follows a link from another site sends no cookie of
// SameSite=Strict (RFC 6265bis, 8.8.3), so the page comes back by itself once, and no more.
func TestCookieOfALinkElsewhere(t *testing.T) {
	inHallOf(t, withToken, func(t *testing.T, h *hall) {
		body := func(path string, head http.Header) (int, string) {
			response := h.get(t, path, head)
			text, _ := io.ReadAll(response.Body)
			return response.StatusCode, string(text)
		}
		status, text := body("/panel?a=b", nil)
		if status != 401 || !strings.Contains(text, `content="0;url=/panel?a=b&amp;again="`) {
			t.Errorf("%d %s", status, text)
		}
		if status, text := body("/panel?a=b&again=", nil); status != 401 || strings.Contains(text, "http-equiv") {
			t.Errorf("comes back for ever: %d %s", status, text)
		}
		got := h.get(t, "/panel?a=b&again=", header("Cookie", "clocktell-8600="+tokenOf(access.Panel)))
		if got.StatusCode != 303 || got.Header.Get("Location") != "/panel?a=b" {
			t.Errorf("with its cookie: %d to %q", got.StatusCode, got.Header.Get("Location"))
		}
	})
}

// TestTokenInTheAddress counts for scenes alone.
func TestTokenInTheAddress(t *testing.T) {
	inHallOf(t, withToken, func(t *testing.T, h *hall) {
		token := "token=" + tokenOf(access.Producer)
		if got := h.get(t, "/scene/board?"+token, nil); got.StatusCode != 200 || len(got.Cookies()) != 0 {
			t.Errorf("a scene: %d, cookies %v", got.StatusCode, got.Cookies())
		}
		if status, err := h.upgrade(t, "page=scene/board&"+token, nil); err != nil {
			t.Errorf("a scene's socket: %d %v", status, err)
		}
		if status, _ := h.upgrade(t, "page=panel&"+token, nil); status != 401 {
			t.Errorf("the panel's socket: %d, want 401", status)
		}
		for _, path := range []string{"/by-hand", "/at-panel", "/api/actions/to-live", "/api/access/viewer"} {
			if got, _ := h.postTo(path+"?"+token, strings.NewReader(goodMove), nil); got.StatusCode != 401 {
				t.Errorf("POST %s: %d, want 401", path, got.StatusCode)
			}
		}
		if got := h.get(t, "/api/access?"+token, nil); got.StatusCode != 401 {
			t.Errorf("GET /api/access: %d, want 401", got.StatusCode)
		}
	})
}

// TestRedirectsAreNotKept: an answer whose Location holds, or has held, a token is stored
// nowhere (RFC 9111, 5.2.2.5).
func TestRedirectsAreNotKept(t *testing.T) {
	inHallOf(t, withToken, func(t *testing.T, h *hall) {
		token := "?token=" + tokenOf(access.Panel)
		for path, want := range map[string]int{"/" + token: 302, "/panel/" + token: 302, "/panel" + token: 303} {
			got := h.get(t, path, nil)
			if got.StatusCode != want || got.Header.Get("Cache-Control") != "no-store" || got.Header.Get("Referrer-Policy") != "no-referrer" {
				t.Errorf("%s: %d, %q", path, got.StatusCode, got.Header.Get("Cache-Control"))
			}
		}
	})
}

// TestLinkElsewhereTakesNothingAway: a browser that a link on another site leads here with
// a token sends no cookie of SameSite=Strict (RFC 6265bis, 8.8.3); it opens the link once more
// from us, and only then is it settled which token it keeps.
func TestLinkElsewhereTakesNothingAway(t *testing.T) {
	inHallOf(t, withToken, func(t *testing.T, h *hall) {
		link := "/panel?token=" + tokenOf(access.Panel)
		for name, head := range map[string]http.Header{
			"from another site": header("Sec-Fetch-Site", "cross-site"), "over plain HTTP": header("Accept", "text/html,*/*;q=0.8"),
		} {
			got := h.get(t, link, head)
			text, _ := io.ReadAll(got.Body)
			if got.StatusCode != 200 || len(got.Cookies()) != 0 || got.Header.Get("Cache-Control") != "no-store" || !strings.Contains(string(text), `content="0;url=/panel?again=&amp;token=`) {
				t.Errorf("%s: %d, %v\n%s", name, got.StatusCode, got.Cookies(), text)
			}
			if got := h.get(t, link+"x", head); got.StatusCode != 401 {
				t.Errorf("%s, a wrong token: %d", name, got.StatusCode)
			}
			for role, cookies := range map[access.Role]int{access.Nobody: 1, access.Viewer: 1, access.Panel: 0, access.Producer: 0} {
				again := head.Clone()
				if role != access.Nobody {
					again.Set("Cookie", "clocktell-8600="+tokenOf(role))
				}
				got := h.get(t, link+"&again=", again)
				if got.StatusCode != 303 || got.Header.Get("Location") != "/panel" || len(got.Cookies()) != cookies {
					t.Errorf("%s, again, with the cookie of %s: %d to %q, %v", name, role, got.StatusCode, got.Header.Get("Location"), got.Cookies())
				}
			}
		}
		if got := h.get(t, link, header("Sec-Fetch-Site", "none", "Accept", "text/html")); got.StatusCode != 303 || len(got.Cookies()) != 1 {
			t.Errorf("a link that was typed or scanned: %d", got.StatusCode)
		}
	})
}
