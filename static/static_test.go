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
