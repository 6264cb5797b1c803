package main

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
)

// englishOnly lists the words of the scenes' table (static/scene/german.js) that stand in
// its English and nowhere in its German.
func englishOnly(t *testing.T) map[string]bool {
	t.Helper()
	text, err := os.ReadFile("../../static/scene/german.js")
	if err != nil {
		t.Fatal(err)
	}
	rows := regexp.MustCompile(`('[^']+'|\b\w+): '([^']+)'`).FindAllStringSubmatch(string(text), -1)
	words := make(map[string]bool)
	for _, row := range rows {
		for _, w := range wordsOf(row[1]) {
			words[w] = true
		}
	}
	for _, row := range rows {
		for _, w := range wordsOf(row[2]) {
			delete(words, w)
		}
	}
	if len(rows) < 80 || len(words) < 80 {
		t.Fatalf("read %d rows and %d words", len(rows), len(words))
	}
	return words
}

var aWord = regexp.MustCompile(`\p{L}{2,}`)

func wordsOf(text string) []string { return aWord.FindAllString(strings.ToLower(text), -1) }

// saidBy lists every text of a scene that is seen or heard: shown or not, and the names for screen readers.
const saidBy = `(() => {
	const said = [...document.querySelectorAll('[aria-label]')].map((e) => e.getAttribute('aria-label'));
	const walker = document.createTreeWalker(document.querySelector('#stage'), NodeFilter.SHOW_TEXT);
	for (let node; (node = walker.nextNode()); ) said.push(node.data);
	return said;
})()`

// inGerman makes a German show of the boards of these tests: what is invented in them becomes
// what the relay says, and the event has a German name.
var inGerman = strings.NewReplacer(`"lang":"en"`, `"lang":"de"`, "under 20 seconds", "unter 20 Sekunden", "on the increment", "12 s a move left",
	" of Rapid and Very Rapid Chess under the Patronage of the Lighthouse Keepers", " unter der Schirmherrschaft der Leuchtturmwärter")

// TestScenesSpeakGerman: in a German show no scene shows or tells a screen reader an English
// word, in any state, and what it says has its room.
func TestScenesSpeakGerman(t *testing.T) {
	ctx := browser(t)
	url, english := pagesOf(t), englishOnly(t)
	for state := range airStates {
		for _, scene := range []string{"board", "clocks", "wall"} {
			tapped(t, ctx, url+"/scene/"+scene+"?motion=off&safe=on")
			evaluate[chromedp.Void](t, ctx, inGerman.Replace(sayShow(stated(t, 1, state, showNow()))))
			waitFor(t, ctx, "the game", "document.querySelector('#stage').dataset.view === 'game' && document.documentElement.lang === 'de'")
			page(t, ctx, "the type", chromedp.Evaluate[bool]("Promise.all([...document.fonts].map((f) => f.load())).then(() => document.fonts.ready).then(() => true)", chromedp.EvalAwaitPromise))
			checkScene(t, "German "+scene+", "+state, evaluate[sceneMeasure](t, ctx, measureScene))
			for _, text := range evaluate[[]string](t, ctx, saidBy) {
				for _, w := range wordsOf(text) {
					if english[w] {
						t.Errorf("%s, %s: %q has the English word %q", scene, state, text, w)
					}
				}
			}
		}
	}
}
