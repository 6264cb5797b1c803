package tell

// tempo sums how much slower than the model a side plays.
type tempo struct {
	moves       int
	sum, weight float64 // log seconds by weight, and the weights
}

// note adds a move that took log, thought out with probability thinking. By either
// state it was so much slower than the model, and that counts by how likely the state
// is and how exact. With params.tempoFrom only moves thought out count, all alike.
func (t *tempo) note(p *params, thinking, log float64, e emission) {
	shift := t.shift(p) // is in the means
	byThought, byRecall := log-(e.thinking.mean-shift), log-(e.prepared.mean-shift)
	if p.tempoFrom > 0 {
		if thinking >= p.tempoFrom {
			t.sum, t.weight, t.moves = t.sum+byThought, t.weight+1, t.moves+1
		}
		return
	}
	thought, recalled := thinking/square(e.thinking.sd), (1-thinking)/square(e.prepared.sd)
	t.sum += thought*byThought + recalled*byRecall
	t.weight += thought + recalled
	t.moves++
}

// shift returns what the side's own tempo adds to both medians.
func (t tempo) shift(p *params) float64 {
	if t.moves < p.tempoMoves {
		return 0
	}
	return clamp(t.sum/(t.weight+p.tempoShrink), p.tempoMost)
}

func square(x float64) float64 { return x * x }
