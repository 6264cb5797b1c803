package main

import (
	"fmt"
	"io"
	"strings"
)

const bashHead = `# bash completion of clocktell; clocktell completion bash prints it.
_clocktell() {
  local cur=${COMP_WORDS[COMP_CWORD]} prev=${COMP_WORDS[COMP_CWORD-1]} verb=${COMP_WORDS[1]} IFS=$' \t\n'
  local words='' flags='' files='' dirs='' others=''
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
    COMPREPLY=($(compgen -W '%s help' -- "$cur"))
    return
  fi
  [ "$COMP_CWORD" -gt 2 ] && case "$verb ${COMP_WORDS[2]}" in
%s  esac
  case "$verb" in
`

const bashFoot = `  esac
  if [ "$COMP_CWORD" -eq 2 ] && [ -n "$words" ] && [ "${cur#-}" = "$cur" ]; then
    COMPREPLY=($(compgen -W "$words" -- "$cur"))
    return
  fi
  IFS=$'\n'
  case " $files " in *" $prev "*) compopt -o filenames 2>/dev/null; COMPREPLY=($(compgen -f -- "$cur")); return ;; esac
  case " $dirs " in *" $prev "*) compopt -o filenames 2>/dev/null; COMPREPLY=($(compgen -d -- "$cur")); return ;; esac
  case " $others " in *" $prev "*) return ;; esac
  IFS=$' \t\n'
  case "$cur" in
    -*) COMPREPLY=($(compgen -W "$flags --help" -- "$cur")) ;;
    *) IFS=$'\n'; compopt -o filenames 2>/dev/null; COMPREPLY=($(compgen -f -- "$cur")) ;;
  esac
}
complete -F _clocktell clocktell
`

// completeBash writes a script that needs nothing but bash.
func completeBash(w io.Writer, verbs []completed) {
	var top, pairs []string
	for _, v := range verbs {
		if strings.Contains(v.name, " ") {
			pairs = append(pairs, fmt.Sprintf("    '%s') verb='%s' ;;\n", v.name, v.name))
		} else {
			top = append(top, v.name)
		}
	}
	fmt.Fprintf(w, bashHead, strings.Join(top, " "), strings.Join(pairs, ""))
	for _, v := range verbs {
		others := func(f completedFlag) bool { return f.value != "" && !f.takesFile() && !f.takesDir() }
		fmt.Fprintf(w, "    '%s') words='%s' flags='%s' files='%s' dirs='%s' others='%s' ;;\n", v.name, strings.Join(v.subs, " "), names(v.flags, anyFlag),
			names(v.flags, completedFlag.takesFile), names(v.flags, completedFlag.takesDir), names(v.flags, others))
	}
	fmt.Fprint(w, bashFoot)
}

const zshHead = `#compdef clocktell
# zsh completion of clocktell; clocktell completion zsh prints it.
_clocktell() {
  local -a verbs
  verbs=(
%s  )
  if (( CURRENT == 2 )); then
    _describe verb verbs
    return
  fi
  local verb=$words[2]
  case "$verb $words[3]" in
%s  esac
  shift words
  (( CURRENT-- ))
  case "$verb" in
`

const zshFoot = `  esac
}
if [ "$funcstack[1]" = "_clocktell" ]; then
  _clocktell "$@"
else
  compdef _clocktell clocktell
fi
`

// zshQuoted writes a text inside single quotes, without what _arguments and _describe take
// for their own.
var zshQuoted = strings.NewReplacer("'", `'\''`, "[", `\[`, "]", `\]`, ":", `\:`, `\`, `\\`, "\n", " ")

func completeZsh(w io.Writer, verbs []completed) {
	var top, pairs strings.Builder
	for _, v := range verbs {
		if strings.Contains(v.name, " ") {
			fmt.Fprintf(&pairs, "    '%s') (( CURRENT > 3 )) && { verb='%s'; shift words; (( CURRENT-- )) } ;;\n", v.name, v.name)
		} else {
			fmt.Fprintf(&top, "    '%s:%s'\n", v.name, zshQuoted.Replace(v.short))
		}
	}
	fmt.Fprintf(w, zshHead, top.String(), pairs.String())
	for _, v := range verbs {
		fmt.Fprintf(w, "    '%s') _arguments", v.name)
		for _, f := range v.flags {
			value := ""
			switch {
			case f.takesFile():
				value = ":file:_files"
			case f.takesDir():
				value = ":folder:_files -/"
			case f.value != "":
				value = ":" + zshQuoted.Replace(f.value) + ": "
			}
			fmt.Fprintf(w, " \\\n      '--%s[%s]%s'", f.name, zshQuoted.Replace(f.does), value)
		}
		if len(v.subs) > 0 {
			fmt.Fprintf(w, " \\\n      '1:what:(%s)'", strings.Join(v.subs, " "))
		}
		fmt.Fprint(w, " \\\n      '*:file:_files' ;;\n")
	}
	fmt.Fprint(w, zshFoot)
}

// fishQuoted writes a text inside single quotes.
var fishQuoted = strings.NewReplacer(`\`, `\\`, "'", `\'`, "\n", " ")

func completeFish(w io.Writer, verbs []completed) {
	fmt.Fprint(w, "# fish completion of clocktell; clocktell completion fish prints it.\ncomplete -c clocktell -n __fish_use_subcommand -f\n")
	for _, v := range verbs {
		parts := strings.Fields(v.name)
		here := "__fish_seen_subcommand_from " + parts[0]
		switch {
		case len(parts) > 1:
			here += "; and __fish_seen_subcommand_from " + parts[1]
		default:
			fmt.Fprintf(w, "complete -c clocktell -n __fish_use_subcommand -f -a %s -d '%s'\n", v.name, fishQuoted.Replace(v.short))
		}
		if len(v.subs) > 0 {
			list := strings.Join(v.subs, " ")
			fmt.Fprintf(w, "complete -c clocktell -n '%s; and not __fish_seen_subcommand_from %s' -f -a '%s'\n", here, list, list)
		}
		for _, f := range v.flags {
			value := ""
			switch {
			case f.takesFile():
				value = " -r -F"
			case f.takesDir():
				value = " -x -a '(__fish_complete_directories)'"
			case f.value != "":
				value = " -x"
			}
			fmt.Fprintf(w, "complete -c clocktell -n '%s' -l %s%s -d '%s'\n", here, f.name, value, fishQuoted.Replace(f.does))
		}
	}
}
