package prompt

import (
	"fmt"

	"clocktell/relay/bitboard"
	"clocktell/relay/facts"
	"clocktell/relay/remark"
)

func (german) piece(r *remark.Remark, name string) (text, evidence string) {
	on := r.Squares()
	switch r.Rule {
	case remark.KnightOutpost:
		return fmt.Sprintf("Der Springer auf %s hat einen Vorposten.", on[0]),
			fmt.Sprintf("gedeckt durch %s; kein Bauer, der geradeaus zieht, kann ihn je angreifen", germanMenAt(r, 1))
	case remark.FileTaken:
		return fmt.Sprintf("%s beherrscht die einzige offene Linie, die %s.", name, germanFile(on[0])), germanAt(r, 0) + "; weder Turm noch Dame dagegen"
	case remark.FileDoubled:
		return fmt.Sprintf("%s hat die Türme auf der offenen %s verdoppelt.", name, germanFile(on[0])), germanMenAt(r, 0)
	case remark.SeventhRank:
		return fmt.Sprintf("%s hat einen Turm auf der siebten Reihe.", name), germanAt(r, 0) + "; er hängt nicht"
	case remark.SeventhRankDoubled:
		return fmt.Sprintf("%s hat zwei Türme auf der siebten Reihe.", name), germanMenAt(r, 0)
	case remark.Hole:
		return fmt.Sprintf("%s hat ein Loch auf %s, und ein Springer schaut darauf.", name, on[0]),
			fmt.Sprintf("kein Bauer, der geradeaus zieht, kann %s noch decken; %s würde dort %s stützen", on[0], germanAt(r, 1), germanAt(r, 2))
	case remark.AtHome:
		return fmt.Sprintf("Bei %s stehen noch %s zu Hause.", name, germanTargets(r, 0)),
			germanMenAt(r, 0) + " auf den Ausgangsfeldern, bei der Gegenseite keine Figur"
	case remark.LoosePieces:
		return fmt.Sprintf("%s hat zwei ungedeckte Figuren: %s und %s.", name, germanAt(r, 0), germanAt(r, 1)), "keine wird von eigenen gedeckt"
	case remark.BadBishop:
		return fmt.Sprintf("%s ist schlecht: eigene Bauern stehen auf seiner Farbe fest.", capital(der(r, 0))), germanMenAt(r, 1) + ", jeder mit einem fremden Bauern davor"
	case remark.ShortOfMoves:
		return fmt.Sprintf("%s steht beengt: Die Figuren haben wenige sichere Züge.", name), fmt.Sprintf("%d sichere Züge, als es gesehen wurde, höchstens halb so viele wie die Gegenseite", r.Amount)
	}
	return "", ""
}

func (german) passer(r *remark.Remark, name string) (text, evidence string) {
	on := r.Squares()
	switch r.Rule {
	case remark.PasserFar:
		if r.Amount == 1 {
			return fmt.Sprintf("Der Bauer von %s auf %s steht einen Schritt vor der Umwandlung.", name, on[0]), germanAt(r, 0) + ": Freibauer, und er hängt nicht"
		}
		return fmt.Sprintf("Der Freibauer von %s steht auf %s.", name, on[0]), germanAt(r, 0) + ": noch zwei Schritte, und er hängt nicht"
	case remark.PassersConnected:
		return fmt.Sprintf("%s hat verbundene Freibauern auf %s und %s.", name, on[0], on[1]), germanMenAt(r, 0)
	case remark.PassersFar:
		return fmt.Sprintf("%s hat zwei weite Freibauern, auf %s und %s.", name, on[0], on[1]), germanMenAt(r, 0)
	case remark.PasserProtected:
		return fmt.Sprintf("%s hat einen gedeckten Freibauern auf %s.", name, on[0]), germanAt(r, 1) + " deckt ihn"
	case remark.PasserNew:
		return fmt.Sprintf("%s hat einen Freibauern auf %s.", name, on[0]), "kein Bauer der Gegenseite vor ihm oder neben seinem Weg"
	case remark.PasserBlocked:
		return fmt.Sprintf("%s blockiert den Freibauern auf %s.", capital(der(r, 1)), on[0]), germanAt(r, 1) + " vor " + germanAt(r, 0)
	case remark.PasserBacked:
		return fmt.Sprintf("Der Turm auf %s steht hinter dem eigenen Freibauern auf %s.", on[1], on[0]), "nichts steht dazwischen"
	case remark.OutsideSquare:
		return fmt.Sprintf("Der König auf %s ist nicht im Quadrat des Bauern auf %s.", on[1], on[0]), "der Weg des Bauern ist frei, und der König holt ihn nicht ein"
	}
	return "", ""
}

