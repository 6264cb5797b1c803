package prompt

import (
	"fmt"
	"strings"

	"clocktell/relay/remark"
)

// calm is what is said when little happens.
func (g german) calm(r *remark.Remark, name string) (text, evidence string) {
	on := r.Squares()
	switch r.Rule {
	case remark.NothingTaken:
		return "Noch wurde nichts geschlagen.", "alle zweiunddreißig stehen auf dem Brett"
	case remark.PiecesAllOn:
		return "Alle Figuren sind noch auf dem Brett.", "bisher wurden nur Bauern geschlagen"
	case remark.NobodyCastled:
		return "Noch hat niemand rochiert.", "beide Könige stehen auf ihren Anfangsfeldern, beide Seiten dürfen noch"
	case remark.CentreEmpty:
		return "Das Zentrum ist offen: kein Bauer steht mehr auf d- und e-Linie.", "weder Weiß noch Schwarz hat dort einen"
	case remark.PawnsAlike:
		return "Die Bauernstellung ist symmetrisch.", "auf jeder Linie haben Weiß und Schwarz gleich viele Bauern"
	case remark.PawnsTouch:
		return fmt.Sprintf("Die Bauern auf %s und %s können einander schlagen, keiner tut es.", on[0], on[1]), "seit zwei Zügen oder länger; andere Bauern können es nicht"
	case remark.PawnsLocked:
		return fmt.Sprintf("Die Stellung ist geschlossen: %s Bauernpaare blockieren einander.", g.Number(int(r.Amount))), fmt.Sprintf("je %d Bauern haben einen der Gegenseite vor sich", r.Amount)
	case remark.FileFree:
		return fmt.Sprintf("Die %c-Linie ist offen, und noch hat sie niemand besetzt.", 'a'+rune(r.Amount)), "die einzige offene Linie; alle vier Türme stehen woanders"
	case remark.SquareFought:
		return fmt.Sprintf("Beide Seiten kämpfen um %s: %s.", on[0], g.fight(r)), fmt.Sprintf("Weiß zielt %d-mal darauf, Schwarz %d-mal", r.Amount/10, r.Amount%10)
	case remark.NoCaptureLong:
		return "Seit zehn Zügen wurde nichts geschlagen.", "zwanzig Halbzüge hintereinander ohne Schlagen"
	case remark.QueensFace:
		return "Die Damen stehen sich gegenüber, und niemand tauscht.", fmt.Sprintf("auf %s und %s, seit einem Zug oder länger", on[0], on[1])
	case remark.BishopsAlike:
		return "Jede Seite hat einen Läufer, beide auf derselben Farbe.", "keine Springer, die Läufer können einander begegnen"
	}
	if text, evidence = g.left(r); text != "" {
		return text, evidence
	}
	return g.calmOf(r, name)
}

// fight compares how many aim at a square, the greater number first.
func (g german) fight(r *remark.Remark) string {
	white, black := int(r.Amount/10), int(r.Amount%10)
	return fmt.Sprintf("%s gegen %s", g.Number(max(white, black)), g.Number(min(white, black)))
}

