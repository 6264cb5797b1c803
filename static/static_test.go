package static_test

import (
	"io/fs"
	"path"
	"regexp"
	"strings"
	"testing"

	"clocktell/static"
)

// references are the ways a file names another one.
var references = []*regexp.Regexp{
	regexp.MustCompile(`\b(?:src|href)="([^"#]+)"`),                           // HTML
	regexp.MustCompile(`url\(['"]?([^'")#]+)['"]?\)`),                         // CSS
	regexp.MustCompile(`(?:\bfrom\s+|\bimport\s*\(?\s*)['"]([./][^'"]+)['"]`), // modules and their types
}

// tooNew lists what came to Chromium after release 103, with the release that
// brought it. The numbers are from memory; it is a small net, not a proof.
var tooNew = map[string]map[string]*regexp.Regexp{
	".css": {
		"nesting, 112":                 regexp.MustCompile(`(?m)^\s+&`),
		":has(), 105":                  regexp.MustCompile(`:has\(`),
		"container queries, 105":       regexp.MustCompile(`@container|container-type|\dcq[wh]\b`),
		"color-mix(), 111":             regexp.MustCompile(`color-mix\(`),
		"oklch() and its kin, 111":     regexp.MustCompile(`\bok(?:lch|lab)\(`),
		"@scope, 118":                  regexp.MustCompile(`@scope\b`),
		"single transforms, 104":       regexp.MustCompile(`(?m)^\s*(?:scale|translate|rotate)\s*:`),
		"dvh and its kin, 108":         regexp.MustCompile(`\d[dsl]v[hw]\b`),
		"media ranges, 104":            regexp.MustCompile(`@media[^{]*[<>]`),
		"text-wrap: balance, 114":      regexp.MustCompile(`text-wrap\s*:`),
		"subgrid, 117":                 regexp.MustCompile(`\bsubgrid\b`),
		"trigonometry in lengths, 111": regexp.MustCompile(`\b(?:sin|cos|tan)\(`),
	},
	".js": {
		"Array.fromAsync, 121":       regexp.MustCompile(`Array\.fromAsync`),
		"copying array methods, 110": regexp.MustCompile(`\.to(?:Sorted|Reversed|Spliced)\(|\.with\(`),
		"Object.groupBy, 117":        regexp.MustCompile(`(?:Object|Map)\.groupBy`),
		"Promise.withResolvers, 119": regexp.MustCompile(`Promise\.(?:withResolvers|try)`),
		"Set methods, 122":           regexp.MustCompile(`\.(?:isSubsetOf|symmetricDifference|isDisjointFrom)\(`),
		"regular expression v, 112":  regexp.MustCompile(`/[gimsuy]*v[gimsuy]*\.(?:test|exec)\(`),
		"AbortSignal.any, 116":       regexp.MustCompile(`AbortSignal\.(?:any|timeout)\b`),
		"URL.canParse, 120":          regexp.MustCompile(`URL\.(?:canParse|parse)\(`),
		"iterator helpers, 122":      regexp.MustCompile(`\.(?:values|keys|entries)\(\)\.(?:map|filter|take|drop|toArray)\(`),
		"single transforms, 104":     regexp.MustCompile(`\{\s*(?:scale|translate|rotate): [\x60'"]`),
	},
}

// inline is what a strict content security policy blocks.
var inline = regexp.MustCompile(`(?i)<script(?:\s+type="module")?>|<style|\sstyle="|\son[a-z]+="`)

func TestReferencesResolve(t *testing.T) {
	count := 0
	eachText(t, func(name, text string) {
		for _, re := range references {
			for _, m := range re.FindAllStringSubmatch(text, -1) {
				count++
				checkReference(t, name, m[1])
			}
		}
	})
	if count < 40 {
		t.Errorf("found %d references, want at least 40: the patterns no longer match", count)
	}
}

// checkReference reports a reference that leads nowhere, or off the machine.
func checkReference(t *testing.T, from, to string) {
	t.Helper()
	target, ok := strings.CutPrefix(to, "/static/")
	if !ok {
		if !strings.HasPrefix(to, ".") {
			if strings.HasPrefix(to, "/") && path.Ext(to) == "" {
				return // a page, which the server's own test covers
			}
			t.Errorf("%s names %q, want a path under /static/", from, to)
			return
		}
		target = path.Join(path.Dir(from), to)
	}
	if _, err := fs.Stat(static.FS, target); err != nil {
		t.Errorf("%s names %q: %v", from, to, err)
	}
}

func TestNothingNewerThanChromium103(t *testing.T) {
	eachText(t, func(name, text string) {
		for what, re := range tooNew[path.Ext(name)] {
			if m := re.FindString(text); m != "" {
				t.Errorf("%s uses %s: %q", name, what, m)
			}
		}
	})
}

func TestNothingInline(t *testing.T) {
	eachText(t, func(name, text string) {
		if path.Ext(name) != ".html" {
			return
		}
		if m := inline.FindString(text); m != "" {
			t.Errorf("%s has inline code or style %q", name, m)
		}
	})
}

func TestNoRequestLeavesTheMachine(t *testing.T) {
	far := regexp.MustCompile(`https?://[^\s'")]+`)
	eachText(t, func(name, text string) {
		for _, m := range far.FindAllString(text, -1) {
			if m != "http://www.w3.org/2000/svg" { // a name, never fetched
				t.Errorf("%s names %s", name, m)
			}
		}
	})
}

func TestLicencesLieBesideTheType(t *testing.T) {
	fonts, err := fs.Glob(static.FS, "fonts/*.woff2")
	if err != nil || len(fonts) == 0 {
		t.Fatalf("got %d fonts and error %v, want some", len(fonts), err)
	}
	cut := regexp.MustCompile(`-latin(?:-ext)?-\d+-normal\.woff2$`)
	for _, font := range fonts {
		family := cut.ReplaceAllString(path.Base(font), "")
		if _, err := fs.Stat(static.FS, "fonts/OFL-"+family+".txt"); err != nil {
			t.Errorf("%s has no licence: %v", font, err)
		}
	}
}

// eachText calls f with every HTML, CSS and JavaScript file.
func eachText(t *testing.T, f func(name, text string)) {
	t.Helper()
	err := fs.WalkDir(static.FS, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		switch path.Ext(name) {
		case ".html", ".css", ".js":
			b, err := fs.ReadFile(static.FS, name)
			f(name, string(b))
			return err
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
