package main

import (
	"context"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"clocktell/static"
)

// lineMeasure is what static/test/tellmeasure.mjs has measured of one drawing.
type lineMeasure struct {
	Of       string   `json:"of"`
	Faults   []string `json:"faults"`
	Presses  int      `json:"presses"`
	Thoughts int      `json:"thoughts"`
	Texts    int      `json:"texts"`
	Says     string   `json:"says"`
	Costs    struct {
		Cuts  int `json:"cuts"`
		Other int `json:"other"`
	} `json:"costs"`
}

// tellSheet serves the sheet that draws the tell line in every state and size.
// It is a page of the tests: what is served to viewers does not hold it.
func tellSheet(t *testing.T) string {
	t.Helper()
	mux := http.NewServeMux()
	mux.Handle("/static/", http.StripPrefix("/static/", http.FileServerFS(static.FS)))
	mux.Handle("/sheet/", http.StripPrefix("/sheet/", http.FileServerFS(os.DirFS("../../static/test"))))
	server := httptest.NewServer(mux)
	t.Cleanup(server.Close)
	return server.URL + "/sheet/tellsheet.html"
}

// measured draws a sheet and returns what was measured. With CLOCKTELL_PICTURES
// naming a folder, a picture of the sheet is left there for people to look at.
func measured(t *testing.T, ctx context.Context, sheet, name, query string) []lineMeasure {
	t.Helper()
	visit(t, ctx, sheet+"?"+query)
	waitFor(t, ctx, "the sheet "+name, "document.body.dataset.drawn === 'true'")
	if folder := os.Getenv("CLOCKTELL_PICTURES"); folder != "" {
		picture := page(t, ctx, "picture of "+name, chromedp.FullScreenshot(100))
		if err := os.WriteFile(filepath.Join(folder, "tellline-"+name+".png"), picture, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return evaluate[[]lineMeasure](t, ctx, "window.measures")
}

// TestTellLineIsLegible draws fourteen invented states in every size: presses are
// low and thoughts as high as their lane, so that they differ without colour, no
// move is narrower than its floor, and texts stand in their places and apart.
func TestTellLineIsLegible(t *testing.T) {
	ctx := browser(t)
	sheet := tellSheet(t)
	for _, c := range []struct {
		name, query string
		drawings    int
	}{
		{"sizes", "", 154},
		{"grey", "grey=on", 154},
		{"moves", "moves=on&sizes=desk,recap", 28},
		{"320", "width=320&sizes=panel,phone,card,filter,wall", 70},
	} {
		lines := measured(t, ctx, sheet, c.name, c.query)
		if len(lines) != c.drawings {
			t.Errorf("%s: %d drawings, want %d", c.name, len(lines), c.drawings)
		}
		var presses, thoughts, texts int
		for _, line := range lines {
			for _, fault := range line.Faults {
				t.Errorf("%s: %s: %s", c.name, line.Of, fault)
			}
			presses, thoughts, texts = presses+line.Presses, thoughts+line.Thoughts, texts+line.Texts
		}
		if presses < 5*c.drawings || thoughts < 5*c.drawings || texts < c.drawings {
			t.Errorf("%s: measured %d presses, %d thoughts and %d texts, too few to tell anything", c.name, presses, thoughts, texts)
		}
	}
}

// TestTellLineGrowsForNothing looks at what one second changes: a few cuts,
// the figures of the time on this move, and no shape.
func TestTellLineGrowsForNothing(t *testing.T) {
	ctx := browser(t)
	const most = 4 // what has passed, the two lines of the present, and the running block
	moving := 0
	for _, line := range measured(t, ctx, tellSheet(t), "costs", "") {
		if line.Costs.Other != 0 || line.Costs.Cuts > most {
			t.Errorf("%s: a second cuts %d parts anew and changes %d other things, want at most %d and 0",
				line.Of, line.Costs.Cuts, line.Costs.Other, most)
		}
		if line.Costs.Cuts > 0 {
			moving++
		}
	}
	if moving < 100 {
		t.Errorf("%d drawings move, want most", moving)
	}
}

// TestTellLineInWords reads the sentence for those who do not see the drawing.
func TestTellLineInWords(t *testing.T) {
	ctx := browser(t)
	lines := measured(t, ctx, tellSheet(t), "words", "sizes=panel")
	i := slices.IndexFunc(lines, func(l lineMeasure) bool { return strings.HasPrefix(l.Of, "new move, time trouble") })
	if i < 0 {
		t.Fatal("the state is not drawn")
	}
	want := "Times of the moves: 19 moves in 19\u00a0min; White 19 of 19 in preparation, longest 0:16 on 15 Nb3; " +
		"Black 7 of 18 in preparation, 1 in time trouble, longest 4:34 on 11… cxd4; new with 19 d4; Black to move."
	if lines[i].Says != want {
		t.Errorf("says\n%s\nwant\n%s", lines[i].Says, want)
	}
}
