package recap

import (
	"encoding/base64"
	"fmt"
	"html/template"
	"strings"
	"sync"

	"clocktell/static"
)

// faces of the pages: family, file name and weight.
var faces = []struct {
	family, file string
	weight       int
}{
	{"Barlow", "barlow", 400}, {"Barlow", "barlow", 500},
	{"Barlow Semi Condensed", "barlow-semi-condensed", 500}, {"Barlow Semi Condensed", "barlow-semi-condensed", 600}, {"Barlow Semi Condensed", "barlow-semi-condensed", 700},
}

// Parts of the type, with the letters in them.
const (
	latin = "U+0000-00FF, U+0131, U+0152-0153, U+02BB-02BC, U+02C6, U+02DA, U+02DC, U+2000-206F, U+20AC, U+2122, U+2191, U+2193, U+2212, U+2215"
	rest  = "U+0100-02BA, U+02BD-02C5, U+02C7-02CC, U+02CE-02D7, U+02DD-02FF, U+1D00-1DBF, U+1E00-1E9F, U+1EF2-1EFF, U+20A0-20AB, U+20AD-20C0, U+2C60-2C7F, U+A720-A7FF"
)

// styleOf returns the style of a page with the type in it, so that the page is one file. Letters
// of the rest of Europe come along where the text has some.
func styleOf(text string) template.CSS {
	out := sheet() + typeOf("latin", latin)
	if strings.ContainsFunc(text, func(r rune) bool { return r >= 0x100 && r < 0x2000 || r >= 0x20a0 && r < 0x2e00 }) {
		out += typeOf("latin-ext", rest)
	}
	return template.CSS(out)
}

var sheet = sync.OnceValue(func() string {
	text, err := files.ReadFile("page.css")
	if err != nil {
		panic(err) // it is built in
	}
	return string(text)
})

var typeOf = func() func(part, letters string) string {
	var mu sync.Mutex // protects made
	made := make(map[string]string)
	return func(part, letters string) string {
		mu.Lock()
		defer mu.Unlock()
		if made[part] == "" {
			made[part] = facesOf(part, letters)
		}
		return made[part]
	}
}()

func facesOf(part, letters string) string {
	var out strings.Builder
	for _, f := range faces {
		text, err := static.FS.ReadFile(fmt.Sprintf("fonts/%s-%s-%d-normal.woff2", f.file, part, f.weight))
		if err != nil {
			panic(fmt.Errorf("the type that is built in: %w", err)) // a fault of the build
		}
		fmt.Fprintf(&out, "@font-face{font-family:'%s';font-weight:%d;src:url(data:font/woff2;base64,%s) format('woff2');unicode-range:%s}\n",
			f.family, f.weight, base64.StdEncoding.EncodeToString(text), letters)
	}
	return out.String()
}
