package relay

import (
	"slices"
	"time"

	"clocktell/relay/desk"
	"clocktell/relay/prompt"
)

// suggestionsMost is how many boards are suggested at the same time.
const suggestionsMost = 5

// burns says how urgent it is to show a board, by what is told of it, and for how long
// what has happened stays so; 0: as long as it lasts. What may end a game comes first,
// then what has turned it, then what lasts. Common practice, no source.
var burns = map[AlertKind]struct {
	heat  int
	lasts time.Duration
}{
	AlertFlagNear:        {60, 0},
	AlertTimeTrouble:     {50, 0},
	AlertSwing:           {40, time.Minute},
	AlertMissedMate:      {40, time.Minute},
	AlertLeftPreparation: {30, time.Minute},
	AlertFirstThink:      {30, time.Minute},
	AlertNovelty:         {20, time.Minute},
	AlertOnlyMove:        {15, 0},
	AlertRefuted:         {15, 0},
	AlertHardThink:       {12, 0},
	AlertLongThink:       {10, 0},
	AlertEasyThink:       {10, 0},
}

// Suggestions lists the boards that something happens on, the hottest first; each once.
func (g deskGames) Suggestions() []desk.Suggestion {
	var out []desk.Suggestion
	var heats []int
	for _, b := range g.show.Boards {
		if suggestion, heat := b.suggested(g.show.At); heat > 0 {
			i := 0
			for i < len(out) && (heats[i] > heat || heats[i] == heat && out[i].At.After(suggestion.At)) {
				i++
			}
			out, heats = slices.Insert(out, i, suggestion), slices.Insert(heats, i, heat)
		}
	}
	return out[:min(len(out), suggestionsMost)]
}

// suggested returns the hottest reason to look at a board, 0 for none.
func (b *Board) suggested(now time.Time) (desk.Suggestion, int) {
	var best desk.Suggestion
	most := 0
	if b.Over() || b.Held() {
		return best, 0
	}
	for _, a := range b.Alerts {
		fire, ok := burns[a.Kind]
		if !ok || a.Say.Priority == prompt.Silent || fire.lasts > 0 && now.Sub(a.At) > fire.lasts {
			continue
		}
		if heat := fire.heat + a.Level; heat > most {
			most = heat
			best = desk.Suggestion{Board: b.Number, Kind: string(a.Kind), Side: a.Side, Reason: a.Say.Text, At: a.At}
		}
	}
	return best, most
}
