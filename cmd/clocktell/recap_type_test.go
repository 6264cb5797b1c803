package main

import (
	"context"
	"encoding/base64"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"clocktell/relay/drawing"
)

// letters are some of either part of the type.
var letters = map[string]string{"latin": "Quintanilha 0123456789 :.–… ×½ KQRBN abcdefgh ÄÖÜß", "latin-ext": "ŁąčďěğńőřšťůžŸ"}

// recapType: Chromium draws letters with the type that pictures are made with exactly as with
// that of the pages, of which it is a copy; and they are as wide as is reckoned with.
func recapType(t *testing.T, ctx context.Context) {
	for part, text := range letters {
		for _, weight := range []int{500, 600, 700} {
			pages := fmt.Sprintf("../../static/fonts/barlow-semi-condensed-%s-%d-normal.woff2", part, weight)
			ours := fmt.Sprintf("../../relay/drawing/type/barlow-semi-condensed-%s-%d.ttf", part, weight)
			html := `<canvas id=a width=900 height=60></canvas><canvas id=b width=900 height=60></canvas><style>` + face(t, "a", pages) + face(t, "b", ours) + `</style>`
			file := filepath.Join(t.TempDir(), "type.html")
			if err := os.WriteFile(file, []byte(html), 0o600); err != nil {
				t.Fatal(err)
			}
			visit(t, ctx, "file://"+file)
			evaluate[bool](t, ctx, `(window.ready = 0, Promise.all(['a', 'b'].map((f) => document.fonts.load('32px ' + f, 'Łx'))).then(() => { window.ready = document.fonts.size }), true)`)
			waitFor(t, ctx, "the type", "window.ready === 2 && document.fonts.check('32px a') && document.fonts.check('32px b')")
			got := evaluate[[]float64](t, ctx, fmt.Sprintf(`(() => {
				const drawn = ['a', 'b'].map((f) => {
					const c = document.getElementById(f).getContext('2d', { willReadFrequently: true });
					c.font = '32px ' + f; c.fontKerning = 'none'; c.fillText(%[1]q, 4, 40);
					return { wide: c.measureText(%[1]q).width, data: c.getImageData(0, 0, 900, 60).data };
				});
				const other = drawn[0].data.filter((v, i) => v !== drawn[1].data[i]).length;
				return [drawn[0].wide, drawn[1].wide, other, drawn[0].data.filter((v) => v > 0).length];
			})()`, text))
			if got[0] != got[1] || got[2] != 0 || got[3] < 500 {
				t.Errorf("%s %d: %g and %g wide, %g values differ, %g are drawn", part, weight, got[0], got[1], got[2], got[3])
			}
			if wide := drawing.Width(text, 32, weight); wide < got[0]-1 || wide > got[0]+1 {
				t.Errorf("%s %d: %g wide, in Chromium %g", part, weight, wide, got[0])
			}
		}
	}
}

func face(t *testing.T, name, file string) string {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("@font-face { font-family: %s; src: url(data:font/x;base64,%s); }", name, base64.StdEncoding.EncodeToString(text))
}
