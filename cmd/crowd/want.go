package main

import (
	"fmt"
	"net/url"
	"slices"
	"strconv"
	"strings"
	"time"

	"clocktell/overlay/wire"
)

// want is what a page asks for in its address.
type want struct {
	page   string
	boards []int         // none: all
	hold   time.Duration // 0: none
}

// framesOf is what each page is sent, as the table of PROTOCOL.md has it; a board, a
// welcome and a pong go to all.
var framesOf = map[string][]string{
	"scene/board":  {wire.TypeShow, wire.TypeAir, wire.TypeCaption, wire.TypeTime},
	"scene/clocks": {wire.TypeShow, wire.TypeAir, wire.TypeTime},
	"scene/wall":   {wire.TypeShow, wire.TypeTime},
	"desk":         {wire.TypeShow, wire.TypeAir, wire.TypePrompts, wire.TypeCaption, wire.TypeDesk, wire.TypeOpinions, wire.TypeHolds},
	"panel":        {wire.TypeShow, wire.TypePrompts, wire.TypeTable, wire.TypePeople, wire.TypeCaption, wire.TypeOpinions},
	"health":       {wire.TypeShow, wire.TypeFeeds, wire.TypeSources, wire.TypeLog, wire.TypePages, wire.TypeHolds},
}

var framesOfAll = []string{wire.TypeWelcome, wire.TypeBoard, wire.TypePong}

// wallMost is how many boards a wall asks for here.
const wallMost = 12

// wantOf is what the nth page of a kind asks for among so many tables.
func wantOf(page string, n, tables int) want {
	w := want{page: page}
	switch page {
	case "scene/board", "scene/clocks":
		w.boards = []int{n%tables + 1}
	case "scene/wall":
		for i := range min(wallMost, tables) {
			w.boards = append(w.boards, (n*wallMost+i)%tables+1)
		}
	}
	return w
}

func (w want) scene() bool { return strings.HasPrefix(w.page, "scene/") }

func (w want) log() bool { return slices.Contains(framesOf[w.page], wire.TypeLog) }

func (w want) takes(kind string) bool {
	return slices.Contains(framesOfAll, kind) || slices.Contains(framesOf[w.page], kind)
}

func (w want) has(board int) bool { return len(w.boards) == 0 || slices.Contains(w.boards, board) }

// numbers lists the boards that the page must have in a show of so many.
func (w want) numbers(tables int) []int {
	if len(w.boards) > 0 {
		return w.boards
	}
	all := make([]int, tables)
	for i := range all {
		all[i] = i + 1
	}
	return all
}

// path is the address of the page's socket; one that comes back says of which run, which line of
// the log it had last, and when the newest of its boards came.
func (w want) path(run string, line uint64, seen int64) string {
	q := url.Values{"page": {w.page}}
	switch {
	case w.page == "scene/wall":
		names := make([]string, len(w.boards))
		for i, n := range w.boards {
			names[i] = strconv.Itoa(n)
		}
		q.Set("boards", strings.Join(names, ","))
	case len(w.boards) == 1:
		q.Set("board", strconv.Itoa(w.boards[0]))
	}
	if w.hold > 0 {
		q.Set("hold", strconv.FormatFloat(w.hold.Seconds(), 'f', -1, 64))
	}
	if run != "" {
		q.Set("run", run)
	}
	if w.log() && line > 0 {
		q.Set("log", strconv.FormatUint(line, 10))
	}
	if seen > 0 {
		q.Set("seen", strconv.FormatInt(seen, 10))
	}
	return "/live?" + q.Encode()
}

func (w want) String() string {
	if w.hold > 0 {
		return fmt.Sprintf("%s held by %v", w.page, w.hold)
	}
	return w.page
}
