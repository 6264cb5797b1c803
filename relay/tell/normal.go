package tell

import "math"

// tiny keeps logarithms of probabilities finite.
const tiny = 1e-300

// tail returns the chance that a standard normal exceeds z.
func tail(z float64) float64 { return math.Erfc(z/math.Sqrt2) / 2 }

// logNormal is a log-normal distribution of seconds.
type logNormal struct{ mean, sd float64 } // of the logarithm

func (n logNormal) z(seconds float64) float64 {
	if seconds <= 0 {
		return math.Inf(-1)
	}
	return (math.Log(seconds) - n.mean) / n.sd
}

// logWithin returns the logarithm of the chance of a time within half of d. It is
// taken in the tail that keeps its digits.
func (n logNormal) logWithin(d, half float64) float64 {
	lo, hi := n.z(d-half), n.z(d+half)
	chance := tail(-hi) - tail(-lo)
	if lo > 0 {
		chance = tail(lo) - tail(hi)
	}
	return math.Log(max(chance, tiny))
}

// logBeyond returns the logarithm of the chance of a time above e.
func (n logNormal) logBeyond(e float64) float64 {
	return math.Log(max(tail(n.z(e)), tiny))
}

func logistic(x float64) float64 { return 1 / (1 + math.Exp(-x)) }

func logit(p float64) float64 { return math.Log(p / (1 - p)) }

// certain keeps a probability off 0 and 1, from where nothing could move it.
func certain(p float64) float64 { return min(max(p, 1e-9), 1-1e-9) }

func clamp(x, most float64) float64 { return min(max(x, -most), most) }
