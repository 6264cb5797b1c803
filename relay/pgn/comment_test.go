package pgn

import (
	"slices"
	"testing"
)

// Comments: PGN 5; variations: PGN 8.2.5.
func TestReadComments(t *testing.T) {
	checkRead(t, []readCase{
		{"everywhere", "{a} 1. {b} e4 {c} {d} (1. d4 {e}) ({f} 1. c4) {g} e5 {h} *", "{a} {b} e4 {c} {d} {g} ( d4 {e} ) ( {f} c4 ) e5 {h} =*"},
		{"line comment", "1. e4 ; a { b ( c\ne5 *;d", "e4 {a { b ( c} e5 {d} =*"},
		{"inner braces", "1. e4 {a { b ; c} e5 *", "e4 {a { b ; c} e5 =*"},
		{"folded", "1. e4 {  a\r\n\tb  c } *", "e4 {a b c} =*"},
		{"empty", "1. e4 {} { } ; \n *", "e4 =*"},
		{"no space", "1.e4{a}e5(1...c5{b})2.d4*", "e4 {a} e5 ( c5 {b} ) d4 =*"},
		{"nested variations", "1. e4 (1. d4 d5 (1... Nf6 2. c4) (1... f5)) e5 *", "e4 ( d4 d5 ( Nf6 c4 ) ( f5 ) ) e5 =*"},
		{"variation without move", "(1. d4 {x} (y)) 1. e4 *", "e4 =* !bad_token@1 !bad_token@1"},
		{"empty variation", "1. e4 () ( ) e5 *", "e4 e5 =*"},
		{"unclosed comment, next game", "1. e4 {a\n1. d4\n[Event \"b\"]\n1. c4 {x} *", "e4 {a 1. d4} !unclosed_comment@1 !no_result@3 | Event:b c4 {x} =*"},
		{"unclosed comment, CR", "1. e4 {a\r[Event \"b\"]\r*", "e4 {a} !unclosed_comment@1 !no_result@2 | Event:b =*"},
		{"unclosed comment, end", "1. e4 {a 1-0\n", "e4 {a 1-0} !unclosed_comment@1"},
		{"bracket in a comment", "1. e4 {a [Event \"b\"]\n[c] } *", "e4 {a [Event \"b\"] [c]} =*"},
	})
}

// Embedded commands: supplement of 2001, 3.2. Spacing is ours to tolerate.
func TestReadCommands(t *testing.T) {
	checkRead(t, []readCase{
		{"clock", "1. e4 {[%clk 0:09:58]} *", `e4 {clk["0:09:58"]} =*`},
		{"spacing", "1. e4 {[ %clk\n 0:09:58 ]a[%\temt 0:00:02\r\n]} *", `e4 {clk["0:09:58"]emt["0:00:02"]a} =*`},
		{"several", "1. e4 {a [%clk 1:0:0] b [%eval 0.3,20] c} *", `e4 {clk["1:0:0"]eval["0.3" "20"]a b c} =*`},
		{"unknown", "1. e4 {[%foo_1 Bar baz, \"a, b]\" ,]} *", `e4 {foo_1["Bar baz" "a, b]" ""]} =*`},
		{"no operand", "1. e4 {[%foo][%bar ]} *", `e4 {foo[]bar[]} =*`},
		{"in a line comment", "1. e4 ;[%clk 1:00:00]\n*", `e4 {clk["1:00:00"]} =*`},
		{"before the first move", "{[%clk 1:00:00]} *", `{clk["1:00:00"]} =*`},
		{"not closed", "1. e4 {[%clk 1:00:00 [%emt 2] x} *", `e4 {emt["2"](%clk 1:00:00 x} =* !bad_command@1`},
		{"quote not closed", "1. e4 {[%a \"x] [%clk 1:00:00]} *", `e4 {clk["1:00:00"](%a "x]} =* !bad_command@1`},
		{"behind a quote", "1. e4 {[%a \"x\"y] [%b 1]} *", `e4 {b["1"](%a "x"y]} =* !bad_command@1`},
		{"no name", "1. e4 {[%] [%:a 1]} *", `e4 {(%] (%:a 1]} =* !bad_command@1 !bad_command@1`},
		{"no percent", "1. e4 {[clk 1]} *", `e4 {[clk 1]} =*`},
		{"joined by a removal", "1. e4 {[[%a]%b 1]} *", `e4 {a[]( %b 1]} =*`},
	})
}

// The examples of the supplement of 2001, 3.2: two commands and the text "White
// is toast"; three operands, where the draft's own count says four.
func TestSupplementExamples(t *testing.T) {
	checkRead(t, []readCase{{"two commands", "1. e4 {[%clk 0:00:07][%eval -6.05] White is toast} *",
		`e4 {clk["0:00:07"]eval["-6.05"]White is toast} =*`}})
	games := Read([]byte(`1. e4 {[%command 1:45:12,Nf6,"very interesting, but wrong"]} *`))
	got, ok := games[0].Moves[0].Command("command")
	want := []string{"1:45:12", "Nf6", "very interesting, but wrong"}
	if !ok || !slices.Equal(got, want) {
		t.Errorf("operands %q, %v, want %q", got, ok, want)
	}
}

func TestCommandTakesTheLast(t *testing.T) {
	m := Read([]byte("1. e4 {[%clk 1][%clk 2]} {[%clk 3] [%emt 4]} {x} *"))[0].Moves[0]
	if got, ok := m.Command("clk"); !ok || !slices.Equal(got, []string{"3"}) {
		t.Errorf("Command(clk) = %q, %v, want 3", got, ok)
	}
	if got, ok := m.Command("egt"); ok || got != nil {
		t.Errorf("Command(egt) = %q, %v, want none", got, ok)
	}
}
