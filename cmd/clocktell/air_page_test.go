package main

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"strings"
	"testing"

	cdppage "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"clocktell/overlay/wire"
	"clocktell/relay/relaytest"
)

// act does an action of the desk.
func act(t *testing.T, url, action string, with wire.DeskAct) {
	t.Helper()
	with.Who = "Runa"
	send(t, url+"/api/actions/"+action, with)
}

// send posts an act, which has to be done.
func send(t *testing.T, url string, act any) {
	t.Helper()
	body, err := json.Marshal(act)
	if err != nil {
		t.Fatal(err)
	}
	response, err := http.Post(url, "application/json", bytes.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	defer response.Body.Close()
	var reply wire.EntryReply
	if err := json.NewDecoder(response.Body).Decode(&reply); err != nil || !reply.Done {
		t.Fatalf("%s %s: status %s, %+v, %v", url, body, response.Status, reply, err)
	}
}

// twoGames are two games under way.
func twoGames() []shownGame {
	return []shownGame{underWay("e4 e5 Nf3 Nc6"), {Game: relaytest.Game{White: "Arkwright, Ada", Black: "Ferreira, Iara", Control: "3600+30", Moves: "d4 d5 c4"}}}
}

// airShown is what a board scene shows: position, frame, strip, and whose clocks.
const airShown = `[` + drawn + `, document.querySelector('#stage').dataset.held ?? 'live', document.querySelector('#opening').textContent, ` +
	`[...document.querySelectorAll('#moves .move')].map((m) => m.getAttribute('aria-label')).join(' ')].join(' | ')`

func waitAir(t *testing.T, ctx context.Context, what, want string) {
	t.Helper()
	text, err := json.Marshal(want)
	if err != nil {
		t.Fatal(err)
	}
	waitFor(t, ctx, what+": "+want, airShown+" === "+string(text))
}

// TestDeskOnTheAir: a board scene that follows the desk through a side line, its text, the live
// game, and another board. Men slide over a step, and never over a jump.
func TestDeskOnTheAir(t *testing.T) {
	ctx := browser(t)
	url := pagesOf(t, twoGames()...)
	tapped(t, ctx, url+"/scene/board?board=air")
	const live = "r1bqkbnr/pppp1ppp/2n5/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R | live | "
	waitFor(t, ctx, "the live game", airShown+`.startsWith('`+live+`')`)
	act(t, url, "go-to", wire.DeskAct{Ply: 2})
	act(t, url, "play", wire.DeskAct{SAN: "Bc4"})
	act(t, url, "put-on-air", wire.DeskAct{})
	const bc4 = "rnbqkbnr/pppp1ppp/8/4p3/2B1P3/8/PPPP1PPP/RNBQK1NR | explained | Side line1 move behind | Bc4"
	waitAir(t, ctx, "the side line", bc4)
	if got := evaluate[int](t, ctx, `played.filter((ms) => ms === 180).length`); got != 0 {
		t.Errorf("%d men slid over a jump", got)
	}
	act(t, url, "play", wire.DeskAct{SAN: "Nf6"})
	waitAir(t, ctx, "its next move", "rnbqkb1r/pppp1ppp/5n2/4p3/2B1P3/8/PPPP1PPP/RNBQK1NR | explained | Side line1 move behind | Bc4 Nf6")
	act(t, url, "back", wire.DeskAct{})
	waitAir(t, ctx, "a step back", bc4)
	if got := evaluate[int](t, ctx, `played.filter((ms) => ms === 180).length`); got != 2 {
		t.Errorf("%d men slid over a step forth and one back, want 2", got)
	}
	if clock := evaluate[string](t, ctx, `document.querySelector('.clock[data-state=running]')?.dataset.side ?? 'none'`); clock != "white" {
		t.Errorf("while a line is explained the running clock is %s's, want White's", clock)
	}
	act(t, url, "name-line", wire.DeskAct{Text: "The bishop first"})
	act(t, url, "write-line", wire.DeskAct{})
	waitAir(t, ctx, "the line as text", live+"The bishop firstinstead of2f3 | Bc4")
	act(t, url, "take-off-air", wire.DeskAct{})
	waitFor(t, ctx, "the live game again", airShown+`.startsWith('`+live+`') && !document.querySelector('#strip[data-held]')`)
	act(t, url, "look-at", wire.DeskAct{Board: 2})
	act(t, url, "put-on-air", wire.DeskAct{})
	waitFor(t, ctx, "the other board", airShown+`.startsWith('rnbqkbnr/ppp1pppp/8/3p4/2PP4/8/PP2PPPP/RNBQKBNR | live | ')`)
	if got := evaluate[string](t, ctx, `[...document.querySelectorAll('.name')].map((n) => n.textContent).join()`); got != "Ferreira,Arkwright" {
		t.Errorf("the players of the other board are %s", got)
	}
	if got := evaluate[int](t, ctx, `played.filter((ms) => ms === 180).length`); got != 2 {
		t.Errorf("%d men slid from one board to another", got-2)
	}
	onlyBoard2(t, ctx, url)
}

// framesSeen notes the players, the place and the frame that every frame of a page shows.
const framesSeen = `{
	window.seen = new Set();
	const look = () => {
		if (document.querySelector('#stage[data-view=game]')) window.seen.add([...document.querySelectorAll('.name')].map((n) => n.textContent).join() + ' ' + document.querySelector('#tag').textContent);
		requestAnimationFrame(look);
	};
	look();
}`

// onlyBoard2: scenes that follow the desk are right on their first frame.
func onlyBoard2(t *testing.T, ctx context.Context, url string) {
	t.Helper()
	for _, scene := range []string{"board", "clocks"} {
		tab, cancel := chromedp.NewContext(ctx)
		page(t, tab, "the watch", command(cdppage.AddScriptToEvaluateOnNewDocument, cdppage.AddScriptToEvaluateOnNewDocumentParams{Source: framesSeen}))
		visit(t, tab, url+"/scene/"+scene+"?board=air")
		waitFor(t, tab, "a frame of "+scene, "window.seen?.size > 0 && document.querySelector('.clock[data-text]') !== null")
		if got := evaluate[string](t, tab, "[...window.seen].join('; ')"); !strings.HasPrefix(got, "Ferreira,Arkwright ") || strings.Contains(got, ";") {
			t.Errorf("%s showed %q; want board 2 alone", scene, got)
		}
		cancel()
	}
}

// challengeShown is what a challenge scene shows: its state, position, question, hints and answer so far.
const challengeShown = `[document.querySelector('#stage').dataset.state, ` + drawn + `, document.querySelector('#question').textContent, ` +
	`[...document.querySelectorAll('#hints span')].map((h) => h.textContent).join(), ` +
	`[...document.querySelectorAll('#answer .move:not([data-to-come])')].map((m) => m.getAttribute('aria-label')).join(' ')].join(' | ')`

// TestChallengeOnAir: a question from nothing to nothing, with a page opened in its middle and
// a move played meanwhile, which is the answer.
func TestChallengeOnAir(t *testing.T) {
	ctx := browser(t)
	url := pagesOf(t, twoGames()...)
	tapped(t, ctx, url+"/scene/challenge")
	wait := func(what, want string) {
		t.Helper()
		waitFor(t, ctx, what+": "+want, fmt.Sprintf("%s === %q", challengeShown, want))
	}
	if got := evaluate[string](t, ctx, `getComputedStyle(document.querySelector('#stage')).opacity`); got != "0" {
		t.Errorf("without a question the scene's opacity is %s", got)
	}
	const asked = "asked | r1bqkbnr/pppp1ppp/2n5/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R | Which piece next? | "
	act(t, url, "prepare-challenge", wire.DeskAct{Text: "Which piece next?", Seconds: 30, Hints: []string{"A bishop.", "The light one."}})
	act(t, url, "ask", wire.DeskAct{})
	wait("the question", asked+" | ")
	act(t, url, "give-hint", wire.DeskAct{})
	wait("a hint", asked+"A bishop. | ")
	send(t, url+"/by-hand", wire.Entry{ID: "the-answer", Board: 1, Act: "move", Ply: 5, SAN: "Bb5"})
	visit(t, ctx, url+"/scene/challenge?side=black&board=1")
	waitFor(t, ctx, "the question in the middle", fmt.Sprintf("document.querySelector('#stage')?.dataset.state === 'asked' && document.querySelector('#hints span')?.textContent === 'A bishop.' && %s", `document.querySelector('#ranks span')?.textContent === '1'`))
	if left := evaluate[string](t, ctx, "document.querySelector('#left').getAttribute('aria-label')"); left > "0:30" || left < "0:01" {
		t.Errorf("in the middle %s is left", left)
	}
	standsStill(t, ctx, url)
	visit(t, ctx, url+"/scene/challenge?board=2")
	waitFor(t, ctx, "a scene of another board", "document.body.dataset.line === 'open' && document.documentElement.lang === 'en'")
	if got := evaluate[string](t, ctx, "document.querySelector('#stage').dataset.state"); got != "none" {
		t.Errorf("the scene of another board shows a question that is %s", got)
	}
	visit(t, ctx, url+"/scene/challenge") // the tap is in every page by now
	wait("the question again", asked+"A bishop. | ")
	act(t, url, "reveal", wire.DeskAct{})
	wait("the answer", "revealed | r1bqkbnr/pppp1ppp/2n5/1B2p3/4P3/5N2/PPPP1PPP/RNBQK2R | Which piece next? |  | Bb5")
	if got := evaluate[int](t, ctx, `played.filter((ms) => ms === 180).length`); got != 1 {
		t.Errorf("%d men slid, want the bishop", got)
	}
	act(t, url, "end-challenge", wire.DeskAct{})
	waitFor(t, ctx, "nothing", `document.querySelector('#stage').dataset.state === 'none' && getComputedStyle(document.querySelector('#stage')).opacity === '0'`)
}

// standsStill: while viewers think, the other scenes keep the board as it stood, its clocks and
// tells to themselves, and say so without a word of news.
func standsStill(t *testing.T, ctx context.Context, url string) {
	t.Helper()
	const clocks = `[...document.querySelectorAll('.clock')].map((c) => c.dataset.text + c.dataset.state).join()`
	const words = `[...document.querySelectorAll('.word, .evidence')].map((w) => w.textContent).join('')`
	visit(t, ctx, url+"/scene/board")
	waitAir(t, ctx, "the board as it stood", "r1bqkbnr/pppp1ppp/2n5/4p3/4P3/5N2/PPPP1PPP/RNBQKB1R | asked | White to movemove 3 | ")
	if got := evaluate[string](t, ctx, `document.querySelector('#notice-place[data-shown=true] b').textContent`); got != "Which piece next?" {
		t.Errorf("the board scene asks %q", got)
	}
	for _, scene := range []string{"board", "clocks", "wall?boards=1&lift=off"} {
		visit(t, ctx, url+"/scene/"+scene)
		waitFor(t, ctx, scene+" without clocks", clocks+` === '—held,—held'`)
		if got := evaluate[string](t, ctx, words); got != "" {
			t.Errorf("%s says %q", scene, got)
		}
	}
}
