package overlay

import (
	"math"
	"strconv"

	"clocktell/overlay/wire"
)

// pongText is what encode makes of a pong. It is made on the page's own stack, which
// encoding/json would double, for every page, every two seconds.
func pongText(p *wire.Pong) []byte {
	text := append(make([]byte, 0, 64), `{"type":"`+wire.TypePong+`","t":`...)
	form := byte('f')
	if size := math.Abs(p.T); size != 0 && (size < 1e-6 || size >= 1e21) { // as ECMAScript has it, and encoding/json
		form = 'e'
	}
	text = strconv.AppendFloat(text, p.T, form, -1, 64)
	text = strconv.AppendInt(append(text, `,"now":`...), p.Now, 10)
	return append(text, '}')
}