// left is what is left on the board.
func (g german) left(r *remark.Remark) (text, evidence string) {
	on := r.Squares()
	switch r.Rule {
	case remark.NoOpenFile:
		return "Noch ist keine Linie offen.", "auf jeder Linie steht ein Bauer, und alle vier Türme sind da"
	case remark.OnePieceOff:
		return "Jede Seite hat bisher nur eine Figur verloren.", "je sechs von sieben sind noch da, Bauern nicht gezählt"
	case remark.PawnsAllOn:
		return "Alle sechzehn Bauern stehen noch auf dem Brett.", "nur Figuren wurden bisher geschlagen"
	case remark.NoPasser:
		return "Noch gibt es keinen Freibauern.", "jeder Bauer hat einen der Gegenseite vor sich oder neben seinem Weg"
	case remark.NoCheckYet:
		return "In dieser Partie gab es noch kein Schach.", "keines bis zu diesem Zug"
	case remark.MinorsGone:
		return "Alle Springer und Läufer sind getauscht.", "Türme, Damen und Bauern sind übrig"
	case remark.RooksGone:
		return "Alle Türme sind weg, die Damen sind noch da.", "kein Turm auf beiden Seiten"
	case remark.OneWing:
		return "Alle Bauern stehen auf einem Flügel.", "auf den anderen vier Linien steht keiner"
	case remark.Opposition:
		side := "Schwarz"
		if r.Amount == 1 {
			side = "Weiß"
		}
		return fmt.Sprintf("Die Könige stehen sich gegenüber, %s hat die Opposition.", side), germanMenAt(r, 0) + ", die andere Seite ist am Zug"
	case remark.LastPawn:
		return fmt.Sprintf("Nur ein Bauer ist noch auf dem Brett, auf %s.", on[0]), germanAt(r, 0) + ", dazu Figuren auf beiden Seiten"
	case remark.PawnsLeft:
		return fmt.Sprintf("Übrig sind %s.", g.pawnsRemaining(r)), fmt.Sprintf("Weiß hat %d Bauern, Schwarz %d", r.Amount/10, r.Amount%10)
	case remark.PassersBoth:
		return fmt.Sprintf("Beide Seiten haben einen Freibauern, auf %s und %s.", on[0], on[1]), germanMenAt(r, 0)
	}
	return "", ""
}

// pawnsRemaining compares White's pawns with Black's where some are left.
func (g german) pawnsRemaining(r *remark.Remark) string {
	more, fewer := int(max(r.Amount/10, r.Amount%10)), int(min(r.Amount/10, r.Amount%10))
	switch {
	case more == fewer && more == 1:
		return "je ein Bauer"
	case more == fewer:
		return "je " + g.Number(more) + " Bauern"
	}
	return g.pawnsCompared(r)
}

// times is "zweimal", "viermal".
func (g german) times(n int) string { return g.Number(n) + "mal" }

