package overlay

import (
	"fmt"
	"iter"
	"net/url"
	"slices"
	"strconv"
	"strings"
)

// wallMost is how many boards one wall is sent at most; more would be too small to read.
const wallMost = 12

// boardOnAir in an address is the board that the desk has on the air.
const boardOnAir = "air"

// chosen says which boards a page is sent; without numbers, all from the first up to most.
type chosen struct {
	boards []int
	most   int  // 0: without an end
	air    bool // the one that the desk has on the air, whichever it is
}

// among yields the numbers of the boards that are sent, of so many that there are.
func (c chosen) among(count int) iter.Seq[int] {
	return func(yield func(int) bool) {
		for _, number := range c.boards {
			if number <= count && !yield(number) {
				return
			}
		}
		if len(c.boards) > 0 {
			return
		}
		if c.most > 0 {
			count = min(count, c.most)
		}
		for number := 1; number <= count && yield(number); number++ {
		}
	}
}

// amongFrom yields the same numbers, those before from last.
func (c chosen) amongFrom(from, count int) iter.Seq[int] {
	return func(yield func(int) bool) {
		for number := range c.among(count) {
			if number >= from && !yield(number) {
				return
			}
		}
		for number := range c.among(count) {
			if number < from && !yield(number) {
				return
			}
		}
	}
}

// single is the board of a page that shows one, else 0.
func (c chosen) single() int {
	if len(c.boards) == 1 {
		return c.boards[0]
	}
	return 0
}

// boardsAsked reads from a page's address which boards it is to be sent.
func boardsAsked(kind pageKind, query url.Values) (chosen, error) {
	one, list := query.Get("board"), query.Get("boards")
	c := chosen{}
	if kind.boards == fewBoards {
		c.most = wallMost
	}
	switch {
	case one == boardOnAir && kind.air && kind.held:
		c.air = true
	case one != "":
		number, err := boardNumber(one)
		if err != nil {
			return chosen{}, err
		}
		c.boards = []int{number}
	case kind.boards == oneBoard:
		c.boards = []int{1}
	case list != "" && kind.boards == fewBoards:
		for text := range strings.SplitSeq(list, ",") {
			number, err := boardNumber(text)
			if err != nil || slices.Contains(c.boards, number) || len(c.boards) == wallMost {
				return chosen{}, fmt.Errorf("boards=%.60s names no board, one twice, or more than %d", list, wallMost)
			}
			c.boards = append(c.boards, number)
		}
		slices.Sort(c.boards) // as they are sent
	}
	return c, nil
}

func boardNumber(text string) (int, error) {
	number, err := strconv.Atoi(text)
	if err != nil || number < 1 || strconv.Itoa(number) != text {
		return 0, errUnknownPage
	}
	return number, nil
}
