package main

import (
	"net/url"
	"testing"

	"github.com/chromedp/chromedp"

	"clocktell/relay/relaytest"
)

// TestAddressFromTheHealthPage: with the keyboard alone somebody makes the address of a
// scene; what cannot be is said, and the page behind the address is as it was chosen.
func TestAddressFromTheHealthPage(t *testing.T) {
	ctx := browser(t)
	address := pagesOf(t, shownGame{Game: relaytest.Game{Control: "600+5", Moves: "e4 e5"}})
	visit(t, ctx, address+"/health")
	waitFor(t, ctx, "the scenes are listed", `document.querySelector('#builder:not([hidden]) select[name=scene]')?.options.length >= 2`)
	focus := func(selector string) {
		evaluate[bool](t, ctx, `document.querySelector('`+selector+`').focus() ?? true`)
	}
	typed := func(selector, keys string) {
		focus(selector)
		page(t, ctx, "keys", chromedp.KeyEvent(keys))
	}
	const made = `document.querySelector('#builder-address input').value`

	typed("#builder [name=side]", "B") // Black, as a list takes it
	typed("#builder [name=theme]", "l")
	typed("#builder-hold", "12 s")
	waitFor(t, ctx, "the fault is told", `document.querySelector('#builder-said').textContent.includes('Write seconds')`)
	if got := evaluate[string](t, ctx, made); got != "" {
		t.Errorf("with a hold that cannot be the address is %q, want none", got)
	}
	evaluate[bool](t, ctx, `document.querySelector('#builder-hold').select() ?? true`)
	page(t, ctx, "keys", chromedp.KeyEvent("air"))
	waitFor(t, ctx, "the group is not set", `document.querySelector('#builder-said').textContent.includes('The hold of air is not set')`)
	want := address + "/scene/board?" + "board=1&hold=air&side=black&theme=light"
	if got := evaluate[string](t, ctx, made); got != want {
		t.Errorf("the address is %q, want %q", got, want)
	}
	evaluate[bool](t, ctx, `(document.querySelector('#builder-hold').value = '', document.querySelector('#builder-hold').dispatchEvent(new Event('input', { bubbles: true })))`)
	link, err := url.Parse(evaluate[string](t, ctx, `document.querySelector('#builder-open').href`))
	if err != nil || link.Query().Has("hold") {
		t.Fatalf("the link is %v, %v; want one without a hold", link, err)
	}
	typed("#builder [name=scene]", "C")
	if evaluate[bool](t, ctx, `document.querySelector('#builder [name=board]').offsetParent !== null`) {
		t.Error("of the caption a board can be chosen")
	}
	visit(t, ctx, link.String())
	waitFor(t, ctx, "the scene", `document.querySelector('#stage').dataset.view === 'game'`)
	if got := evaluate[string](t, ctx, `document.documentElement.dataset.theme + ' ' + document.querySelector('#foot .row').className`); got != "light row white" {
		t.Errorf("the scene has theme and upper row %q, want light and White's", got)
	}
}
