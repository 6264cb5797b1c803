package build

import (
	"strconv"
	"strings"
	"testing"

	"clocktell/relay/clock"
	"clocktell/relay/pgn"
	"clocktell/relay/reference"
)

// TestHeaders reads tags as PGN 8.1.1 and 9 of the standard of 1994 describe them.
func TestHeaders(t *testing.T) {
	tests := []struct {
		tags, end string
		want      reference.Game
	}{
		{`[Event "Club"][White "Aune, Liv"][Black "Berg"][Date "1998.05.??"][WhiteElo "2401"][BlackElo "2399"][Result "1-0"][Mode "OTB"][TimeControl "600+5"]`, "1-0",
			reference.Game{Event: "Club", White: "Aune, Liv", Black: "Berg", Year: 1998, WhiteRating: 2401, BlackRating: 2399,
				Result: reference.WhiteWon, Venue: reference.OverTheBoard, Class: clock.ClassRapid}},
		{`[Event "?"][White "?"][Black "-"][Date "????.??.??"][WhiteElo "-"][BlackElo "?"][Result "*"][Mode "ICS"][TimeControl "?"]`, "*",
			reference.Game{Venue: reference.Elsewhere}},
		{`[Date "????.??.??"][UTCDate "2024.12.07"][Result "1/2-1/2"]`, "*", reference.Game{Year: 2024, Result: reference.Drawn}},
		{`[Date "2023.12.31"][UTCDate "2024.01.01"][Result "*"]`, "0-1", reference.Game{Year: 2023, Result: reference.BlackWon}},
		{`[Date "20231231"][Result "1-0"]`, "0-1", reference.Game{}},
		{`[Date "0098.01.01"][WhiteElo "99999"][BlackElo "-5"][Mode "EM"]`, "*", reference.Game{Venue: reference.Elsewhere}},
		{`[Date "2023"][TimeControl "40/7200:3600"][Mode "otb"]`, "*", reference.Game{Year: 2023, Class: clock.ClassStandard, Venue: reference.OverTheBoard}},
	}
	headers := newHeaders()
	for _, tt := range tests {
		text := strings.ReplaceAll(tt.tags, "][", "]\n[") + "\n\n1. e4 " + tt.end + "\n"
		g, _ := pgn.Next(text, 1)
		for range 2 { // the second time the time control is remembered
			if got := headers.read(&g); got.Game != tt.want {
				t.Errorf("%s\ngot  %+v\nwant %+v", text, got.Game, tt.want)
			}
		}
	}
}

// A long name is cut, between two characters, to what a row can hold.
func TestLongName(t *testing.T) {
	long := strings.Repeat("ø", nameBytes)
	g := pgn.Game{Tags: []pgn.Tag{{Name: "White", Value: "x" + long}}}
	h := newHeaders().read(&g)
	if want := "x" + long[:nameBytes-2]; h.White != want {
		t.Errorf("%d bytes: %q", len(h.White), h.White)
	}
	r, n, err := readRow(appendRow(nil, &h.Game, 7, nil))
	if err != nil || r.times != nil || r.Game != h.Game || r.identity != 7 || n != rowLeast+len(h.White) {
		t.Errorf("the row is %+v of %d bytes, %v", r, n, err)
	}
}

// Half a row, or nonsense, is an error and never a game.
func TestRowDamaged(t *testing.T) {
	whole := appendRow(nil, &reference.Game{White: "Aune", Black: "Berg", Event: "Club", Year: 2020}, 1, &gameTimes{control: "600", sides: [2]sideTimes{noTimes(), noTimes()}})
	for n := range whole {
		if _, _, err := readRow(whole[:n]); err == nil {
			t.Errorf("%d of %d bytes are taken for a game", n, len(whole))
		}
	}
	whole[8] = 255
	if _, _, err := readRow(whole); err == nil {
		t.Error("a name longer than the row is taken")
	}
}

// No more time controls are remembered than the limit says, and the others are read all
// the same.
func TestClassesMost(t *testing.T) {
	h := newHeaders()
	for i := range classesMost + 10 {
		if got := h.classOf(strconv.Itoa(60+i%500) + "+" + strconv.Itoa(i/500)); got == clock.ClassUnknown {
			t.Fatalf("control %d has no class", i)
		}
	}
	if len(h.classes) != classesMost {
		t.Errorf("%d time controls are remembered, want %d", len(h.classes), classesMost)
	}
}

// TestFilters builds with filters; what is left in is what the slow filter lets pass, and
// what is left out is told by its reason.
func TestFilters(t *testing.T) {
	path := someGames(t, 20)
	slow := countSlowly(t, mustRead(t, path), 1)
	for _, f := range slowFilters {
		want := 0
		for _, tags := range slow.games {
			if passes(tags, f) {
				want++
			}
		}
		o := options(t, path)
		o.Keep = f
		if want == 0 {
			if _, err := Run(t.Context(), o); err == nil || !strings.Contains(err.Error(), "no game is left") {
				t.Errorf("%+v: error %v", f, err)
			}
			continue
		}
		report := mustBuild(t, o)
		out := 0
		for _, skip := range report.Skipped {
			out += skip.Games
		}
		if report.Kept != want || report.Kept+out != report.Games {
			t.Errorf("%+v: %d games kept and %d left out of %d, want %d kept", f, report.Kept, out, report.Games, want)
		}
		if index := mustOpen(t, o.Out); index.Head().Filter != f {
			t.Errorf("the file tells of the filter %+v, want %+v", index.Head().Filter, f)
		}
	}
}

// Doubles count as often as they come if they are to.
func TestKeepDoubles(t *testing.T) {
	path := mustWrite(t, "games.pgn", strings.Repeat(bzip2Text+"\n", 5))
	for _, keep := range []bool{false, true} {
		o := options(t, path)
		o.KeepDoubles = keep
		report := mustBuild(t, o)
		want := map[bool]int{false: 1, true: 5}[keep]
		if report.Kept != want || mustOpen(t, o.Out).Games() != want {
			t.Errorf("doubles kept: %v; %d games, want %d", keep, report.Kept, want)
		}
	}
}
