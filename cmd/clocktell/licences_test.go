package main

import (
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// licenceFile is how projects name the files that must go with copies of them.
var licenceFile = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents|unlicense|ofl)[a-z0-9_-]*(\.txt|\.md)?$`)

// licenceWords are words that only a licence of that name has; the names are those of SPDX.
var licenceWords = []struct{ name, words string }{
	{"Apache-2.0", "Apache License"}, {"MIT", "to deal in the Software without restriction"},
	{"BSD-3-Clause", "Neither the name of"}, {"BSD-2-Clause", "Redistributions of source code must retain"},
	{"ISC", "Permission to use, copy, modify, and/or distribute this software"}, {"ISC", "Permission to use, copy, modify, and distribute this software for any purpose"}, {"OFL-1.1", "SIL OPEN FONT LICENSE"}, {"MPL-2.0", "Mozilla Public License"},
}

// licenceNames says which licences texts hold; none is an error of whoever asks.
func licenceNames(text string) string {
	var out []string
	plain := strings.Join(strings.Fields(text), " ")
	for _, l := range licenceWords {
		if strings.Contains(plain, l.words) && !(l.name == "BSD-2-Clause" && slices.Contains(out, "BSD-3-Clause")) {
			out = append(out, l.name)
		}
	}
	return strings.Join(out, ", ")
}

// linked lists the modules that are linked in on any of the systems that clocktell is built
// for, as lines of path, version and folder.
func linked(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, system := range []string{"linux", "darwin", "windows"} {
		list := exec.CommandContext(t.Context(), "go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}}\t{{.Version}}\t{{.Dir}}{{end}}{{end}}", ".")
		list.Env = append(os.Environ(), "GOOS="+system, "CGO_ENABLED=0")
		text, err := list.Output()
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, slices.Collect(strings.FieldsFuncSeq(string(text), func(r rune) bool { return r == '\n' }))...)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// licenceEntry is one part of what is printed.
func licenceEntry(t *testing.T, name, version string, files ...string) string {
	t.Helper()
	text := ""
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		text += "\n--- " + filepath.Base(file) + "\n\n" + strings.TrimSpace(strings.ReplaceAll(string(data), "\r\n", "\n")) + "\n"
	}
	names := licenceNames(text)
	if names == "" {
		t.Errorf("%s %s: no licence is known in %q", name, version, files)
	}
	return fmt.Sprintf("%s\n%s\n%s\n%s\n", strings.Repeat("=", 78), strings.TrimSpace(name+" "+version), names, text)
}

func goRoot(t *testing.T) string {
	t.Helper()
	root, err := exec.CommandContext(t.Context(), "go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(string(root))
}

// licencesNow returns what the file should be.
func licencesNow(t *testing.T) string {
	t.Helper()
	out := "What clocktell is made of besides its own code, which is under the MIT licence.\n\n" +
		licenceEntry(t, "Go's runtime and standard library", "", filepath.Join(goRoot(t), "LICENSE"))
	for _, module := range linked(t) {
		parts := strings.Split(module, "\t")
		entries, err := os.ReadDir(parts[2])
		if err != nil {
			t.Fatal(err)
		}
		var files []string
		for _, e := range entries {
			if !e.IsDir() && licenceFile.MatchString(e.Name()) {
				files = append(files, filepath.Join(parts[2], e.Name()))
			}
		}
		out += licenceEntry(t, parts[0], parts[1], files...)
	}
	for _, folder := range []string{"static", "relay"} {
		out += licencesBelow(t, folder)
	}
	return out
}

// licencesBelow returns the licences of what of others lies below a folder of the project, for
// pages or in drawings.
func licencesBelow(t *testing.T, folder string) (out string) {
	t.Helper()
	err := filepath.WalkDir("../../"+folder, func(path string, e fs.DirEntry, err error) error {
		if err == nil && e.IsDir() && (e.Name() == "lint" || e.Name() == "node_modules" || e.Name() == "testdata") {
			return fs.SkipDir // tools of tests
		}
		if err == nil && !e.IsDir() && licenceFile.MatchString(e.Name()) {
			out += licenceEntry(t, "in this file: "+strings.TrimPrefix(filepath.ToSlash(path), "../../"), "", path)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// TestLicences: what is printed is complete and of the versions that are linked in. With
// -update it is written anew.
func TestLicences(t *testing.T) {
	now := licencesNow(t)
	if *update {
		if err := os.WriteFile("licences.txt", []byte(now), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	code, printed, stderr := call(t, "version", "--licences")
	if code != exitFine || stderr != "" {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	if printed != now {
		t.Error("licences.txt is not what is linked in; go generate ./cmd/clocktell writes it anew")
	}
	for _, module := range linked(t) {
		parts := strings.Split(module, "\t")
		if !strings.Contains(printed, "\n"+parts[0]+" "+parts[1]+"\n") {
			t.Errorf("%s %s is not told of", parts[0], parts[1])
		}
	}
}
