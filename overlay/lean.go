package overlay

import (
	"errors"
	"io/fs"
	"path"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// oldestBrowser is the version of Chrome that the pages must run in: what is written
// shorter is written in nothing newer.
const oldestBrowser = "103"

// lean is a script or a style as it is sent: in one text with all that it imports, so that
// a page asks twice and not sixty times, and without what only people read: comments,
// layout, and the names of what no other script can see. Members of objects keep
// theirs, as what a style names with url() keeps its address. A script must not read the text of
// a style's own property: 250ms may have become .25s.
func lean(from fs.FS, name string) ([]byte, error) {
	made := api.Build(api.BuildOptions{
		EntryPoints: []string{name}, Bundle: true, Format: api.FormatESModule, Charset: api.CharsetUTF8,
		Engines:          []api.Engine{{Name: api.EngineChrome, Version: oldestBrowser}},
		MinifyWhitespace: true, MinifySyntax: true, MinifyIdentifiers: true, LegalComments: api.LegalCommentsNone,
		AbsWorkingDir: "/", TsconfigRaw: "{}", // nothing of the machine's files has a say
		Plugins: []api.Plugin{{Name: "static", Setup: func(build api.PluginBuild) { readFrom(from, build) }}},
	})
	var faults []error
	for _, fault := range made.Errors {
		faults = append(faults, errors.New(fault.Text))
	}
	if len(faults) > 0 || len(made.OutputFiles) != 1 {
		return nil, errors.Join(append(faults, errors.New("cannot shorten "+name))...)
	}
	return made.OutputFiles[0].Contents, nil
}

// readFrom has a build read what is served, under the addresses at which it is.
func readFrom(from fs.FS, build api.PluginBuild) {
	const served = "static"
	build.OnResolve(api.OnResolveOptions{Filter: ".*"}, func(to api.OnResolveArgs) (api.OnResolveResult, error) {
		if to.Kind == api.ResolveCSSURLToken {
			return api.OnResolveResult{Path: to.Path, External: true}, nil
		}
		name, rooted := strings.CutPrefix(to.Path, "/static/")
		if !rooted {
			name = path.Join(path.Dir(to.Importer), to.Path)
		}
		return api.OnResolveResult{Path: name, Namespace: served}, nil
	})
	build.OnLoad(api.OnLoadOptions{Filter: ".*", Namespace: served}, func(of api.OnLoadArgs) (api.OnLoadResult, error) {
		text, err := fs.ReadFile(from, of.Path)
		contents, loader := string(text), api.LoaderJS
		if path.Ext(of.Path) == ".css" {
			loader = api.LoaderCSS
		}
		return api.OnLoadResult{Contents: &contents, Loader: loader}, err
	})
}
