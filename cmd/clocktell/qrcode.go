package main

import (
	"fmt"
	"io"
	"strings"

	"rsc.io/qr"
)

// quietZone is how many light modules surround a code (ISO/IEC 18004, 5.3.8).
const quietZone = 4

// inkOnPaper and plainAgain are SGR sequences (ECMA-48, 8.3.117): black on bright white,
// whatever the terminal's colours are, and back.
const (
	inkOnPaper = "\x1b[30;107m"
	plainAgain = "\x1b[0m"
)

// printCode draws a text as a QR code, two modules in a character.
func printCode(w io.Writer, text string) {
	code, err := qr.Encode(text, qr.L) // a screen has no scratches
	if err != nil {
		fmt.Fprintf(w, "  (no code: %v)\n", err)
		return
	}
	for _, line := range halfBlocks(code.Size, code.Black) {
		fmt.Fprintf(w, "  %s%s%s\n", inkOnPaper, line, plainAgain)
	}
}

// halfBlocks draws dark modules as upper and lower halves of characters.
func halfBlocks(size int, dark func(x, y int) bool) []string {
	inside := func(x, y int) bool { return x >= 0 && y >= 0 && x < size && y < size && dark(x, y) }
	var lines []string
	for y := -quietZone; y < size+quietZone; y += 2 {
		var line strings.Builder
		for x := -quietZone; x < size+quietZone; x++ {
			switch upper, lower := inside(x, y), inside(x, y+1); {
			case upper && lower:
				line.WriteRune('█')
			case upper:
				line.WriteRune('▀')
			case lower:
				line.WriteRune('▄')
			default:
				line.WriteByte(' ')
			}
		}
		lines = append(lines, line.String())
	}
	return lines
}
