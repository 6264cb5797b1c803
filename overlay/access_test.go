package overlay

import (
	"go/ast"
	"go/parser"
	"go/token"
	"slices"
	"testing"
)

// TestTokenComparedInConstantTime holds the one function that compares tokens to
// subtle.ConstantTimeCompare, and everything else in access.go and byhand.go to not
// comparing them at all. Time itself is not measured: such a test would prove nothing.
func TestTokenComparedInConstantTime(t *testing.T) {
	compares := 0
	for _, name := range []string{"access.go", "byhand.go"} {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.FuncDecl:
				if n.Name.Name == "sameToken" && slices.Contains(callsIn(n), "subtle.ConstantTimeCompare") {
					compares++
				}
			case *ast.BinaryExpr:
				if isToken(n.X) && !isEmpty(n.Y) || isToken(n.Y) && !isEmpty(n.X) {
					t.Errorf("%s compares a token with %s", name, n.Op)
				}
			}
			return true
		})
	}
	if compares != 1 {
		t.Errorf("sameToken uses subtle.ConstantTimeCompare %d times, want once", compares)
	}
}

func callsIn(f *ast.FuncDecl) []string {
	var calls []string
	ast.Inspect(f, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok {
			if s, ok := call.Fun.(*ast.SelectorExpr); ok {
				if x, ok := s.X.(*ast.Ident); ok {
					calls = append(calls, x.Name+"."+s.Sel.Name)
				}
			}
		}
		return true
	})
	return calls
}

// isToken reports an expression that holds a token by its name.
func isToken(e ast.Expr) bool {
	switch e := e.(type) {
	case *ast.Ident:
		return slices.Contains([]string{"token", "shown"}, e.Name)
	case *ast.SelectorExpr:
		return e.Sel.Name == "Token"
	case *ast.CallExpr:
		f, ok := e.Fun.(*ast.Ident)
		return ok && f.Name == "bearer"
	}
	return false
}

func isEmpty(e ast.Expr) bool {
	literal, ok := e.(*ast.BasicLit)
	return ok && literal.Value == `""`
}

func TestSameToken(t *testing.T) {
	for _, test := range []struct {
		shown, token string
		want         bool
	}{
		{"secret", "secret", true}, {"secret", "Secret", false}, {"", "secret", false}, {"secre", "secret", false},
		{"secret0", "secret", false}, {"žeton", "žeton", true},
	} {
		if got := sameToken(test.shown, test.token); got != test.want {
			t.Errorf("sameToken(%q, %q) = %v", test.shown, test.token, got)
		}
	}
}
