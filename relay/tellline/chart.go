package tellline

import "math"

const minute = 60_000.0 // milliseconds, of which all of this is reckoned

var windows = []float64{8, 12, 16, 20, 24, 30, 36, 48, 60, 72, 96, 120, 150, 180, 240, 300, 360, 480}

const (
	longest   = 100_000 * minute
	headShare = 0.86
	helpShare = 0.75
)

var axisSteps = []float64{1, 2, 5, 10, 15, 30, 60, 120}

// gap is a break: the plies from up to, not including, to are left out.
type gap struct {
	from, to int
	width    float64
}

// chart is a game's time laid along a lane.
type chart struct {
	window, width, least float64
	gap                  *gap
	scale                float64
	times, joints        []float64
}

func newChart(spent []float64, window, width, least float64, broken *gap) *chart {
	c := &chart{window: window, width: width, least: least, scale: width / window, times: []float64{0}, joints: []float64{0}}
	if broken != nil && broken.from < broken.to && broken.to <= len(spent) {
		c.gap = broken
	}
	for i, s := range spent {
		c.times = append(c.times, c.times[i]+math.Max(0, s))
	}
	for i := range spent {
		c.joints = append(c.joints, c.joints[i]+c.wide(i))
	}
	return c
}

func (c *chart) playedMs() float64 { return c.times[len(c.times)-1] }
func (c *chart) played() float64   { return c.joints[len(c.joints)-1] }

func (c *chart) goneMs() float64 {
	if c.gap == nil {
		return 0
	}
	return c.times[c.gap.to] - c.times[c.gap.from]
}

func (c *chart) wide(i int) float64 {
	spent := c.times[i+1] - c.times[i]
	if !c.isGone(i) {
		return math.Max(c.least, spent*c.scale)
	}
	if gone := c.goneMs(); gone > 0 {
		return c.gap.width * (spent / gone)
	}
	return c.gap.width * (1 / float64(c.gap.to-c.gap.from))
}

func (c *chart) isGone(i int) bool { return c.gap != nil && i >= c.gap.from && i < c.gap.to }

// tear returns where the break is torn.
func (c *chart) tear() (from, to float64, torn bool) {
	if c.gap == nil {
		return 0, 0, false
	}
	return c.joints[c.gap.from], c.joints[c.gap.to], true
}

func (c *chart) after(ms float64) float64 { return c.played() + ms*c.scale }

func (c *chart) x(ms float64) float64 {
	if ms <= 0 {
		return 0
	}
	if ms >= c.playedMs() {
		return c.after(ms - c.playedMs())
	}
	i := len(c.times) - 2
	for c.times[i] > ms {
		i--
	}
	return c.joints[i] + (ms-c.times[i])/(c.times[i+1]-c.times[i])*(c.joints[i+1]-c.joints[i])
}

func fit(spent []float64, run, width, least float64) *chart {
	holds := func(c *chart) bool { return c.after(run) <= width*headShare }
	c := newChart(spent, windows[0]*minute, width, least, nil)
	for _, w := range windows {
		if holds(c) {
			break
		}
		c = newChart(spent, w*minute, width, least, nil)
	}
	for !holds(c) && c.window < longest {
		c = newChart(spent, c.window*2, width, least, nil)
	}
	return c
}

func leastFor(plies int, width float64, s *Size) float64 {
	room := width * headShare * helpShare / math.Max(1, float64(plies))
	return math.Min(s.Least, math.Max(s.Floor, room))
}

// axisMark is a minute of the axis.
type axisMark struct {
	minute int
	x      float64
}

// axis returns where the axis has a mark; in a break it has none.
func (c *chart) axis(width, apart float64) []axisMark {
	if c.playedMs() == 0 && len(c.times) > 1 {
		return nil
	}
	step := axisSteps[len(axisSteps)-1]
	for _, s := range axisSteps {
		if s*minute*c.scale >= apart {
			step = s
			break
		}
	}
	from, to, torn := c.tear()
	if !torn {
		from, to = math.Inf(1), math.Inf(1)
	}
	var marks []axisMark
	for m := 0.0; c.x(m*minute) < width; m += step {
		if x := c.x(m * minute); x <= from || x > to {
			marks = append(marks, axisMark{int(m), x})
		}
	}
	return marks
}
