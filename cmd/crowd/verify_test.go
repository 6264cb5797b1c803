package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/overlay/wire"
)

// start is when the games of these tests begin; a ply is played each second.
var start = time.Date(2026, 10, 17, 12, 0, 0, 0, time.UTC)

var sans = []string{"e4", "e5", "Nf3", "Nc6", "Bb5", "a6", "Ba4", "Nf6"}

// score is a truth of one table, at which so many plies of sans have been played.
type score int

func (s score) plyAt(table, round, index int) (ply, bool) {
	if table != 7 || round != 1 || index < 0 || index >= int(s) {
		return ply{}, false
	}
	return ply{sans[index], start.Add(time.Duration(index+1) * time.Second)}, true
}

func (s score) stands(table int) (round, plies int, result string) { return 1, int(s), "*" }

// text is a frame as the relay writes it, put together from what the case says.
func text(kind, rest string) string { return `{"type":"` + kind + `",` + rest + `}` }

// board is an update of board 1 that adds the ply of its number: revision 1 has none, 2 the first.
func board(rev int) string {
	base, plies := rev-1, fmt.Sprintf(`[{"number":%d,"san":%q}]`, rev-1, sans[max(rev-2, 0)])
	if rev == 1 {
		plies = "[]"
	}
	at := start.Add(time.Duration(rev-1) * time.Second).UnixMilli()
	return text("board", fmt.Sprintf(`"board":1,"base":%d,"rev":%d,"at":%d,"round":"1","table":"7","keep":%d,"plies":%s,"result":"*"`, base, rev, at, max(rev-2, 0), plies))
}

func logLines(seqs ...int) string {
	var items []string
	for _, seq := range seqs {
		items = append(items, fmt.Sprintf(`{"seq":%d}`, seq))
	}
	return text("log", `"items":[`+strings.Join(items, ",")+`]`)
}

func sources(rev, base int) string {
	return text("sources", fmt.Sprintf(`"rev":%d,"base":%d,"items":[],"errors":[]`, rev, base))
}

var welcome = text("welcome", fmt.Sprintf(`"version":%d,"run":"A","now":0,"rate":1,"pingEveryMs":2000`, wire.Version))

// fed feeds frames to a page, boards as soon as it may have them, or earlier by so much, and
// ends; it returns which breaches there were.
func fed(t *testing.T, w want, truth score, m marks, early time.Duration, frames ...string) []breach {
	t.Helper()
	var found []breach
	v := verifier{truth: truth, want: w, breach: func(b breach, format string, args ...any) {
		t.Logf("%v: %s", b, fmt.Sprintf(format, args...))
		found = append(found, b)
	}}
	v.forget()
	d := newDecoder()
	now := start.Add(w.hold)
	v.clock.sample(now, now, start.UnixMilli())
	for _, text := range frames {
		f, err := d.read([]byte(text))
		if err != nil {
			found = append(found, breachShape)
			continue
		}
		if f.kind == wire.TypeBoard {
			now = start.Add(w.hold + time.Duration(f.board.Rev-1)*time.Second - early)
		}
		v.take(f, now)
	}
	v.ends(1, &m)
	return found
}

