package prompt

import (
	"fmt"

	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
	"clocktell/relay/remark"
)

// Position says what stands on the board.
func (g german) Position(r *remark.Remark, name string) Words {
	w := Words{Ends: g.ends(r)}
	for _, say := range []func(*remark.Remark, string) (text, evidence string){
		g.chance, g.danger, g.king, g.piece, g.pawn, g.passer, g.balance, g.draw, g.calm,
	} {
		if w.Text, w.Evidence = say(r, name); w.Text != "" {
			break
		}
	}
	return w
}

func (g german) ends(r *remark.Remark) string {
	switch moves := (r.Life() + 1) / 2; moves {
	case 0, 1:
		return "mit dem nächsten Zug"
	default:
		return fmt.Sprintf("sobald es nicht mehr stimmt, sonst %s Züge danach", g.Number(moves))
	}
}

// germanNoun is a man with what its gender does to the words before it.
type germanNoun struct{ word, plural, der, den string }

func nounOf(t bitboard.PieceType) germanNoun {
	switch t {
	case bitboard.Pawn:
		return germanNoun{"Bauer", "Bauern", "der Bauer", "den Bauern"}
	case bitboard.Knight:
		return germanNoun{"Springer", "Springer", "der Springer", "den Springer"}
	case bitboard.Bishop:
		return germanNoun{"Läufer", "Läufer", "der Läufer", "den Läufer"}
	case bitboard.Rook:
		return germanNoun{"Turm", "Türme", "der Turm", "den Turm"}
	case bitboard.Queen:
		return germanNoun{"Dame", "Damen", "die Dame", "die Dame"}
	}
	return germanNoun{"König", "Könige", "der König", "den König"}
}

func nounAt(r *remark.Remark, i int) germanNoun { return nounOf(r.Man(i).Type()) }

// der and den name the man at index i with its square, in the nominative and accusative.
func der(r *remark.Remark, i int) string { return placed(r, i, nounAt(r, i).der) }
func den(r *remark.Remark, i int) string { return placed(r, i, nounAt(r, i).den) }

func placed(r *remark.Remark, i int, noun string) string {
	return noun + " auf " + r.Squares()[i].String()
}

func germanAt(r *remark.Remark, i int) string {
	return nounAt(r, i).word + " " + r.Squares()[i].String()
}

func germanMenAt(r *remark.Remark, from int) string {
	var list []string
	for i := from; i < len(r.Squares()); i++ {
		list = append(list, germanAt(r, i))
	}
	return listed(list, "und")
}

// germanTargets names men by their kind in the accusative: "König und Turm", "zwei Türme".
func germanTargets(r *remark.Remark, from int) string {
	var kinds []string
	for i := from; i < len(r.Squares()); i++ {
		kinds = append(kinds, nounAt(r, i).word)
	}
	if len(kinds) == 2 && kinds[0] == kinds[1] {
		return "zwei " + nounAt(r, from).plural
	}
	return listed(kinds, "und")
}

// germanPlan is the move on offer: "Springer nach c7".
func germanPlan(r *remark.Remark, i int) string {
	if takes(r, i) {
		return fmt.Sprintf("%s schlägt auf %s", nounAt(r, i).word, r.Move.To())
	}
	return fmt.Sprintf("%s nach %s", nounAt(r, i).word, r.Move.To())
}

// germanMove is it in the evidence: "Springer e6–c7".
func germanMove(r *remark.Remark, i int) string {
	return germanAt(r, i) + "–" + r.Move.To().String()
}

func germanPoints(r *remark.Remark) string {
	return fmt.Sprintf("gewinnt gegen jede Antwort mindestens %d Punkte (Springer und Läufer 3, Turm 5, Dame 9)", int(r.Amount)/bitboard.PawnValue)
}

