package main

import (
	"fmt"
	"io"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"clocktell/static"
)

// flatRules says of a style that is loaded piece by piece (read here by the browser), and of that
// text, what each selector sets, under which conditions: "conditions selector | property: value", the
// selectors in their order, the values as the browser writes them. Of what is or has a variable the
// browser keeps the text; there spaces, noughts, quotes and the unit of a time do not count;
// translateX(a) is translate(a).
const flatRules = `((text) => {
	const plain = (v) => v.replace(/\s+/g, ' ').replaceAll("'", '"').replaceAll('translateX(', 'translate(').replace(/(\d+)ms/g, (_, n) => n / 1000 + 's').replace(/ ?([,()/*{}<>+:~]) ?/g, '$1').replace(/(^|[^\d])0\./g, '$1.').trim();
	const single = (list) => { // selectors, at the commas that stand in no brackets
		let depth = 0;
		return [...list].map((c) => ((depth += { '(': 1, ')': -1 }[c] ?? 0), c === ',' && !depth ? '\n' : c)).join('').split('\n').map(plain);
	};
	const read = (rules, where, found) => {
		for (const rule of rules) {
			if (rule.styleSheet) read(rule.styleSheet.cssRules, where, found);
			else if (!rule.style) read(rule.cssRules, where + plain(rule.cssText.split('{')[0]) + ' ', found);
			else for (const selector of single(rule.selectorText ?? rule.keyText ?? '@font-face ' + rule.style.getPropertyValue('src'))) {
				const set = (name, value) => value && found.set(where + selector + ' | ' + name, plain(value) + rule.style.getPropertyPriority(name));
				for (const name of rule.style) set(name, rule.style.getPropertyValue(name));
				for (const [, name, value] of rule.style.cssText.matchAll(/([a-z-]+): ([^;]*var\([^;]*);/g)) set(name, value);
			}
		}
		return [...found].map(([key, value]) => key + ': ' + value);
	};
	const sheet = new CSSStyleSheet();
	sheet.replaceSync(text);
	return [read(document.styleSheets[0].cssRules, '', new Map()), read(sheet.cssRules, '', new Map())];
})(%q)`

// TestJoinedStylesSayTheSame: to a browser the one style that a page is sent says what its pieces
// say, in the same order.
func TestJoinedStylesSayTheSame(t *testing.T) {
	ctx := browser(t)
	url, apart := pagesOf(t), stylesApart(t)
	for _, name := range []string{"scene/board", "scene/wall", "scene/clocks", "scene/caption", "scene/challenge", "panel", "desk", "health"} {
		visit(t, ctx, apart+"/"+name)
		read := evaluate[[2][]string](t, ctx, fmt.Sprintf(flatRules, fetched(t, url+"/static/"+name+"/page.css")))
		pieces, joined := read[0], read[1]
		t.Logf("%s: %d values set", name, len(pieces))
		if len(pieces) < 100 {
			t.Errorf("%s: read only %d values", name, len(pieces))
		}
		if a, b := orderOf(pieces), orderOf(joined); !slices.Equal(a, b) {
			t.Errorf("%s: selectors stand in another order, or are others", name)
		}
		slices.Sort(pieces)
		slices.Sort(joined)
		for _, value := range pieces {
			if _, there := slices.BinarySearch(joined, value); !there {
				t.Errorf("%s: only in the pieces: %s", name, value)
			}
		}
		for _, value := range joined {
			if _, there := slices.BinarySearch(pieces, value); !there {
				t.Errorf("%s: only in what is sent: %s", name, value)
			}
		}
	}
}

// orderOf is the selectors of values, each once.
func orderOf(values []string) []string {
	var out []string
	for _, value := range values {
		selector, _, _ := strings.Cut(value, " | ")
		if !slices.Contains(out, selector) {
			out = append(out, selector)
		}
	}
	return out
}

// stylesApart serves documents that load nothing but the style of a page, as it is written.
func stylesApart(t *testing.T) string {
	t.Helper()
	mux := http.NewServeMux()
	mux.Handle("/static/", http.StripPrefix("/static/", http.FileServerFS(static.FS)))
	mux.HandleFunc("/favicon.ico", func(w http.ResponseWriter, _ *http.Request) { w.WriteHeader(http.StatusNoContent) })
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		fmt.Fprintf(w, "<!doctype html><title>styles</title><link rel=stylesheet href=/static%s/page.css>", r.URL.Path)
	})
	server := httptest.NewServer(mux)
	t.Cleanup(server.Close)
	return server.URL
}

func fetched(t *testing.T, url string) string {
	t.Helper()
	answer, err := http.Get(url)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	text, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		t.Fatalf("%s: %s, %v", url, answer.Status, err)
	}
	return string(text)
}
