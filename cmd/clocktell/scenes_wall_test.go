package main

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"clocktell/overlay/wire"
)

// liftedIs is a script that says whether the board of that number is lifted, and stands.
func liftedIs(number int) string {
	return fmt.Sprintf("document.body.dataset.lifted === '%d' && !document.getAnimations().length", number)
}

// wallOf is so many boards, in one state after the other, from a state of the list on.
func wallOf(t *testing.T, count, from int) []wire.Board {
	t.Helper()
	states := slices.Sorted(maps.Keys(airStates))
	var boards []wire.Board
	for i := range count {
		boards = append(boards, stated(t, i+1, states[(from+i)%len(states)], showNow()))
	}
	return boards
}

// checkWall opens a wall and measures it at each size.
func checkWall(t *testing.T, ctx context.Context, url, query string, sizes [][2]int64, boards ...wire.Board) {
	t.Helper()
	openScene(t, ctx, url+"/scene/wall?motion=off"+query, boards...)
	if query == "" {
		waitFor(t, ctx, "a board to be lifted", "document.body.dataset.lifted")
	}
	for _, size := range sizes {
		resize(t, ctx, size[0], size[1])
		checkScene(t, fmt.Sprintf("wall of %d%s at %v", len(boards), query, size), evaluate[sceneMeasure](t, ctx, measureScene))
	}
}

// sizesFor is every size for the smallest wall and the largest, else one: all are the same
// picture, enlarged.
func sizesFor(count int) [][2]int64 {
	if count == 2 || count == 12 {
		return airSizes
	}
	return airSizes[1:2]
}

// TestWallFits: 2 to 12 boards, one of them lifted, for players with long names or not.
func TestWallFits(t *testing.T) {
	ctx := browser(t)
	url := pagesOf(t)
	for count := 2; count <= 12; count++ {
		hot := stated(t, 1, []string{"time trouble", "longest names in trouble", "novelty"}[count%3], showNow())
		checkWall(t, ctx, url, "", sizesFor(count), append([]wire.Board{hot}, wallOf(t, count, 3*count)[1:]...)...)
	}
	long := stated(t, 1, "longest names in trouble", showNow())
	checkWall(t, ctx, url, "", airSizes, append([]wire.Board{long}, wallOf(t, 12, 9)[1:]...)...)
}

// TestCalmWallFits: 2 to 12 boards, none of them lifted; each state stands on the smallest cells.
func TestCalmWallFits(t *testing.T) {
	ctx := browser(t)
	url := pagesOf(t)
	for count := 2; count <= 11; count++ {
		checkWall(t, ctx, url, "&lift=off&side=black", sizesFor(count), wallOf(t, count, 5*count)...)
	}
	checkWall(t, ctx, url, "&lift=off", airSizes, wallOf(t, 12, 0)...)
	checkWall(t, ctx, url, "&lift=off", airSizes[1:2], wallOf(t, 12, len(airStates)-12)...)
	for _, state := range []string{"start", "preparation", "thinking", "stale", "no clocks", "estimated"} {
		checkWall(t, ctx, url, "&calm="+state[:4], airSizes[1:2], stated(t, 1, state, showNow()), stated(t, 2, state, showNow()))
	}
}

const wallSeen = `(() => {
	const box = (e) => { const { left, top, width, height } = e.getBoundingClientRect(); return [left, top, width, height].map(Math.round).join(' '); };
	const words = (e) => [...(e?.querySelectorAll('*') ?? [])].filter((x) => !x.children.length && x.textContent && getComputedStyle(x).visibility === 'visible' && x.getClientRects().length).map((x) => x.textContent).join(' ');
	const lifted = document.querySelector('#lifted');
	return {
		cells: [...document.querySelectorAll('.cell')].map(box), views: [...document.querySelectorAll('.cell')].map((c) => c.dataset.view).join(' '),
		marks: [...document.querySelectorAll('.cell[data-view=away] .mark b')].map((b) => b.textContent).join(' '),
		lifted: document.body.dataset.lifted ?? '', head: words(lifted.querySelector('.head')), fen: lifted.querySelector('.board')?.dataset.fen ?? '',
		shown: getComputedStyle(lifted).visibility === 'visible', order: [...document.querySelectorAll('.cell .card')].map((c) => c.dataset.board).join(' '),
	};
})()`

type wallPicture struct {
	Cells                                  []string
	Views, Marks, Lifted, Head, FEN, Order string
	Shown                                  bool
}