func (german) chance(r *remark.Remark, name string) (text, evidence string) {
	switch r.Rule {
	case remark.MateHere:
		return fmt.Sprintf("%s kann in einem Zug matt setzen: %s.", name, germanPlan(r, 0)), germanMove(r, 0) + " setzt matt"
	case remark.MateForced:
		return fmt.Sprintf("%s setzt in %s Zügen zwingend matt: %s.", name, German.Number(int(r.Amount)), germanPlan(r, 0)), germanMove(r, 0) + ", danach nur Schachs; alle Antworten sind geprüft"
	case remark.MateThreatened:
		return fmt.Sprintf("%s droht matt: %s.", name, germanPlan(r, 0)), germanMove(r, 0) + " würde matt setzen"
	case remark.ForkOffered:
		return fmt.Sprintf("%s hat eine Gabel auf %s: %s.", name, germanTargets(r, 2), germanPlan(r, 0)),
			fmt.Sprintf("%s greift an: %s; %s", germanMove(r, 0), germanMenAt(r, 2), germanPoints(r))
	case remark.SkewerOffered:
		return fmt.Sprintf("%s hat einen Spieß gegen %s: %s.", name, germanTargets(r, 2), germanPlan(r, 0)),
			fmt.Sprintf("%s greift an: %s, dahinter %s; %s", germanMove(r, 0), germanAt(r, 2), germanAt(r, 3), germanPoints(r))
	case remark.DiscoveryOffered:
		discovery := "einen Abzug gegen " + nounAt(r, 3).den
		if r.Man(3).Type() == bitboard.King {
			discovery = "ein Abzugsschach"
		}
		return fmt.Sprintf("%s hat %s: %s.", name, discovery, germanPlan(r, 0)),
			fmt.Sprintf("%s öffnet die Linie: %s gegen %s; %s", germanMove(r, 0), germanAt(r, 2), germanAt(r, 3), germanPoints(r))
	case remark.DoubleDuty:
		return fmt.Sprintf("%s ist überlastet: zu decken sind %s und %s.", capital(der(r, 0)), r.Squares()[1], r.Squares()[2]),
			fmt.Sprintf("deckt allein %s und %s; zuerst auf %s zu schlagen %s", germanAt(r, 1), germanAt(r, 2), r.Squares()[1], germanPoints(r))
	case remark.GuardRemovable:
		return fmt.Sprintf("Nur %s deckt %s, und die Deckung kann fallen.", der(r, 0), den(r, 1)),
			fmt.Sprintf("%s schlägt %s; das %s", germanAt(r, 2), germanAt(r, 0), germanPoints(r))
	case remark.PieceHangs:
		return fmt.Sprintf("%s hängt: %s kann schlagen.", capital(der(r, 0)), der(r, 1)),
			fmt.Sprintf("%s schlägt %s und %s", germanAt(r, 1), germanAt(r, 0), germanPoints(r))
	}
	return "", ""
}

func (german) danger(r *remark.Remark, name string) (text, evidence string) {
	switch r.Rule {
	case remark.PieceTrapped:
		return fmt.Sprintf("%s ist gefangen: kein Zug rettet die Figur.", capital(der(r, 0))),
			fmt.Sprintf("%s: angegriffen von %s; nach jedem Zug gehen mindestens %d Punkte verloren", germanAt(r, 0), germanAt(r, 1), int(r.Amount)/bitboard.PawnValue)
	case remark.TrapOffered:
		return fmt.Sprintf("%s ist zu fangen: %s.", capital(der(r, 0)), germanPlan(r, 1)),
			fmt.Sprintf("%s hat kein sicheres Feld; nach %s rettet kein Zug die Figur", germanAt(r, 0), germanMove(r, 1))
	case remark.NoSquareLeft:
		return fmt.Sprintf("%s hat kein sicheres Feld mehr: es droht %s.", capital(der(r, 0)), germanPlan(r, 1)),
			fmt.Sprintf("%s: auf jedem erreichbaren Feld geht Material verloren", germanAt(r, 0))
	case remark.PinAttacked:
		return fmt.Sprintf("%s ist gefesselt und noch einmal angegriffen.", capital(der(r, 0))),
			fmt.Sprintf("%s fesselt %s an %s; dazu greift %s an, und %s hängt", germanAt(r, 1), germanAt(r, 0), germanAt(r, 2), germanAt(r, 3), nounAt(r, 0).der)
	case remark.NoSafeSquare:
		return fmt.Sprintf("%s hat kein sicheres Feld mehr.", capital(der(r, 0))), "jeder Zug damit verliert Material"
	case remark.PinLasting:
		return fmt.Sprintf("%s ist noch immer an %s gefesselt.", capital(der(r, 0)), nounAt(r, 2).den),
			fmt.Sprintf("%s fesselt %s an %s, seit einem Zug oder länger", germanAt(r, 1), germanAt(r, 0), germanAt(r, 2))
	}
	return "", ""
}