func (german) pawn(r *remark.Remark, name string) (text, evidence string) {
	on := r.Squares()
	switch r.Rule {
	case remark.IsolatedQueensPawn:
		return fmt.Sprintf("%s hat einen isolierten Damenbauern.", name), germanAt(r, 0) + ": kein eigener Bauer daneben, kein anderer auf der Linie"
	case remark.DoubledIsolated:
		return fmt.Sprintf("Die Bauern von %s auf der %s sind verdoppelt und isoliert.", name, germanFile(on[0])), germanMenAt(r, 0)
	case remark.BackwardAttacked:
		return fmt.Sprintf("Der rückständige Bauer auf %s steht auf der halboffenen Linie unter Beschuss.", on[0]), germanAt(r, 1) + " greift ihn an; sicher vorrücken kann er nicht"
	case remark.IsolatedAttacked:
		return fmt.Sprintf("Der isolierte Bauer auf %s steht auf der halboffenen Linie unter Beschuss.", on[0]), germanAt(r, 1) + " greift ihn an; kein Bauer kann ihn decken"
	case remark.CentreClosed:
		return "Das Zentrum ist geschlossen.", germanMenAt(r, 0) + " halten einander fest"
	case remark.WingMajority:
		wing := "Königsflügel"
		if r.Wing == facts.QueenSide {
			wing = "Damenflügel"
		}
		return fmt.Sprintf("%s hat die Bauernmehrheit am %s.", name, wing), fmt.Sprintf("%d mehr dort; die Gegenseite hat sie am anderen Flügel", r.Amount)
	}
	return "", ""
}

func (g german) pawnsCounted(n int) string {
	if n == 1 {
		return "einen Bauern"
	}
	return g.Number(n) + " Bauern"
}

// germanMore and germanFor are the words of imbalances, in the accusative.
var (
	germanMore = map[remark.Rule]string{
		remark.PieceUp: "eine Figur", remark.ExchangeUp: "die Qualität", remark.RookUp: "einen Turm", remark.QueenUp: "eine Dame",
	}
	germanFor = map[remark.Rule][2]string{
		remark.PiecesForRook: {"zwei Figuren", "einen Turm"}, remark.QueenForRook: {"eine Dame", "einen Turm"},
		remark.QueenForRooks: {"eine Dame", "zwei Türme"}, remark.QueenForRookAndPiece: {"eine Dame", "Turm und Figur"},
		remark.QueenForPieces: {"eine Dame", "drei Figuren"},
	}
)

const germanSettled = "nach dem Abtausch, nichts hängt"

func (g german) imbalance(r *remark.Remark, name string) string {
	pawns := int(r.Amount)
	if what := germanMore[r.Rule]; what != "" {
		switch {
		case pawns > 0:
			return fmt.Sprintf("%s hat %s und %s mehr.", name, what, g.pawnsCounted(pawns))
		case pawns < 0:
			return fmt.Sprintf("%s hat %s mehr, für %s.", name, what, g.pawnsCounted(-pawns))
		}
		return fmt.Sprintf("%s hat %s mehr.", name, what)
	}
	what, ok := germanFor[r.Rule]
	switch {
	case !ok:
		return ""
	case pawns > 0:
		return fmt.Sprintf("%s hat %s und %s für %s.", name, what[0], g.pawnsCounted(pawns), what[1])
	case pawns < 0:
		return fmt.Sprintf("%s hat %s für %s und %s.", name, what[0], what[1], g.pawnsCounted(-pawns))
	}
	return fmt.Sprintf("%s hat %s für %s.", name, what[0], what[1])
}

