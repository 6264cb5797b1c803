package clock

import "time"

// Sighting is what one receipt tells of when a game's clocks ran. On the game's own
// time, which is all that the two sides have spent, the ply was played at Game; it was
// received at At, and not there yet at At less Within. Cut is by how much the readings
// that Game comes from may be too low in sum, because what is less than a step was cut
// off them: Game is then too high by as much.
type Sighting struct {
	At     time.Time
	Within time.Duration
	Game   time.Duration
	Cut    time.Duration
}

// Offset is when a game's own time was zero, on the clock of the receipts, as far as
// receipts can tell: less the part of a feed's delay that never changes, which shifts
// moves and clocks alike.
type Offset struct {
	Zero      time.Time
	Unsure    time.Duration // it is right to about so much, either way
	Sightings int           // it comes from so many
}

// Limits of Locate.
const (
	sightingsStep = 4                // so few do not mean that the clocks stood still
	standstillSum = 30 * time.Second // divided by the number of newer sightings: see standstill
	sightingsMost = 32               // older ones are not asked
	lateMost      = 25 * time.Second // a later receipt means that the clocks stood still meanwhile
	widthMost     = 12 * time.Second // wider bounds mean that the feed speaks at moves only: then at once
)

// Locate works out an offset from the sightings of a game, the newest first. Each
// one bounds it from both sides, and it is in the middle of what all of them leave.
// One that contradicts the others came late, and only the earlier ones count. If an older
// one is far earlier than several newer ones, it is they that count, and no older ones
// are asked: the clocks stood still, or were set.
func Locate(sightings []Sighting) Offset {
	if len(sightings) == 0 {
		return Offset{}
	}
	origin := sightings[0].At
	low, high, n := -longest, longest, 0
	for _, s := range sightings[:min(len(sightings), sightingsMost)] {
		latest := within(s.At.Sub(origin)) - within(s.Game)
		from, to := latest-shown(s.Within), latest+shown(s.Cut)
		n++
		switch {
		case from > high: // this one came late
		case to >= low:
			low, high = max(low, from), min(high, to)
		case low-to > standstill(n):
			return offsetOf(origin, low, high, n-1, s.Cut)
		default: // the newer ones came late
			low, high = from, to
		}
	}
	return offsetOf(origin, low, high, n, sightings[0].Cut)
}

// standstill is by how much n newer sightings must all be later than an older one to
// mean that the clocks stood still in between.
func standstill(n int) time.Duration {
	if n <= sightingsStep {
		return lateMost
	}
	return standstillSum / time.Duration(n)
}

// offsetOf takes the middle of the bounds. Of a feed that speaks at moves only, and at
// once, the upper bound counts, less what the cut still leaves of it in the middle.
func offsetOf(origin time.Time, low, high time.Duration, n int, cut time.Duration) Offset {
	if high-low > widthMost {
		return Offset{Zero: origin.Add(high - shown(cut)/time.Duration(n+1)), Unsure: high - low, Sightings: n}
	}
	return Offset{Zero: origin.Add(low + (high-low)/2), Unsure: (high - low) / 2, Sightings: n}
}

// Start returns when the clock of the side on move began to run, of a game whose last
// ply was played at game on its own time, or up to cut before, and then received. It is
// never after the receipt. Ok is false when it is so long before that it is not to be
// believed of receipts alone: the clocks stood still, or were set.
func (o Offset) Start(game, cut time.Duration, received time.Time) (start time.Time, ok bool) {
	start = o.Zero.Add(within(game) - shown(cut)/2)
	if start.After(received) {
		return received, true
	}
	return start, received.Sub(start) <= lateMost
}
