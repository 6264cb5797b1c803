package tellline

import "math"

const (
	longestWhole = 120 * minute
	wideLane     = 600.0
	keepsWide    = 60 * minute
	keepsNarrow  = 30 * minute
	keepsPlies   = 60
	startShare   = 0.1
	fillShare    = 0.75
	fewPlies     = 8
	gonePlies    = 4
	stepMs       = minute
)

// layout lays the game along a lane, whole as long as that is legible, then with a break.
func layout(spent []float64, run, width float64, s *Size) *chart {
	all := spent
	if run > 0 {
		all = append(append([]float64{}, spent...), run)
	}
	if window := wholeFits(all, width, s); window > 0 {
		return newChart(spent, window, width, leastFor(len(all), width, s), nil)
	}
	b := &breaking{all: all, width: width, size: s}
	if st := b.last(); st != nil {
		return newChart(spent, st.window, width, st.least, &st.gap)
	}
	return fit(spent, run, width, leastFor(len(all), width, s))
}

// wholeFits returns the window in which a whole game fits; 0: in none that is legible.
func wholeFits(all []float64, width float64, s *Size) float64 {
	least := leastFor(len(all), width, s)
	if len(all) > mostPlies(width, s) {
		return 0
	}
	for _, w := range windows {
		w *= minute
		if w <= longestWhole && sum(all, 0, len(all), least, width/w) <= width*headShare {
			return w
		}
	}
	return 0
}

func mostPlies(width float64, s *Size) int {
	return int(math.Floor(width * headShare * helpShare / s.Floor))
}

type breakState struct {
	window, least float64
	gap           gap
}

// breaking plays a game again, to find where its break has come to stand.
type breaking struct {
	all   []float64
	width float64
	size  *Size
	state *breakState
	tail  float64
	room  float64
}

func (b *breaking) last() *breakState {
	for n := b.firstTooMany(); n <= len(b.all); n++ {
		b.grow(n)
	}
	return b.state
}

func (b *breaking) firstTooMany() int {
	few, many := 0, len(b.all)
	for many-few > 1 {
		n := (few + many) >> 1
		if wholeFits(b.all[:n], b.width, b.size) > 0 {
			few = n
		} else {
			many = n
		}
	}
	return many
}

func (b *breaking) grow(n int) {
	if n < 1 {
		return
	}
	spent := b.all[n-1]
	for ms := stepMs; ms < spent; ms += stepMs {
		b.look(n, ms)
	}
	b.look(n, spent)
	if b.state != nil {
		b.tail += px(spent, b.state.least, b.width/b.state.window)
	}
}

func (b *breaking) look(n int, ms float64) {
	st := b.state
	if st != nil && b.tail+px(ms, st.least, b.width/st.window) <= b.room {
		return
	}
	now := append(append([]float64{}, b.all[:n-1]...), ms)
	if st == nil && wholeFits(now, b.width, b.size) > 0 {
		return
	}
	found, room := b.search(now)
	if found == nil {
		return
	}
	b.state, b.room = found, room
	b.tail = sum(now, found.gap.to, n-1, found.least, b.width/found.window)
}

func (b *breaking) search(now []float64) (*breakState, float64) {
	coarsest := math.Inf(1)
	if b.state == nil && len(now) <= mostPlies(b.width, b.size) {
		coarsest = fit(now, 0, b.width, leastFor(len(now), b.width, b.size)).window
	}
	for _, w := range windows {
		if w*minute >= coarsest {
			return nil, 0
		}
		if found, room := b.at(now, w*minute); found != nil {
			return found, room
		}
	}
	return nil, 0
}

func (b *breaking) at(now []float64, window float64) (*breakState, float64) {
	scale, s := b.width/window, b.size
	room := b.width*(headShare-startShare) - s.Tear[0]
	keep := min(keepsPlies, int(math.Floor(helpShare*fillShare*room/s.Floor)))
	if keep < fewPlies {
		return nil, 0
	}
	least := math.Min(s.Least, math.Max(s.Floor, helpShare*fillShare*room/float64(keep)))
	kept := keepsNarrow
	if b.width >= wideLane {
		kept = keepsWide
	}
	from, to := startOf(now, b.width*startShare, least, scale), tailOf(now, keep, kept)
	if to-from < gonePlies || sum(now, to, len(now), least, scale) > fillShare*room {
		return nil, 0
	}
	return &breakState{window, least, gap{from, to, s.Tear[0]}}, room
}

// startOf counts the plies that fit into the room at the beginning.
func startOf(all []float64, room, least, scale float64) int {
	n := 0
	for at := px(all[0], least, scale); n < len(all) && at <= room; {
		n++
		if n < len(all) {
			at += px(all[n], least, scale)
		}
	}
	return n
}

// tailOf returns the first ply of what is kept at the end.
func tailOf(all []float64, plies int, timeMs float64) int {
	at, ms := len(all), 0.0
	for at > 0 {
		n := len(all) - at
		if n >= plies || n >= fewPlies && ms >= timeMs {
			break
		}
		ms += all[at-1]
		at--
	}
	return at
}

func px(spent, least, scale float64) float64 { return math.Max(least, math.Max(0, spent)*scale) }

func sum(all []float64, from, to int, least, scale float64) float64 {
	x := 0.0
	for i := from; i < to; i++ {
		x += px(all[i], least, scale)
	}
	return x
}