func (g german) balance(r *remark.Remark, name string) (text, evidence string) {
	if text = g.imbalance(r, name); text != "" {
		return text, germanSettled
	}
	pawns := int(r.Amount)
	switch r.Rule {
	case remark.PawnUp:
		return fmt.Sprintf("%s hat %s mehr.", name, g.pawnsCounted(pawns)), germanSettled
	case remark.PieceForPawns:
		return fmt.Sprintf("%s hat eine Figur für %s.", name, g.pawnsCounted(pawns)), germanSettled
	case remark.LevelAgain:
		return "Das Material ist wieder ausgeglichen.", germanSettled
	case remark.TwoBishops:
		return fmt.Sprintf("%s hat das Läuferpaar.", name), "zwei Läufer, die Gegenseite nicht"
	case remark.OppositeBishops:
		if pawns == 1 {
			return "Das ist ein Endspiel mit ungleichfarbigen Läufern.", "nur Läufer und Bauern, die Läufer auf verschiedenen Farben"
		}
		return "Die Läufer sind jetzt ungleichfarbig.", "je ein Läufer auf verschiedenen Farben, keine Springer"
	case remark.EndingBegun:
		kind := map[bitboard.PieceType]string{bitboard.Knight: "Springer", bitboard.Bishop: "Läufer", bitboard.Rook: "Turm", bitboard.Queen: "Damen"}[r.Kind]
		if kind == "" {
			kind = "Bauern"
		}
		return fmt.Sprintf("Jetzt ist es ein %sendspiel, %s.", kind, g.pawnsCompared(r)), fmt.Sprintf("Weiß hat %d Bauern, Schwarz %d", r.Amount/10, r.Amount%10)
	case remark.QueensGone:
		return fmt.Sprintf("Die Damen sind weg, Endspiel: %s.", piecesCompared(r, germanPieces, " und ", " gegen ", " auf jeder Seite")), "keine Damen, höchstens drei Figuren auf jeder Seite"
	case remark.QueensOff:
		return "Die Damen sind früh vom Brett.", "beide sind vor dem zwanzigsten Zug getauscht"
	}
	return "", ""
}

// pawnsCompared compares White's pawns with Black's.
func (g german) pawnsCompared(r *remark.Remark) string {
	more, fewer := int(max(r.Amount/10, r.Amount%10)), int(min(r.Amount/10, r.Amount%10))
	switch {
	case more == fewer:
		return "mit gleich vielen Bauern"
	case fewer == 0 && more == 1:
		return "ein Bauer gegen keinen"
	case fewer == 0:
		return g.Number(more) + " Bauern gegen keinen"
	case fewer == 1:
		return g.Number(more) + " Bauern gegen einen"
	}
	return g.Number(more) + " Bauern gegen " + g.Number(fewer)
}

func (g german) draw(r *remark.Remark, name string) (text, evidence string) {
	switch r.Rule {
	case remark.PositionTwice:
		return "Wieder dieselbe Stellung: noch einmal, und Remis kann beansprucht werden.", "sie steht zum zweiten Mal (FIDE 9.2)"
	case remark.PositionThrice:
		return "Remis kann beansprucht werden: die Stellung stand nun dreimal da.", fmt.Sprintf("sie steht zum %d. Mal (FIDE 9.2; mit dem fünften Mal ist es remis, 9.6)", r.Amount)
	case remark.FiftyNear:
		return fmt.Sprintf("%s Züge ohne Schlagen oder Bauernzug: mit fünfzig kann Remis beansprucht werden.", capital(g.Number(int(r.Amount)/2))), "FIDE 9.3"
	case remark.FiftyReached:
		return "Fünfzig Züge ohne Schlagen oder Bauernzug: Remis kann beansprucht werden.", "FIDE 9.3; mit fünfundsiebzig ist es remis, 9.6"
	case remark.DeadDraw:
		return "Niemand kann mehr matt setzen: die Partie ist remis.", "tote Stellung, FIDE 5.2.2"
	case remark.LoneKing:
		return fmt.Sprintf("%s hat nur noch den König und kann nicht mehr gewinnen.", name), "überschreitet die Gegenseite die Zeit, ist es remis (FIDE 6.9)"
	}
	return "", ""
}
