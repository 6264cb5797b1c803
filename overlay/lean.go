package overlay

import (
	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/css"
	"github.com/tdewolff/minify/v2/js"
)

// scriptVersion is the newest ECMAScript that the pages' oldest browser, Chromium 103, knows
// whole: what can be written shorter is written in no newer one.
const scriptVersion = 2022

// newMinify takes from scripts and styles what only people read: comments, layout, and the names
// of what no other script can see. Classes, functions and public members keep theirs, so that what
// a browser reports can be found again; lines do not.
func newMinify() *minify.M {
	m := minify.New()
	m.Add("text/javascript", &js.Minifier{Version: scriptVersion})
	m.Add("text/css", &css.Minifier{})
	return m
}