// calmOf is what is said of one side when little happens.
func (g german) calmOf(r *remark.Remark, name string) (text, evidence string) {
	on := r.Squares()
	own, other := int(r.Amount/10), int(r.Amount%10)
	switch r.Rule {
	case remark.MoreSpace:
		against := map[int]string{0: "keinen", 1: "einen"}[other]
		if against == "" {
			against = g.Number(other)
		}
		return fmt.Sprintf("%s hat mehr Raum: %s Bauern jenseits der Mitte gegen %s.", name, g.Number(own), against), "auf der fünften Reihe oder weiter"
	case remark.Unmoved:
		return fmt.Sprintf("Der %s von %s auf %s hat noch nicht gezogen.", nounAt(r, 0).word, name, on[0]), "alle Springer und Läufer der Gegenseite schon"
	case remark.OneCastled:
		return fmt.Sprintf("%s hat rochiert, die Gegenseite noch nicht.", name), "sie darf noch"
	case remark.BroadCentre:
		return fmt.Sprintf("%s hat beide Mittelbauern auf der vierten Reihe.", name), fmt.Sprintf("Bauern %s und %s, und keiner der Gegenseite steht dort dagegen", on[0], on[1])
	case remark.RookUnmoved:
		return fmt.Sprintf("Der Turm von %s auf %s hat noch nicht gezogen.", name, on[0]), "kein Turm der Gegenseite steht mehr, wo er begann"
	case remark.FileHeld:
		return fmt.Sprintf("Der Turm von %s auf %s hat die offene %s für sich.", name, on[0], germanFile(on[0])), "weder Turm noch Dame dagegen, und kein Turm kann dort sicher hin"
	case remark.PawnThorn:
		return fmt.Sprintf("Der Bauer von %s auf %s steckt wie ein Dorn neben dem König.", name, on[0]), germanAt(r, 0) + " auf der sechsten Reihe, er hängt nicht"
	case remark.KingCutOff:
		return fmt.Sprintf("Der Turm auf %s schneidet den König vom Bauern auf %s ab.", on[0], on[2]), germanAt(r, 1) + " steht auf der Nachbarlinie, der Freibauer jenseits des Turms"
	case remark.LongDiagonal:
		return fmt.Sprintf("%s beherrscht die ganze lange Diagonale.", capital(der(r, 0))), "nichts steht im Weg, und die Gegenseite hat keinen Läufer dieser Farbe"
	case remark.Immobile:
		return fmt.Sprintf("%s hat keinen einzigen Zug.", capital(der(r, 0))), "alle erreichbaren Felder sind von eigenen besetzt, seit zwei Zügen oder länger"
	case remark.PawnStorm:
		return fmt.Sprintf("Die Bauern von %s auf %s und %s stürmen gegen den König.", name, on[0], on[1]), "am Flügel des anderen Königs, der eigene steht woanders"
	case remark.IslandsMore:
		return fmt.Sprintf("Die Bauern von %s stehen auf %s Inseln, die der Gegenseite auf %s.", name, g.islands(own), g.islands(other)), "Gruppen benachbarter Linien mit Bauern"
	case remark.DoubledPawns:
		return fmt.Sprintf("%s hat einen Doppelbauern auf der %s.", name, germanFile(on[0])), germanMenAt(r, 0) + "; die Gegenseite hat keinen"
	case remark.KingGuardsAlone:
		return fmt.Sprintf("Nur der König deckt %s, und die Dame zielt mit Hilfe darauf.", on[0]), germanAt(r, 0) + ": die Dame und noch eine oder mehr, vielleicht hintereinander"
	case remark.KingWalked:
		return fmt.Sprintf("Der König von %s ist bis %s gelaufen, die Damen sind noch da.", name, on[0]), germanAt(r, 0) + ", und die Gegenseite hat drei Figuren oder mehr"
	case remark.KingActive:
		return fmt.Sprintf("Der König von %s steht vorn auf %s, der andere hinten auf %s.", name, on[0], on[1]), "im Endspiel ohne Damen"
	}
	return g.calmPieces(r, name)
}

// islands writes a number of islands in the dative.
func (g german) islands(n int) string {
	if n == 1 {
		return "einer"
	}
	return g.Number(n)
}

func (german) calmPieces(r *remark.Remark, name string) (text, evidence string) {
	on := r.Squares()
	switch r.Rule {
	case remark.PasserAside:
		return fmt.Sprintf("Der Freibauer von %s auf %s steht weitab von allen anderen Bauern.", name, on[0]), "keiner steht näher als drei Linien, und er ist der einzige Freibauer"
	case remark.BishopForKnight:
		return fmt.Sprintf("%s hat den Läufer gegen den Springer.", name), "sonst hat niemand einen Springer oder Läufer"
	case remark.NoPawnsLeft:
		return fmt.Sprintf("%s hat keinen Bauern übrig.", name), "nur Figuren, und die Gegenseite hat Bauern"
	case remark.SameMan:
		return fmt.Sprintf("%s hat dreimal nacheinander mit %s gezogen.", name, germanDem(r)), germanAt(r, 0)
	case remark.ChecksInRow:
		return fmt.Sprintf("Das ist das dritte Schach von %s hintereinander.", name), "die letzten drei Züge gaben Schach"
	case remark.QueenOften:
		return fmt.Sprintf("%s hat die Dame schon dreimal gezogen.", name), "in den ersten zehn Zügen"
	}
	return "", ""
}

// germanDem is the man spoken of in the dative: "demselben Springer", "der Dame".
func germanDem(r *remark.Remark) string {
	if noun := nounAt(r, 0); strings.HasPrefix(noun.der, "die ") {
		return "der " + noun.word
	}
	return "demselben " + nounAt(r, 0).word
}
