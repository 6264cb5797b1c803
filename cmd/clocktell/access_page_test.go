package main

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"net/http"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/chromedp"

	"clocktell/overlay"
	"clocktell/overlay/access"
	"clocktell/relay"
)

// watchPolicy fails the test for whatever the browser itself reports: what breaks the policy of
// the page is told there, and not on the console.
func watchPolicy(t *testing.T, ctx context.Context, expected ...string) {
	t.Helper()
	err := chromedp.Listen(ctx, func(event any) {
		e, ok := event.(*log.EventEntryAdded)
		if ok && e.Entry.Level == log.EntryLevelError && !slices.ContainsFunc(expected, func(s string) bool { return strings.Contains(e.Entry.Text, s) }) {
			t.Errorf("browser: %s %s", e.Entry.Text, e.Entry.URL)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
}

// guardedShow is a show with tokens, and its address.
func guardedShow(t *testing.T) (*station, string) {
	t.Helper()
	c, err := loadConfig(keptTokens(t, ""), "test", io.Discard)
	if err != nil {
		t.Fatal(err)
	}
	st, address := startStation(t, c, slog.New(slog.DiscardHandler))
	waitShow(t, st, func(s *relay.Show) bool { return len(s.Boards) == 1 })
	return st, "http://" + address
}

// TestPanelByItsLink: a co-host opens the link on a tablet. The token leaves the address for a
// cookie that no script sees, an act is taken; when the token is renewed the page says
// in words what to do.
func TestPanelByItsLink(t *testing.T) {
	ctx := browser(t)
	watchPolicy(t, ctx, "status of 401", "HTTP Authentication failed")
	st, url := guardedShow(t)
	visit(t, ctx, url+overlay.LinkPath(access.Panel, tokenFor(st.way.made, access.Panel)))
	waitFor(t, ctx, "the panel is on the line", `document.body.dataset.line === 'open'`)
	if got := evaluate[string](t, ctx, "location.href + ' ' + document.cookie"); got != url+"/panel " {
		t.Errorf("address and cookies of scripts: %q", got)
	}
	evaluate[bool](t, ctx, `(document.querySelector('#who-name').value = 'Nadja', document.querySelector('#who').requestSubmit(), true)`)
	evaluate[bool](t, ctx, `(document.querySelector('#note').value = 'the clock on board 1', document.querySelector('#note-form').requestSubmit(), true)`)
	waitShow(t, st, func(s *relay.Show) bool {
		return len(s.Table.Notes) == 1 && s.Table.Notes[0].Text == "the clock on board 1"
	})
	visit(t, ctx, url+"/panel")
	waitFor(t, ctx, "the panel opens again by its cookie", `document.body.dataset.line === 'open'`)
	response := renewed(t, url, access.Panel, tokenFor(st.way.made, access.Producer))
	if response != http.StatusOK {
		t.Fatalf("renewal: %d", response)
	}
	waitAcross(t, ctx, "the page says that its link is not valid any more", `document.querySelector('h1')?.textContent === 'This link is not valid any more' && document.fonts.status === 'loaded'`)
	visit(t, ctx, "about:blank") // before the show ends
}

// waitAcross waits for what becomes true on a page that the browser loads anew meanwhile.
func waitAcross(t *testing.T, ctx context.Context, what, script string) {
	t.Helper()
	var err error
	for range 20 { // loads, of which there is one
		if _, err = chromedp.Run(ctx, chromedp.Poll[chromedp.Void](script, chromedp.WithPollingTimeout(patience))); err == nil {
			return
		}
	}
	t.Fatalf("waiting for %s: %v", what, err)
}

func renewed(t *testing.T, url string, role access.Role, token string) int {
	t.Helper()
	request, err := http.NewRequestWithContext(t.Context(), "POST", fmt.Sprintf("%s/api/access/%v", url, role), nil)
	if err != nil {
		t.Fatal(err)
	}
	request.Header.Set("Authorization", "Bearer "+token)
	response, err := (&http.Transport{DisableKeepAlives: true}).RoundTrip(request)
	if err != nil {
		t.Fatal(err)
	}
	response.Body.Close()
	return response.StatusCode
}

// TestRefusedInWords: who comes with the viewers' link, or none, reads what to do, on a phone
// too: in type of 18 pixels and more, in lines that fit, with a target of 44 pixels and more
// (WCAG 2.2, 1.4.10 and 2.5.5).
func TestRefusedInWords(t *testing.T) {
	script := axe(t)
	ctx := browser(t)
	watchPolicy(t, ctx, "status of 401", "status of 403")
	st, url := guardedShow(t)
	page(t, ctx, "a phone", command(emulation.SetDeviceMetricsOverride, emulation.SetDeviceMetricsOverrideParams{Width: 320, Height: 640, DeviceScaleFactor: 2, Mobile: true}))
	for path, want := range map[string]string{
		"/panel?token=" + tokenFor(st.way.made, access.Viewer): "The link that you have opened is the viewer’s. It does not open the panel. | Ask the producer for the panel’s link, and open it here once.",
		"/panel":        "Nothing on this device says yet that you may open it. | Ask the producer for the panel’s link",
		"/desk?token=x": "Its token is not known here: it may have been renewed, or cut short on the way. | Ask the producer for the desk’s link",
		"/health":       "Nothing on this device says yet that you may open it. | The producer’s link opens it.",
	} {
		visit(t, ctx, url+path)
		waitAcross(t, ctx, "the page of words", `document.querySelector('.button') !== null && !document.querySelector('meta[http-equiv]') && document.fonts.status === 'loaded'`)
		said := evaluate[string](t, ctx, `[document.querySelector('.why'), ...document.querySelectorAll('li')].map((e) => e.textContent).join(' | ')`)
		if !strings.HasPrefix(said, want) {
			t.Errorf("%s says %q", path, said)
		}
		measured := evaluate[[]float64](t, ctx, `[document.documentElement.scrollWidth, document.querySelector('.button').getBoundingClientRect().height,
			Math.min(...[...document.querySelectorAll('p, li, a')].map((e) => parseFloat(getComputedStyle(e).fontSize)))]`)
		if measured[0] > 320 || measured[1] < 44 || measured[2] < 18 {
			t.Errorf("%s: width, target and smallest type are %v", path, measured)
		}
	}
	checkAccess(t, ctx, "a refused page", script)
	visit(t, ctx, "about:blank") // before the show ends
}

// TestPolicyHolds: all pages run under the policy, with tokens on, and the browser reports nothing.
func TestPolicyHolds(t *testing.T) {
	ctx := browser(t)
	watchPolicy(t, ctx)
	st, url := guardedShow(t)
	viewers := "token=" + tokenFor(st.way.made, access.Viewer)
	visit(t, ctx, url+overlay.LinkPath(access.Producer, tokenFor(st.way.made, access.Producer)))
	for _, path := range []string{
		"/health", "/desk", "/panel", "/scene/board?" + viewers, "/scene/clocks?" + viewers, "/scene/wall?" + viewers,
		"/scene/caption?" + viewers, "/scene/challenge?" + viewers,
	} {
		visit(t, ctx, url+path)
		waitFor(t, ctx, path+" is on the line", `document.body.dataset.line === 'open'`)
	}
	visit(t, ctx, url+"/health")
	waitFor(t, ctx, "addresses hold the viewers' token", `[...document.querySelectorAll('#links input, #builder-address input')].filter((i) => i.value.endsWith('`+viewers+`')).length === 2`)
	if shown := evaluate[bool](t, ctx, `document.querySelector('#no-viewers-token').hidden`); !shown {
		t.Error("the page says that it does not know the viewers' token")
	}
}

// TestTokensAreRenewedOnThePage: a second press makes a new link, which is shown; the producer
// who renews the own one stays in.
func TestTokensAreRenewedOnThePage(t *testing.T) {
	script := axe(t)
	ctx := browser(t)
	watchPolicy(t, ctx)
	st, url := guardedShow(t)
	visit(t, ctx, url+overlay.LinkPath(access.Producer, tokenFor(st.way.made, access.Producer)))
	waitFor(t, ctx, "the tokens are listed", `document.querySelectorAll('[data-renew]').length === 4`)
	for _, role := range []access.Role{access.Desk, access.Producer} {
		row := fmt.Sprintf("document.querySelector('[data-renew=%v]')", role)
		made := st.way.keys.RoleOf(tokenFor(st.way.made, role))
		evaluate[bool](t, ctx, row+".click() ?? true")
		if made != role || st.way.keys.RoleOf(tokenFor(st.way.made, role)) != role {
			t.Errorf("one press renews the %v's token", role)
		}
		waitFor(t, ctx, "a second press that is no slip", `(window.pressed ??= performance.now()) + 500 < performance.now()`)
		evaluate[bool](t, ctx, "delete window.pressed && ("+row+".click() ?? true)")
		waitFor(t, ctx, "the new link", row+".closest('li').querySelector('input')?.value.includes('token=')")
		link := evaluate[string](t, ctx, row+".closest('li').querySelector('input').value")
		_, token, _ := strings.Cut(link, "token=")
		if !strings.HasPrefix(link, url) || st.way.keys.RoleOf(token) != role || st.way.keys.RoleOf(tokenFor(st.way.made, role)) != access.Nobody {
			t.Errorf("the link %s is not the new one of the %v", link, role)
		}
	}
	waitFor(t, ctx, "the producer is back with the new cookie, the link still there", `document.body.dataset.line === 'open' && document.querySelector('[data-renew=producer]').closest('li').querySelector('input') !== null`)
	checkAccess(t, ctx, "health with tokens", script)
	visit(t, ctx, url+"/health")
	waitFor(t, ctx, "the page opens again", `document.body.dataset.line === 'open'`)
	visit(t, ctx, "about:blank")
}
