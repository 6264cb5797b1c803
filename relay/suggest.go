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
// then what has turned it, then what lasts. Common practice, no source. Of what an engine
// alone judges, people are told; nobody puts it before viewers but a person.
var burns = map[AlertKind]struct {
	heat   int
	lasts  time.Duration
	judged bool // by an engine alone
}{
	AlertFlagNear:        {heat: 60},
	AlertTimeTrouble:     {heat: 50},
	AlertSwing:           {40, time.Minute, true},
	AlertMissedMate:      {40, time.Minute, true},
	AlertLeftPreparation: {heat: 30, lasts: time.Minute},
	AlertFirstThink:      {heat: 30, lasts: time.Minute},
	AlertNovelty:         {heat: 20, lasts: time.Minute},
	AlertOnlyMove:        {heat: 15, judged: true},
	AlertRefuted:         {heat: 15, judged: true},
	AlertHardThink:       {heat: 12},
	AlertLongThink:       {heat: 10},
	AlertEasyThink:       {heat: 10},
}

// Suggestions lists the boards that something happens on, the hottest first; each once.
func (g deskGames) Suggestions() []desk.Suggestion {
	var out []desk.Suggestion
	var heats []int
	for _, b := range g.show.Boards {
		if len(b.Alerts) == 0 || b.Over() || b.Held() {
			continue
		}
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
	for _, a := range b.Alerts {
		fire, ok := burns[a.Kind]
		if !ok || a.Say.Priority == prompt.Silent || fire.lasts > 0 && now.Sub(a.At) > fire.lasts {
			continue
		}
		if heat := fire.heat + a.Level; heat > most {
			most = heat
			best = desk.Suggestion{Board: b.Number, Kind: string(a.Kind), Side: a.Side, Reason: a.Say.Text, At: a.At, Judged: fire.judged}
		}
	}
	return best, most
}