func germanFile(s remark.Square) string { return s.String()[:1] + "-Linie" }

func (g german) king(r *remark.Remark, name string) (text, evidence string) {
	switch r.Rule {
	case remark.CastlingPrevented:
		return g.castling(r, name)
	case remark.CastlingGivenUp:
		return fmt.Sprintf("%s kann nicht mehr rochieren, und die Damen sind noch da.", name), fmt.Sprintf("König auf %s, kein Recht zur Rochade mehr", r.Squares()[0])
	case remark.CentreOpen:
		return fmt.Sprintf("Der König von %s steht im Zentrum, und die %s ist offen.", name, germanFile(r.Squares()[1])),
			fmt.Sprintf("%s; auf der offenen Linie %s", germanAt(r, 0), germanMenAt(r, 1))
	case remark.FileToKing:
		return fmt.Sprintf("Die %s ist offen, beim König von %s.", germanFile(r.Squares()[1]), name),
			fmt.Sprintf("%s; auf der offenen Linie %s", germanAt(r, 0), germanMenAt(r, 1))
	case remark.KingLate:
		return fmt.Sprintf("Nach vierzehn Zügen steht der König von %s noch im Zentrum.", name),
			fmt.Sprintf("%s, die Damen auf dem Brett, der andere König nicht im Zentrum", germanAt(r, 0))
	case remark.OppositeWings:
		return "Die Könige stehen auf verschiedenen Flügeln, und die Damen sind noch da.", "ein König auf den Linien a bis c, der andere auf g oder h"
	case remark.KingUnderFire:
		guards := "keine deckt ihn"
		switch n := int(r.Amount % 10); {
		case n == 1:
			guards = "nur eine deckt ihn"
		case n > 1:
			guards = "nur " + g.Number(n) + " decken ihn"
		}
		return fmt.Sprintf("%s Figuren zielen auf den König von %s, und %s.", capital(g.Number(int(r.Amount/10))), name, guards),
			fmt.Sprintf("%s: so viele greifen ihn oder ein Feld daneben an, darunter die Dame", germanAt(r, 0))
	case remark.FianchettoGone:
		return fmt.Sprintf("Den Feldern um den König von %s fehlt jetzt der Läufer.", name),
			fmt.Sprintf("%s hinter %s; die Gegenseite hat den Läufer dieser Farbe und die Dame noch", germanAt(r, 0), germanAt(r, 1))
	case remark.BackRank:
		return fmt.Sprintf("Die Grundreihe von %s ist ungedeckt, und der König hat kein Luftloch.", name),
			fmt.Sprintf("%s, daneben weder Turm noch Dame, davor alle Felder besetzt oder angegriffen; %s", germanAt(r, 0), germanAt(r, 1))
	case remark.CoverGone:
		if r.Amount == 0 {
			return fmt.Sprintf("Der König von %s hat keinen Bauern mehr vor sich.", name), germanAt(r, 0) + ": kein eigener Bauer nahe davor"
		}
		return fmt.Sprintf("Der König von %s hat nur noch einen Bauern vor sich.", name), germanAt(r, 0) + ", davor " + germanMenAt(r, 1)
	}
	return "", ""
}

func (german) castling(r *remark.Remark, name string) (text, evidence string) {
	wing := "kurz"
	if r.Wing == facts.QueenSide {
		wing = "lang"
	}
	evidence = fmt.Sprintf("%s greift %s an, wo der König vorbei oder hin muss", germanAt(r, 2), r.Squares()[1])
	if len(r.Squares()) > 3 {
		return fmt.Sprintf("%s kann nicht %s rochieren wegen %s und %s.", name, wing, germanAt(r, 2), germanAt(r, 3)),
			evidence + "; ebenso " + germanAt(r, 3) + ", dort oder daneben"
	}
	return fmt.Sprintf("%s kann nicht %s rochieren, solange %s nach %s schaut.", name, wing, der(r, 2), r.Squares()[1]), evidence
}
