package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"slices"
	"strings"
)

const completionHelp = `Usage: clocktell completion bash|zsh|fish

Print a script that lets a shell complete clocktell's verbs, their flags, and files.

Examples:
  source <(clocktell completion bash)                            # in ~/.bashrc
  clocktell completion zsh > "${fpath[1]}/_clocktell"
  clocktell completion fish > ~/.config/fish/completions/clocktell.fish

`

// shells are those for which there is a script.
var shells = map[string]func(io.Writer, []completed){"bash": completeBash, "zsh": completeZsh, "fish": completeFish}

func runCompletion(_ context.Context, args []string, stdout, stderr io.Writer) error {
	plain, err := parseMixed(flag.NewFlagSet("completion", flag.ContinueOnError), completionHelp, args, stdout, stderr)
	if err != nil {
		return err
	}
	if len(plain) != 1 || shells[plain[0]] == nil {
		fmt.Fprintln(stderr, "clocktell completion needs the name of a shell: bash, zsh or fish")
		return errUsage
	}
	shells[plain[0]](stdout, completedVerbs())
	return nil
}

// completed is a verb, or a verb of a verb such as "reference build", as shells complete it.
type completed struct {
	name, short string
	subs        []string // words that come behind it
	flags       []completedFlag
}

// completedFlag is a flag as shells complete it.
type completedFlag struct {
	name, does string
	value      string // what it takes, such as FILE; "" nothing
}

// completedSubs are the words that come behind some verbs. A word that is a verb itself is
// asked for its flags.
var completedSubs = map[string][]string{"reference": {"build", "show"}, "completion": {"bash", "fish", "zsh"}}

// completedVerbs asks every verb for its flags: the sets that the verbs themselves parse
// are all that completion knows of them.
func completedVerbs() []completed {
	var out []completed
	for _, v := range verbs() {
		out = append(out, completed{name: v.name, short: v.short, subs: completedSubs[v.name], flags: flagsOf(v)})
		for _, sub := range completedSubs[v.name] {
			if flags := flagsOf(v, sub); v.name != "completion" {
				out = append(out, completed{name: v.name + " " + sub, flags: flags})
			}
		}
	}
	return out
}

// flagsAsked is what a verb prints its help to when only its flags are asked for.
type flagsAsked struct {
	io.Writer
	flags *flag.FlagSet
}

func flagsOf(v verb, before ...string) []completedFlag {
	asked := &flagsAsked{Writer: io.Discard}
	// With -h a verb does nothing but tell its help, so that nothing can fail or be waited for.
	_ = v.run(context.Background(), append(slices.Clone(before), "-h"), asked, io.Discard)
	out := []completedFlag{}
	if asked.flags == nil {
		return out
	}
	asked.flags.VisitAll(func(f *flag.Flag) {
		value, does := flag.UnquoteUsage(f)
		out = append(out, completedFlag{name: f.Name, does: does, value: value})
	})
	return out
}

// takes reports how a flag's value is completed.
func (f completedFlag) takesFile() bool { return strings.HasPrefix(f.value, "FILE") }
func (f completedFlag) takesDir() bool  { return strings.HasPrefix(f.value, "DIR") }

// names lists flags as they are typed.
func names(flags []completedFlag, which func(completedFlag) bool) string {
	var out []string
	for _, f := range flags {
		if which(f) {
			out = append(out, "--"+f.name)
		}
	}
	return strings.Join(out, " ")
}

func anyFlag(completedFlag) bool { return true }
