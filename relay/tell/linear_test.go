package tell

import "math"

// squares sums the normal equations of a weighted least-squares fit.
type squares struct {
	a [][]float64
	b []float64
}

// newSquares returns equations for n weights, pulled towards 0 as by so many
// observations of 1 with weight 1.
func newSquares(n int, pull float64) *squares {
	s := &squares{a: make([][]float64, n), b: make([]float64, n)}
	for i := range s.a {
		s.a[i] = make([]float64, n)
		s.a[i][i] = pull
	}
	return s
}

// add adds an observation y with weight of what the columns x should give.
func (s *squares) add(x []float64, y, weight float64) {
	for i, xi := range x {
		if xi == 0 {
			continue
		}
		s.b[i] += weight * xi * y
		for j, xj := range x {
			s.a[i][j] += weight * xi * xj
		}
	}
}

// solve returns the weights: Gaussian elimination with pivots. It uses s up.
func (s *squares) solve() []float64 {
	a, b := s.a, s.b
	for i := range b {
		pivot := i
		for r := i + 1; r < len(b); r++ {
			if math.Abs(a[r][i]) > math.Abs(a[pivot][i]) {
				pivot = r
			}
		}
		a[i], a[pivot], b[i], b[pivot] = a[pivot], a[i], b[pivot], b[i]
		for r := i + 1; r < len(b); r++ {
			f := a[r][i] / a[i][i]
			for c := i; c < len(b); c++ {
				a[r][c] -= f * a[i][c]
			}
			b[r] -= f * b[i]
		}
	}
	for i := len(b) - 1; i >= 0; i-- {
		for c := i + 1; c < len(b); c++ {
			b[i] -= a[i][c] * b[c]
		}
		b[i] /= a[i][i]
	}
	return b
}

// dot returns the sum of products.
func dot(a, b []float64) float64 {
	sum := 0.0
	for i := range a {
		sum += a[i] * b[i]
	}
	return sum
}

// logSum returns log(exp(a) + exp(b)).
func logSum(a, b float64) float64 {
	m := max(a, b)
	return m + math.Log(math.Exp(a-m)+math.Exp(b-m))
}

// between is what is known of a normal variable that lies between two bounds: the
// logarithm of the chance of that, and mean and variance once it does (formulas of
// the truncated normal distribution, from memory; TestBetween holds them to draws).
type between struct{ log, mean, variance float64 }

func within(lo, hi, mean, sd float64) between {
	a, b := (lo-mean)/sd, (hi-mean)/sd
	chance := tail(-b) - tail(-a)
	if a > 0 {
		chance = tail(a) - tail(b)
	}
	if chance < 1e-14 { // so far out that the digits are gone: all at the nearer end
		return between{math.Log(tiny), min(max(mean, lo), hi), 0}
	}
	da, db := bell(a), bell(b)
	shift, curve := (da-db)/chance, -b*db/chance
	if !math.IsInf(a, -1) {
		curve += a * da / chance
	}
	return between{math.Log(chance), mean + sd*shift, max(0, sd*sd*(1+curve-shift*shift))}
}

// bell is the density of the standard normal distribution.
func bell(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
