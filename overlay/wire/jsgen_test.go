package wire

import (
	"bytes"
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"strconv"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite generated files")

const scriptFile = "../../static/lib/wire.js"

// TestJavaScriptTypes is the generator of static/lib/wire.js and the check that
// the file is what wire.go says.
func TestJavaScriptTypes(t *testing.T) {
	want := generate(t)
	if *update {
		if err := os.WriteFile(scriptFile, want, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile(scriptFile)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("%s is not what wire.go says; run: go test ./overlay/wire -run JavaScript -update", scriptFile)
	}
}

func generate(t *testing.T) []byte {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), "wire.go", nil, parser.ParseComments)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	fmt.Fprintf(&out, "// @ts-check\n// Generated from overlay/wire/wire.go by its test; do not edit.\n\nexport const VERSION = %d;\n", Version)
	for _, group := range []struct{ name, prefix string }{
		{"TYPE", "Type"}, {"CLOSE", "Close"}, {"QUALITY", "Quality"}, {"LOOK", "Look"}, {"VERDICT", "Verdict"}, {"PRIORITY", "Priority"},
		{"JOURNAL", "Journal"}, {"OFFER", "Offer"}, {"STATE", "State"}, {"MARK", "Mark"}, {"DELAY", "Delay"},
		{"PROMPT", "Prompt"}, {"MEANING", "Meaning"}, {"WAY", "Way"}, {"CHALLENGE", "Challenge"}, {"ENGINE", "Engine"}, {"BUS", "Bus"},
	} {
		fmt.Fprintf(&out, "\nexport const %s = Object.freeze({\n%s});\n", group.name, constants(file, group.prefix))
	}
	for _, decl := range file.Decls {
		if gen, ok := decl.(*ast.GenDecl); ok && gen.Tok == token.TYPE {
			writeTypedef(&out, gen)
		}
	}
	return out.Bytes()
}

func constants(file *ast.File, prefix string) string {
	var out strings.Builder
	for _, decl := range file.Decls {
		gen, ok := decl.(*ast.GenDecl)
		if !ok || gen.Tok != token.CONST {
			continue
		}
		for _, spec := range gen.Specs {
			value := spec.(*ast.ValueSpec)
			name, found := strings.CutPrefix(value.Names[0].Name, prefix)
			if !found || len(value.Values) == 0 {
				continue
			}
			fmt.Fprintf(&out, "  %s: %s,\n", upperSnake(name), script(value.Values[0].(*ast.BasicLit).Value))
		}
	}
	return out.String()
}

func script(literal string) string {
	if text, err := strconv.Unquote(literal); err == nil {
		return "'" + text + "'"
	}
	return literal
}

func upperSnake(name string) string {
	var out strings.Builder
	for i, r := range name {
		if i > 0 && r >= 'A' && r <= 'Z' {
			out.WriteByte('_')
		}
		out.WriteRune(r)
	}
	return strings.ToUpper(out.String())
}

func writeTypedef(out *bytes.Buffer, gen *ast.GenDecl) {
	spec := gen.Specs[0].(*ast.TypeSpec)
	fmt.Fprintf(out, "\n/**\n")
	for line := range strings.Lines(gen.Doc.Text()) {
		fmt.Fprintf(out, " * %s\n", strings.TrimSpace(line))
	}
	fmt.Fprintf(out, " *\n * @typedef {object} %s\n", spec.Name.Name)
	for _, field := range spec.Type.(*ast.StructType).Fields.List {
		tag, _ := strconv.Unquote(field.Tag.Value)
		name := strings.TrimSuffix(strings.TrimPrefix(tag, `json:"`), `"`)
		line := fmt.Sprintf(" * @property {%s} %s %s", scriptType(field.Type), name, strings.TrimSpace(field.Comment.Text()))
		fmt.Fprintln(out, strings.TrimRight(line, " "))
	}
	fmt.Fprintln(out, " */")
}

func scriptType(expr ast.Expr) string {
	switch e := expr.(type) {
	case *ast.ArrayType:
		if star, ok := e.Elt.(*ast.StarExpr); ok {
			return "(" + scriptType(star) + ")[]"
		}
		return scriptType(e.Elt) + "[]"
	case *ast.StarExpr:
		return scriptType(e.X) + " | null"
	case *ast.Ident:
		switch e.Name {
		case "string":
			return "string"
		case "bool":
			return "boolean"
		case "int", "int64", "uint64", "float64":
			return "number"
		}
		return e.Name
	}
	panic(fmt.Sprintf("wire.go uses a type the generator does not know: %T", expr))
}
