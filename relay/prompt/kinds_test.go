package prompt

import (
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"strings"
	"testing"
)

// TestListsAreWhole: Kinds and Priorities name every constant that the source declares.
func TestListsAreWhole(t *testing.T) {
	declared := map[string][]string{"Kind": nil, "Priority": nil}
	for _, file := range []string{"prompt.go", "match.go"} {
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(parsed, func(n ast.Node) bool {
			spec, ok := n.(*ast.ValueSpec)
			if !ok || len(spec.Values) != 1 {
				return true
			}
			kind, isType := spec.Type.(*ast.Ident)
			value, isText := spec.Values[0].(*ast.BasicLit)
			if isType && isText {
				declared[kind.Name] = append(declared[kind.Name], strings.Trim(value.Value, `"`))
			}
			return true
		})
	}
	var kinds, priorities []string
	for _, kind := range Kinds {
		kinds = append(kinds, string(kind))
	}
	for _, priority := range append(slices.Clone(Priorities), Silent) {
		priorities = append(priorities, string(priority))
	}
	for _, list := range []struct {
		name string
		has  []string
	}{{"Kind", kinds}, {"Priority", priorities}} {
		slices.Sort(list.has)
		want := slices.Sorted(slices.Values(declared[list.name]))
		if len(want) < 4 || !slices.Equal(list.has, want) {
			t.Errorf("%ss listed %q, declared %q", list.name, list.has, want)
		}
	}
}
