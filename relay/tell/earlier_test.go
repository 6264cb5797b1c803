package tell

import (
	"math"

	"clocktell/relay/clock"
)

// earlier is the model in its first version: the constants of the project notes on
// move times, section 3, nothing of the board but the reply, and a word for the
// probability alone. At 15+10 it is the filter that the notes recommend, but for their
// median of a prepared move there, 2.4 s (see recommended).
func earlier() *params {
	p := fitStart()
	p.choiceShift, p.rescueShift = [classes]float64{}, [classes]float64{}
	p.evidenceMost, p.hazardMost = 3, 1
	p.tempoMoves, p.tempoShrink, p.tempoFrom = 4, 8, .9
	p.enterSum = math.Inf(-1)
	return &p
}

// recommended is the filter that the notes recommend, with which their figures came
// about: cap 3, slope .5, said at .90, withdrawn at .20.
func recommended() *params {
	p := *earlier()
	p.preparedMost = 2.4
	return &p
}

// fitStart is where the fit starts: the model in use with the constants of the notes.
func fitStart() params {
	p := standard
	p.preparedMedian, p.preparedSD = 2.0, .95
	p.thinkingShare, p.thinkingSD, p.thinkingSDShort = .55, 1.3, 1.2
	p.replyShift = [classes][replies]float64{
		classLong:  {Quiet: 0, Recapture: -1.8, EvadesCheck: -1.4, AfterCapture: -1.0},
		classShort: {Quiet: 0, Recapture: -1.4, EvadesCheck: -.7, AfterCapture: -.6},
	}
	p.replyPrepare = [classes]float64{classLong: .45, classShort: .75}
	p.lagOther, p.lagOwn = .12, .14
	p.hazardAt, p.hazardSlope = -1.45, .5
	return p
}

// onReply returns the distributions for a fifth move of which only the reply is known.
func onReply(p *params, c clock.Control, r Reply, lag, tempo float64) emission {
	return p.emission(c, 5, p.shift(c, Move{Reply: r}), lag, tempo)
}
