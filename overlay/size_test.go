package overlay

import (
	"bytes"
	"compress/gzip"
	"io"
	"log/slog"
	"net/http"
	"net/http/httptest"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"clocktell/static"
)

// sceneBytesGoal is what the script and the style of one scene should weigh at most, type not
// counted, as they are sent: compressed.
const sceneBytesGoal = 40_000

// sceneBytesMost is what they may weigh: close to what they do, so that who adds to a scene
// sees what it costs.
var sceneBytesMost = map[string]int{"scene/board": 31_000, "scene/wall": 28_600, "scene/clocks": 21_800, "scene/challenge": 15_300, "scene/caption": 7_000}

// loads are the ways in which a page, a style and a script name what they load.
var loads = map[string]*regexp.Regexp{
	".html": regexp.MustCompile(`<(?:script|link)[^>]*\b(?:src|href)="([^"]+)"`),
	".css":  regexp.MustCompile(`@import\s*(?:url\()?['"]?([^'")]+)`),
	".js":   regexp.MustCompile(`(?m)(?:^|[;}])(?:import|export)\b[^;'"()]*['"]([^'"]+)['"]`),
}

// TestScenesAreLight weighs what every scene loads, as the server sends it.
func TestScenesAreLight(t *testing.T) {
	files := httptest.NewServer(http.StripPrefix("/static/", newFiles(static.FS, slog.New(slog.DiscardHandler))))
	defer files.Close()
	for scene, most := range sceneBytesMost {
		sum, whole := 0, 0
		for _, name := range []string{scene + "/page.css", scene + "/" + path.Base(scene) + ".js"} {
			sent, plain := sentAs(t, files.URL+"/static/"+name)
			sum, whole = sum+sent, whole+len(plain)
		}
		t.Logf("%s: %d bytes sent (at most %d; %+d to the goal), uncompressed %d; made of %d files",
			scene, sum, most, sum-sceneBytesGoal, whole, len(loadedBy(t, scene+"/index.html")))
		if most = min(most, sceneBytesGoal); sum > most {
			t.Errorf("%s sends %d bytes of script and style, more than %d", scene, sum, most)
		}
		if sum < 5000 {
			t.Errorf("%s sends %d bytes only; is it all that it is written with?", scene, sum)
		}
	}
}

// loadedBy follows a document, a script or a style to all scripts and styles that it is written in.
func loadedBy(t *testing.T, first string) []string {
	t.Helper()
	var names []string
	for open := []string{first}; len(open) > 0; open = open[1:] {
		for _, name := range namedIn(open[0], readStatic(t, open[0])) {
			if textTypes[path.Ext(name)] != "" && !slices.Contains(names, name) {
				names, open = append(names, name), append(open, name)
			}
		}
	}
	return names
}

// namedIn is what a text of that name loads, by their names.
func namedIn(file, text string) []string {
	var names []string
	for _, m := range loads[path.Ext(file)].FindAllStringSubmatch(text, -1) {
		name, rooted := strings.CutPrefix(m[1], "/static/")
		if !rooted {
			name = path.Join(path.Dir(file), name)
		}
		names = append(names, name)
	}
	return names
}

// sentAs fetches a file as a browser does, and returns how many bytes came and the text.
func sentAs(t *testing.T, url string) (int, []byte) {
	t.Helper()
	request, err := http.NewRequestWithContext(t.Context(), http.MethodGet, url, nil)
	if err != nil {
		t.Fatal(err)
	}
	request.Header.Set("Accept-Encoding", "gzip, deflate, br")
	answer, err := http.DefaultClient.Do(request)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK || answer.Header.Get("Content-Encoding") != "gzip" {
		t.Fatalf("%s: %s, coded %q, %v", url, answer.Status, answer.Header.Get("Content-Encoding"), err)
	}
	z, err := gzip.NewReader(bytes.NewReader(body))
	if err != nil {
		t.Fatal(err)
	}
	text, err := io.ReadAll(z)
	if err != nil {
		t.Fatal(err)
	}
	return len(body), text
}

// TestPagesLoadAtOnce: a page names one style and one script, and those name no other: nothing
// has to be found by what was fetched before. Type that it has fetched at once is of its style.
func TestPagesLoadAtOnce(t *testing.T) {
	files := httptest.NewServer(http.StripPrefix("/static/", newFiles(static.FS, slog.New(slog.DiscardHandler))))
	defer files.Close()
	for page := range pageKinds {
		document, script, style := page+"/index.html", page+"/"+path.Base(page)+".js", page+"/page.css"
		_, styleText := sentAs(t, files.URL+"/static/"+style)
		_, scriptText := sentAs(t, files.URL+"/static/"+script)
		named := namedIn(document, readStatic(t, document))
		if len(loadedBy(t, document)) < 8 {
			t.Errorf("%s is written with %v only; the patterns no longer match", page, loadedBy(t, document))
		}
		if found := append(namedIn(style, string(styleText)), namedIn(script, string(scriptText))...); len(found) > 0 {
			t.Errorf("%s, as it is sent, names %v besides", page, found)
		}
		others := slices.DeleteFunc(named, func(name string) bool {
			return name == "surface/icon.svg" || path.Ext(name) == ".woff2" && strings.Contains(string(styleText), "/static/"+name)
		})
		if slices.Sort(others); !slices.Equal(others, slices.Sorted(slices.Values([]string{script, style}))) {
			t.Errorf("%s names %v, want %s and %s", document, others, script, style)
		}
	}
}

// TestFiles: what takes no compression gets none (RFC 9110 §12.5.3), types are right,
// and folders and what is not there are 404.
func TestFiles(t *testing.T) {
	files := httptest.NewServer(http.StripPrefix("/static/", newFiles(static.FS, slog.New(slog.DiscardHandler))))
	defer files.Close()
	for _, c := range []struct {
		path, accept, coded, kind string
		status                    int
	}{
		{"lib/dom.js", "gzip", "gzip", "text/javascript; charset=utf-8", 200},
		{"lib/dom.js", "identity", "", "text/javascript; charset=utf-8", 200},
		{"lib/dom.js", "br, gzip;q=0", "", "text/javascript; charset=utf-8", 200},
		{"lib/dom.js", "br;q=1, GZIP;q=0.1", "gzip", "text/javascript; charset=utf-8", 200},
		{"lib/tokens.css", "gzip", "gzip", "text/css; charset=utf-8", 200},
		{"lib/none.js", "gzip", "", "text/plain; charset=utf-8", 404},
		{"lib/", "gzip", "", "text/plain; charset=utf-8", 404},
		{"../static.go", "gzip", "", "text/plain; charset=utf-8", 404},
	} {
		request, _ := http.NewRequestWithContext(t.Context(), http.MethodGet, files.URL+"/static/"+c.path, nil)
		request.Header.Set("Accept-Encoding", c.accept)
		answer, err := http.DefaultClient.Do(request)
		if err != nil {
			t.Fatal(err)
		}
		answer.Body.Close()
		head := answer.Header
		if answer.StatusCode != c.status || head.Get("Content-Encoding") != c.coded || head.Get("Content-Type") != c.kind {
			t.Errorf("%s for %q: %d, coded %q, type %q; want %+v", c.path, c.accept, answer.StatusCode, head.Get("Content-Encoding"), head.Get("Content-Type"), c)
		}
	}
}
