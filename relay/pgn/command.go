package pgn

import "strings"

// Command returns the operands of the last command of that name in the move's
// comments; ok is false when there is none. A comment's commands speak of the
// move before it (supplement of 2001, 4.1).
func (m *Move) Command(name string) (operands []string, ok bool) {
	if m.Notes == nil {
		return nil, false
	}
	for i := len(m.Notes.Comments) - 1; i >= 0; i-- {
		commands := m.Notes.Comments[i].Commands
		for j := len(commands) - 1; j >= 0; j-- {
			if commands[j].Name == name {
				return commands[j].Operands, true
			}
		}
	}
	return nil, false
}

// verdict says what a "[" in a comment turned out to be.
type verdict uint8

const (
	commandNone verdict = iota // plain text
	commandGood
	commandBad // "[%" without a readable command behind it
)

// commandParser reads the commands of one comment. Text once looked at as part
// of a broken command is not looked at again, which keeps it linear.
type commandParser struct {
	body string
	*stock
}

// parse reads the command at body[i] = '['. It returns the offset from which to
// look for the next one. Format: [%name operand,operand] (supplement of 2001,
// 3.2), here with white space wherever it may stand.
func (p *commandParser) parse(i int) (name string, operands []string, end int, v verdict) {
	i = skipSpace(p.body, i+1)
	if i == len(p.body) || p.body[i] != '%' {
		return "", nil, i, commandNone
	}
	from := skipSpace(p.body, i+1)
	i = from
	for i < len(p.body) && isCommandByte(p.body[i]) {
		i++
	}
	name = p.body[from:i]
	if name == "" || i == len(p.body) || p.body[i] != ']' && !isSpace(p.body[i]) {
		return "", nil, i, commandBad
	}
	i = skipSpace(p.body, i)
	if i < len(p.body) && p.body[i] == ']' {
		return name, nil, i + 1, commandGood
	}
	operands, end, ok := p.parseOperands(i)
	if !ok {
		return "", nil, end, commandBad
	}
	return name, operands, end, commandGood
}

func isCommandByte(c byte) bool { return isAlnum(c) || c == '_' }

func isCommandName(s string) bool {
	for i := 0; i < len(s); i++ {
		if !isCommandByte(s[i]) {
			return false
		}
	}
	return s != ""
}

// parseOperands reads operands from offset i to the closing bracket.
func (p *commandParser) parseOperands(i int) (list []string, end int, ok bool) {
	for {
		value, end, ok := p.operand(skipSpace(p.body, i))
		if !ok {
			return nil, end, false
		}
		list = p.operands.longer(list)
		list[len(list)-1] = value
		i = end + 1
		if p.body[end] == ']' {
			return list, i, true
		}
	}
}

// operandStops has the characters that do not simply stand in an operand.
var operandStops = func() (t [256]bool) {
	for c := range t {
		t[c] = isSpace(byte(c)) || c == ',' || c == ']' || c == '['
	}
	return t
}()

// operand reads one operand and returns the offset of the comma or bracket that
// ends it.
func (p *commandParser) operand(i int) (value string, end int, ok bool) {
	if i < len(p.body) && p.body[i] == '"' {
		return p.quoted(i + 1)
	}
	spaced := false
	for j := i; j < len(p.body); j++ {
		if !operandStops[p.body[j]] {
			continue
		}
		switch p.body[j] {
		case ',', ']':
			if value = p.body[i:j]; spaced {
				value = p.texts.fold(value)
			}
			return value, j, true
		case '[': // the next command, where this one should have been closed
			if k := skipSpace(p.body, j+1); k < len(p.body) && p.body[k] == '%' {
				return "", j, false
			}
		default:
			spaced = true
		}
	}
	return "", len(p.body), false
}

// quoted reads a quoted operand from behind its first quotation mark on.
func (p *commandParser) quoted(i int) (value string, end int, ok bool) {
	n := strings.IndexByte(p.body[i:], '"')
	if n < 0 {
		return "", i, false
	}
	end = skipSpace(p.body, i+n+1)
	if end < len(p.body) && (p.body[end] == ',' || p.body[end] == ']') {
		return p.texts.fold(p.body[i : i+n]), end, true
	}
	return "", end, false
}
