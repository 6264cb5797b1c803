package reference

// tally counts games. Its zero value counts none.
type tally struct {
	games            uint64
	results          [BlackWon + 1]uint64
	rated, sum, best uint64 // ratings of who made the move: how many are known, their sum, the highest
	top, second      uint64 // rank of the two highest rated, if there are as many games
	latest           uint64 // age of the latest, if there is a game
}

// rank orders games by rating of the lower rated player, year and number.
func rank(id GameID, a attributes) uint64 {
	return a.lower()<<44 | age(id, a)
}

// age orders games by year and number.
func age(id GameID, a attributes) uint64 { return a.year()<<32 | uint64(id) }

// add counts a game. It has few branches, for lists of thousands.
func (t *tally) add(id GameID, a attributes, black bool) {
	mover := a.white()
	if black {
		mover = a.black()
	}
	t.games++
	t.results[a.result()]++
	t.rated += min(mover, 1)
	t.sum += mover
	t.best = max(t.best, mover)
	t.place(rank(id, a))
	t.latest = max(t.latest, age(id, a))
}

// place puts a rank where it belongs. Nothing has the rank 0 but the first game
// without rating and year, and for that one 0 is right in either place.
func (t *tally) place(rank uint64) {
	if rank > t.top {
		t.top, t.second = rank, t.top
	} else if rank > t.second {
		t.second = rank
	}
}

func (t *tally) merge(o *tally) {
	t.games += o.games
	for r := range t.results {
		t.results[r] += o.results[r]
	}
	t.rated += o.rated
	t.sum += o.sum
	t.best = max(t.best, o.best)
	t.place(o.top)
	if o.games > 1 {
		t.place(o.second)
	}
	t.latest = max(t.latest, o.latest)
}

// mean is the mean rating of who made the move, to the nearest whole number.
func (t *tally) mean() int {
	if t.rated == 0 {
		return 0
	}
	return int((t.sum + t.rated/2) / t.rated)
}
