package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// inShell runs a script in a shell, in a folder that has some files, behind clocktell's
// completion for it. Without the shell the test is skipped, but where CLOCKTELL_TESTS=all
// (as in .ci/run) it fails.
func inShell(t *testing.T, shell, script string) []string {
	t.Helper()
	if _, err := exec.LookPath(shell); err != nil {
		if os.Getenv("CLOCKTELL_TESTS") == "all" {
			t.Fatalf("%s is missing: %v", shell, err)
		}
		t.Skip(shell + " is missing")
	}
	code, completion, stderr := call(t, "completion", shell)
	if code != exitFine || stderr != "" {
		t.Fatalf("exit %d: %s", code, stderr)
	}
	dir := t.TempDir()
	file := filepath.Join(dir, "completion."+shell)
	for name, text := range map[string]string{file: completion, filepath.Join(dir, "games one.pgn"): "", filepath.Join(dir, "show.toml"): ""} {
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(filepath.Join(dir, "shows"), 0o755); err != nil {
		t.Fatal(err)
	}
	check := exec.CommandContext(t.Context(), shell, "-n", file)
	if out, err := check.CombinedOutput(); err != nil || len(out) > 0 {
		t.Fatalf("%s -n: %v: %s", shell, err, out)
	}
	run := exec.CommandContext(t.Context(), shell, "-c", script, shell, file)
	run.Dir = dir
	run.Env = append(os.Environ(), "HOME="+dir, "XDG_CONFIG_HOME="+dir)
	out, err := run.CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v: %s", shell, err, out)
	}
	return strings.Split(strings.TrimSuffix(string(out), "\n"), "\n")
}

// completions are lines that somebody has typed, and words of which each must, or with !
// before it must not, be offered.
var completions = map[string]string{
	"clocktell re":                              "replay reference !serve",
	"clocktell serve --":                        "--config --listen !--speed",
	"clocktell serve --config sh":               "show.toml",
	"clocktell reference ":                      "build show !replay",
	"clocktell reference build --o":             "--out --over-the-board !--restart",
	"clocktell cues --out sh":                   "!show.toml",
	"clocktell completion ":                     "bash zsh fish",
	"clocktell demo --once --sp":                "--speed",
	"clocktell cues --out x --start":            "--start-mark --start-timecode",
	"clocktell version --":                      "--licences",
	"clocktell reference build --out x.ref sho": "show.toml",
}

func checkOffers(t *testing.T, line string, got []string) {
	t.Helper()
	for word := range strings.FieldsSeq(completions[line]) {
		unwanted, not := strings.CutPrefix(word, "!")
		if not && slices.Contains(got, unwanted) || !not && !slices.Contains(got, word) {
			t.Errorf("%q offers %q, want %s", line, got, completions[line])
		}
	}
}

// TestCompletionInBash asks bash itself, as it asks for completions.
func TestCompletionInBash(t *testing.T) {
	for line := range completions {
		words := strings.Split(line, " ")
		quoted := "'" + strings.Join(words, "' '") + "'"
		script := `source "$1"; complete -p clocktell >/dev/null || exit 1
COMP_WORDS=(` + quoted + `); COMP_CWORD=$((${#COMP_WORDS[@]}-1)); _clocktell 2>&1; printf '%s\n' "${COMPREPLY[@]}"`
		checkOffers(t, line, inShell(t, "bash", script))
	}
	got := inShell(t, "bash", `source "$1"; COMP_WORDS=(clocktell prompts ga); COMP_CWORD=2; _clocktell; printf '%s\n' "${COMPREPLY[@]}"`)
	if !slices.Equal(got, []string{"games one.pgn"}) {
		t.Errorf("a name with a space is offered as %q", got)
	}
}

// TestCompletionInFish asks fish itself.
func TestCompletionInFish(t *testing.T) {
	for line := range completions {
		lines := inShell(t, "fish", `source $argv[2]; complete -C '`+line+`'`)
		var got []string
		for _, l := range lines {
			word, _, _ := strings.Cut(l, "\t")
			got = append(got, word)
		}
		checkOffers(t, line, got)
	}
}

// TestCompletionInZsh lets zsh run the function with stand-ins for what its completion
// system brings, which need a terminal: what it asks them for is looked at.
func TestCompletionInZsh(t *testing.T) {
	const standIns = `compdef() { : }; _describe() { print -l -- ${verbs%%:*} }; _arguments() { print -l -- ${@%%[\[]*} ${${(M)@:#1:*}//[()]/ } }
source "$1"
`
	for line, want := range completions {
		if strings.Contains(want, ".toml") {
			continue // files are zsh's own
		}
		words := strings.Split(line, " ")
		got := inShell(t, "zsh", standIns+`words=('`+strings.Join(words, "' '")+`'); CURRENT=${#words}; _clocktell`)
		for _, spec := range got {
			if list, ok := strings.CutPrefix(spec, "1:what:"); ok {
				got = append(got, strings.Fields(list)...)
			}
		}
		var begun []string
		for _, word := range got {
			if strings.HasPrefix(word, words[len(words)-1]) {
				begun = append(begun, word) // the rest zsh leaves out itself
			}
		}
		checkOffers(t, line, begun)
	}
}

// TestCompletionKnowsEveryFlag: what the help of a verb lists, completion knows.
func TestCompletionKnowsEveryFlag(t *testing.T) {
	flags := 0
	for _, v := range completedVerbs() {
		_, help, _ := call(t, append(strings.Fields(v.name), "-h")...)
		for line := range strings.Lines(help) {
			if name, ok := strings.CutPrefix(line, "  -"); ok {
				name = strings.Fields(name)[0]
				flags++
				if !slices.ContainsFunc(v.flags, func(f completedFlag) bool { return f.name == name }) {
					t.Errorf("%s: --%s is not completed", v.name, name)
				}
			}
		}
	}
	if flags < 25 {
		t.Errorf("only %d flags were found in all help", flags)
	}
	if code, _, stderr := call(t, "completion", "csh"); code != exitUsage || !strings.Contains(stderr, "bash, zsh or fish") {
		t.Errorf("a shell that is none: exit %d, %s", code, stderr)
	}
}
