package match

import "slices"

// Game is what a feed says of one game, by its tags.
type Game struct {
	White, Black string
	Result       string // "1-0", "0-1", "1/2-1/2"; anything else is not finished
	Round        string // "3", or "2.1"
}

// Taken tells what became of a feed's games.
type Taken struct {
	Counted  int           // games whose result is in the match, each once
	Places   map[int]Place // by index: where in the plan a game of the match stands, White as it is played
	Unplaced []int         // by index: games of the match's players whose round says no game of the plan
	Contrary []Place       // games that have two results; a planned one stands, of two in the feed none counts
}

// slot is a game of the plan with what the feed says of it.
type slot struct {
	Place
	pair     [2]string // keys of the names of First and Second
	white    Side      // as played; Neither if the feed lacks the game
	result   Result    // Unknown also if contrary
	contrary bool
}

// Take returns the match with the results of a feed, which may list other games too,
// and unfinished ones. A result that the plan has already stands. Games are found by
// their players, whatever the colours, and by their round: a Round tag given in the
// plan, or else a number that counts the match's rounds from 1 (see roundOf). Colours
// are corrected from the games as they are played.
func (m Match) Take(games []Game) (Match, Taken) {
	slots := m.slots()
	var taken Taken
	found := make(map[int]int)
	tags := tagsByPair(games)
	for i, game := range games {
		pair := pairOf(game)
		fits := ofPair(slots, pair)
		if len(fits) == 0 {
			continue
		}
		at := m.find(slots, fits, game.Round, tags[sorted(pair)])
		if at < 0 {
			taken.Unplaced = append(taken.Unplaced, i)
			continue
		}
		slots[at].take(pair, game.Result)
		found[i] = at
	}
	out := m.settled(slots, &taken)
	taken.Places = make(map[int]Place, len(found))
	for i, at := range found {
		place := out.place(slots[at].Stage, slots[at].Game)
		place.White = slots[at].whiteOf(pairOf(games[i]))
		taken.Places[i] = place
	}
	return out, taken
}

func (m Match) slots() []slot {
	var out []slot
	for i, stage := range m.Stages {
		for game := range stage.Games {
			players := m.pair(i, game)
			out = append(out, slot{Place: m.place(i, game), pair: [2]string{key(players[0].Name), key(players[1].Name)}})
		}
	}
	return out
}

// pairOf returns the keys of a game's players, White first.
func pairOf(game Game) [2]string { return [2]string{key(game.White), key(game.Black)} }

// sorted is the pair whatever the colours.
func sorted(pair [2]string) [2]string { return [2]string{min(pair[0], pair[1]), max(pair[0], pair[1])} }

// tagsByPair returns the Round tags of all games between the same players.
func tagsByPair(games []Game) map[[2]string][]string {
	out := make(map[[2]string][]string)
	for _, game := range games {
		pair := sorted(pairOf(game))
		out[pair] = append(out[pair], game.Round)
	}
	return out
}

// ofPair returns which slots are games of the players.
func ofPair(slots []slot, players [2]string) []int {
	var out []int
	for i, s := range slots {
		if s.whiteOf(players) != Neither {
			out = append(out, i)
		}
	}
	return out
}

// whiteOf returns which side has White in a game of the slot's players, Neither for a
// game of others.
func (s slot) whiteOf(players [2]string) Side {
	switch {
	case players[0] == "" || players[1] == "":
		return Neither
	case players == s.pair:
		return First
	case players == [2]string{s.pair[1], s.pair[0]}:
		return Second
	}
	return Neither
}

// take notes what a game says. A result is not taken back by the same game unfinished.
func (s *slot) take(players [2]string, text string) {
	white := s.whiteOf(players)
	result := resultOf(text, white)
	if s.white == Neither || s.result == Unknown && result != Unknown {
		s.white = white
	}
	switch {
	case result == Unknown:
	case s.result != Unknown && s.result != result:
		s.contrary = true
	default:
		s.result = result
	}
}

func resultOf(text string, white Side) Result {
	switch text {
	case "1-0":
		return wonBy(white)
	case "0-1":
		return wonBy(white.Other())
	case "1/2-1/2":
		return Drawn
	}
	return Unknown
}

// settled returns the match with what the slots have.
func (m Match) settled(slots []slot, taken *Taken) Match {
	m.Stages = slices.Clone(m.Stages)
	for i := range m.Stages {
		stage := &m.Stages[i]
		results := make([]Result, stage.Games)
		copy(results, stage.Results)
		stage.Results = results
		stage.Whites = slices.Clone(stage.Whites)
	}
	opened := make([]bool, len(m.Stages))
	for _, s := range slots {
		stage := &m.Stages[s.Stage]
		stage.colour(s, &opened[s.Stage])
		planned := stage.Results[s.Game]
		switch {
		case s.contrary || planned != Unknown && s.result != Unknown && planned != s.result:
			taken.Contrary = append(taken.Contrary, s.Place)
		case s.result != Unknown:
			stage.Results[s.Game] = s.result
			taken.Counted++
		}
	}
	return m
}

// colour corrects the colours by a game as it is played: its own if each game's are
// given, else, by the first game that the feed has, those of the whole stage.
func (s *Stage) colour(played slot, opened *bool) {
	switch {
	case played.white == Neither:
	case len(s.Whites) > 0:
		s.Whites[played.Game] = played.white
	case !*opened:
		s.Opens, *opened = s.turned(played.white, played.Game), true
	}
}