// TestWallLifts: the board where it burns is seen large with the reason in words; no other
// moves; what is no longer true is no longer said; and the board stays, for it has only come.
func TestWallLifts(t *testing.T) {
	ctx := browser(t)
	url := pagesOf(t)
	calm := func(n int) wire.Board { return stated(t, n, "thinking", showNow()) }
	openScene(t, ctx, url+"/scene/wall", calm(1), calm(2), calm(3), calm(4))
	before := evaluate[wallPicture](t, ctx, wallSeen)
	if before.Lifted != "" || before.Shown || before.Views != "card card card card" {
		t.Errorf("a calm wall: %+v", before)
	}
	hot := stated(t, 3, "time trouble", showNow())
	hot.Rev = 2
	evaluate[chromedp.Void](t, ctx, sayShow(calm(1), calm(2), hot, calm(4)))
	waitFor(t, ctx, "board 3", liftedIs(3))
	now := evaluate[wallPicture](t, ctx, wallSeen)
	if !now.Shown || now.Views != "card card away card" || now.Marks != "3" || now.FEN != placementOf(hot.FEN) {
		t.Errorf("board 3 lifted: %+v", now)
	}
	if want := hot.Black.Short; hot.Running == "black" && !strings.HasPrefix(now.Head, want+" in time trouble") {
		t.Errorf("the reason is %q, want that %s is in time trouble", now.Head, want)
	}
	if !slices.Equal(now.Cells, before.Cells) {
		t.Errorf("cells have moved from %v to %v", before.Cells, now.Cells)
	}
	calmed := calm(3)
	calmed.Rev = 3
	evaluate[chromedp.Void](t, ctx, sayShow(calm(1), calm(2), calmed, calm(4)))
	waitFor(t, ctx, "the reason to go", "!document.querySelector('#lifted .why b').textContent")
	if now := evaluate[wallPicture](t, ctx, wallSeen); now.Lifted != "3" || !now.Shown || strings.Contains(now.Head, "trouble") {
		t.Errorf("just lifted, and calm: %+v", now)
	}
	openScene(t, ctx, url+"/scene/wall?lift=off", calm(1), hot)
	waitFor(t, ctx, "both cells", "document.querySelectorAll('.cell[data-view=card]').length === 2")
	if now := evaluate[wallPicture](t, ctx, wallSeen); now.Lifted != "" || now.Shown {
		t.Errorf("lift=off: %+v", now)
	}
}

// TestQuietWall: in quiet mode no board is lifted, and the one that is goes back at once.
func TestQuietWall(t *testing.T) {
	ctx := browser(t)
	url := pagesOf(t)
	boards := []wire.Board{stated(t, 1, "thinking", showNow()), stated(t, 2, "time trouble", showNow())}
	openScene(t, ctx, url+"/scene/wall?motion=off", boards...)
	waitFor(t, ctx, "board 2", liftedIs(2))
	evaluate[chromedp.Void](t, ctx, strings.Replace(sayShow(boards...), `"quiet":false`, `"quiet":true`, 1))
	waitFor(t, ctx, "no board to be lifted", "!document.body.dataset.lifted")
	if now := evaluate[wallPicture](t, ctx, wallSeen); now.Shown || now.Views != "card card" {
		t.Errorf("in quiet mode: %+v", now)
	}
}

// TestWallBoards: the boards that the address names stand in its order, also one that has
// not come; and the relay sends no other.
func TestWallBoards(t *testing.T) {
	ctx := browser(t)
	a, b, c := quietGame, quietGame, quietGame
	b.White, b.Black, c.White, c.Black = "A, A", "B, B", "C, C", "D, D"
	url := pagesOf(t, a, b, c)
	for query, want := range map[string][2]string{"": {"1 2 3", "card card card"}, "?boards=3,9,1": {"3  1", "card awaited card"}, "?boards=what": {"1 2 3", "card card card"}} {
		visit(t, ctx, url+"/scene/wall"+query)
		waitFor(t, ctx, "the boards", fmt.Sprintf("[...document.querySelectorAll('.cell .card')].map((c) => c.dataset.board ?? '').join(' ') === '%s'", want[0]))
		if got := evaluate[wallPicture](t, ctx, wallSeen); got.Views != want[1] {
			t.Errorf("%q: cells are %q, want %q", query, got.Views, want[1])
		}
	}
}

// TestWallForgetsBoards: after a start of the relay without its past there may be fewer boards
// than there were.
func TestWallForgetsBoards(t *testing.T) {
	ctx := browser(t)
	boards := []wire.Board{stated(t, 1, "thinking", showNow()), stated(t, 2, "thinking", showNow()), stated(t, 3, "thinking", showNow())}
	openScene(t, ctx, pagesOf(t)+"/scene/wall", boards...)
	const cells = "[...document.querySelectorAll('.cell .card')].map((c) => c.dataset.board ?? '').join(' ') === '%s'"
	waitFor(t, ctx, "three boards", fmt.Sprintf(cells, "1 2 3"))
	evaluate[chromedp.Void](t, ctx, sayShow(boards[:2]...))
	waitFor(t, ctx, "two boards", fmt.Sprintf(cells, "1 2"))
}