// TestVerifierFindsFaults plants one fault after another into what a page is sent: each is
// found, and nothing is found where there is none.
func TestVerifierFindsFaults(t *testing.T) {
	scene := want{page: "scene/board", boards: []int{1}}
	held := want{page: "scene/board", boards: []int{1}, hold: 12 * time.Second}
	health := want{page: "health"}
	all := []string{welcome, board(1), board(2), board(3), board(4)}
	without := func(i int) []string { return slices.Delete(slices.Clone(all), i, i+1) }
	swapped := []string{welcome, board(1), board(3), board(2), board(4)}
	logged := func(lines ...string) []string { return append(slices.Clone(all), lines...) }
	whole := strings.NewReplacer(`"base":4`, `"base":0`, `"keep":3`, `"keep":0`,
		`"plies":[`, `"plies":[{"san":"e4"},{"san":"e5"},{"san":"Nf3"},`).Replace(board(5))
	for _, c := range []struct {
		name   string
		want   want
		truth  score
		marks  marks
		frames []string
		early  time.Duration
		found  []breach
	}{
		{name: "nothing", want: scene, truth: 3, frames: all},
		{name: "nothing, held back", want: held, truth: 3, frames: all},
		{name: "nothing, of the log", want: health, truth: 3, frames: logged(logLines(40, 41), logLines(42))},
		{name: "nothing: a slow page gets the newest whole", want: scene, truth: 4, frames: []string{welcome, board(1), board(2), whole}},
		{name: "nothing, of the sources", want: health, truth: 3, frames: logged(sources(7, 0), sources(9, 7))},
		{name: "rows of the sources are lost", want: health, truth: 3, frames: logged(sources(7, 0), sources(9, 8)), found: []breach{breachLost}},
		{name: "the sources are never whole", want: health, truth: 3, frames: logged(sources(9, 8)), found: []breach{breachLost}},
		{name: "a frame is lost", want: scene, truth: 3, frames: without(3), found: []breach{breachLost, breachLost}},
		{name: "the last frame is lost", want: scene, truth: 3, frames: without(4), found: []breach{breachLost}},
		{name: "all boards are lost", want: scene, truth: 3, frames: all[:1], found: []breach{breachLost}},
		{name: "the last state is lost, which is no move", want: scene, truth: 3, marks: marks{boards: map[int]uint64{1: 5}}, frames: all, found: []breach{breachLost}},
		{name: "a frame is doubled", want: scene, truth: 3, frames: []string{welcome, board(1), board(2), board(2), board(3), board(4)}, found: []breach{breachDoubled, breachLost}},
		{name: "a whole board is doubled", want: scene, truth: 4, frames: append(slices.Clone(all), whole, whole), found: []breach{breachDoubled}},
		{name: "two frames are swapped", want: scene, truth: 3, frames: swapped, found: []breach{breachLost, breachLost, breachLost}},
		{name: "an old whole board comes after a new one", want: scene, truth: 4, frames: []string{welcome, whole, board(1)}, found: []breach{breachOrder, breachLost}},
		{name: "a move that was not played", want: scene, truth: 3, frames: []string{welcome, board(1), board(2), strings.Replace(board(3), "e5", "c5", 1), board(4)}, found: []breach{breachUntrue}},
		{name: "a move too many", want: scene, truth: 2, frames: all, found: []breach{breachUntrue, breachLost}},
		{name: "boards come a second too early to a page that is held back", want: held, truth: 3, frames: all, early: time.Second, found: slices.Repeat([]breach{breachTooNew}, 4+3)},
		{name: "a receipt is newer than the page's time", want: scene, truth: 3, frames: []string{welcome, board(1), board(2), board(3), strings.Replace(board(4), `"at":`, `"at":9`, 1)}, found: []breach{breachTooNew}},
		{name: "a board that was not asked for", want: want{page: "scene/board", boards: []int{2}}, truth: 3, frames: all[:2], found: []breach{breachUnasked, breachLost}},
		{name: "a frame that a scene is not sent", want: scene, truth: 3, frames: logged(logLines(1)), found: []breach{breachUnasked}},
		{name: "a line of the log is lost", want: health, truth: 3, frames: logged(logLines(40, 42)), found: []breach{breachLost}},
		{name: "the last line of the log is lost", want: health, truth: 3, marks: marks{line: 43}, frames: logged(logLines(40, 41, 42)), found: []breach{breachLost}},
		{name: "a line of the log is doubled", want: health, truth: 3, frames: logged(logLines(40, 41), logLines(41, 42)), found: []breach{breachDoubled}},
		{name: "two lines of the log are swapped", want: health, truth: 3, frames: logged(logLines(40, 42, 41, 43)), found: []breach{breachLost, breachDoubled}},
		{name: "a state comes twice", want: health, truth: 3, frames: logged(text("show", `"rev":3,"title":""`), text("show", `"rev":3,"title":""`)), found: []breach{breachDoubled}},
		{name: "an older state comes", want: health, truth: 3, frames: logged(text("show", `"rev":3,"title":""`), text("show", `"rev":2,"title":""`)), found: []breach{breachOrder}},
		{name: "no welcome", want: scene, truth: 0, frames: []string{board(1)}, found: []breach{breachOrder}},
		{name: "another version", want: scene, truth: 3, frames: append([]string{strings.Replace(welcome, `"version":`, `"version":9`, 1)}, all[1:]...), found: []breach{breachShape}},
		{name: "a type that is none", want: scene, truth: 3, frames: logged(text("bored", `"rev":1`)), found: []breach{breachShape}},
		{name: "half a frame", want: scene, truth: 3, frames: logged(board(5)[:60]), found: []breach{breachShape}},
	} {
		t.Run(c.name, func(t *testing.T) {
			found := fed(t, c.want, c.truth, c.marks, c.early, c.frames...)
			if !slices.Equal(found, c.found) {
				t.Errorf("found %v, want %v", found, c.found)
			}
		})
	}
}

// TestTooNewByTheClock: what a held page is sent is held to when moves were played, whatever
// the relay says of its time.
func TestTooNewByTheClock(t *testing.T) {
	const hold = 12 * time.Second
	for early, want := range map[time.Duration]int{0: 0, time.Millisecond: 1, hold: 1} {
		count := 0
		v := verifier{truth: score(3), want: heldBack(hold), breach: func(b breach, _ string, _ ...any) {
			if b == breachTooNew {
				count++
			}
		}}
		v.forget()
		f, err := decode([]byte(board(4)))
		if err != nil {
			t.Fatal(err)
		}
		v.open = true
		v.take(f, start.Add(3*time.Second+hold-early))
		if count != want {
			t.Errorf("early by %v: %d breaches, want %d", early, count, want)
		}
	}
}

func heldBack(hold time.Duration) want {
	return want{page: "scene/board", boards: []int{1}, hold: hold}
}

// TestBoundsHoldTheTruth: whatever way a ping and its pong take, the relay's time lies
// between the bounds.
func TestBoundsHoldTheTruth(t *testing.T) {
	const ahead = 1234567 * time.Microsecond // of the relay's time before ours
	var s showTime
	if _, _, ok := s.bounds(start); ok {
		t.Error("without a sample there are bounds")
	}
	at := start
	for n := range 3 * samplesKept {
		out, back := time.Duration(n*n%7)*time.Millisecond, time.Duration(n*5%11)*time.Millisecond
		relay := at.Add(out).Add(ahead)
		s.sample(at, at.Add(out+back), relay.UnixMilli())
		at = at.Add(out + back)
		least, most, ok := s.bounds(at)
		if now := at.Add(ahead); !ok || now.Before(least.Add(-time.Millisecond)) || now.After(most) {
			t.Errorf("sample %d: %v is not between %v and %v", n, now, least, most)
		}
		if n > samplesKept && most.Sub(least) > 12*time.Millisecond {
			t.Errorf("sample %d: bounds are %v apart", n, most.Sub(least))
		}
		at = at.Add(2 * time.Second)
	}
}
