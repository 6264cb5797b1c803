package remark

// game is a rest that no game outlasts.
const game = 1000

// calm is the law of what is told when little happens: once, and from its wait on for as long as it is so.
func calm(r Rule, name string, rank, wait int) law {
	return law{name: name, topic: topic(r), priority: Background, rank: rank, wait: wait, window: game, life: 8, rest: game, wide: true, quiet: true, calm: true}
}

// passing is the law of what is told of the last moves: at once or not at all.
func passing(r Rule, name string, rank int) law {
	l := calm(r, name, rank, 0)
	l.window, l.life, l.quiet = 0, 2, false
	return l
}

func init() {
	for _, one := range []struct {
		rule       Rule
		name       string
		rank, wait int
	}{
		{NoOpenFile, "no open file", 12, 1}, {OnePieceOff, "one piece off", 8, 2}, {PawnsAllOn, "pawns all on", 12, 1},
		{NoCheckYet, "no check yet", 7, 0}, {RookUnmoved, "rook unmoved", 13, 0},
		{NoPasser, "no passer", 9, 2}, {OneCastled, "one castled", 8, 2}, {BroadCentre, "broad centre", 14, 2},
		{NothingTaken, "nothing taken", 12, 0}, {PiecesAllOn, "pieces all on", 12, 1}, {NobodyCastled, "nobody castled", 13, 1},
		{CentreEmpty, "centre empty", 15, 1}, {PawnsAlike, "pawns alike", 10, 2}, {PawnsTouch, "pawns touch", 14, 4},
		{PawnsLocked, "pawns locked", 16, 2}, {FileFree, "file free", 13, 2}, {SquareFought, "square fought", 11, 1},
		{NoCaptureLong, "no capture long", 9, 0}, {QueensFace, "queens face", 17, 2}, {MinorsGone, "minors gone", 16, 2},
		{RooksGone, "rooks gone", 16, 2}, {BishopsAlike, "bishops alike", 9, 2}, {OneWing, "one wing", 15, 2},
		{LastPawn, "last pawn", 17, 2}, {PassersBoth, "passers both", 16, 2},
		{MoreSpace, "more space", 15, 2}, {Unmoved, "unmoved", 14, 0}, {LongDiagonal, "long diagonal", 12, 1},
		{Immobile, "immobile", 13, 4}, {PawnStorm, "pawn storm", 18, 1}, {IslandsMore, "islands more", 11, 2},
		{DoubledPawns, "doubled pawns", 10, 4}, {KingWalked, "king walked", 17, 1}, {KingActive, "king active", 16, 1},
		{FileHeld, "file held", 13, 1}, {PawnThorn, "pawn thorn", 16, 2},
		{KingCutOff, "king cut off", 18, 1}, {Opposition, "opposition", 14, 0}, {PawnsLeft, "pawns left", 17, 1},
		{PasserAside, "passer aside", 17, 2}, {BishopForKnight, "bishop for knight", 12, 2}, {NoPawnsLeft, "no pawns left", 16, 2},
	} {
		rules[one.rule] = calm(one.rule, one.name, one.rank, one.wait)
	}
	alone := calm(KingGuardsAlone, "king guards alone", 19, 1)
	alone.window, alone.life, alone.quiet, alone.anyAmount = 1, 3, false, true
	rules[KingGuardsAlone] = alone
	for _, one := range []struct {
		rule Rule
		name string
		rank int
	}{{SameMan, "same man", 12}, {ChecksInRow, "checks in row", 18}, {QueenOften, "queen often", 13}} {
		rules[one.rule] = passing(one.rule, one.name, one.rank)
	}
	rules[FileHeld].topic = aFile
	again := &rules[PawnsLeft]
	again.window, again.rest, again.either = 1, 6, true
	rules[Opposition].window, rules[Opposition].life, rules[Opposition].rest = 0, 1, 16
	for _, r := range []Rule{PawnsLeft, MinorsGone, RooksGone, OneWing, LastPawn, PassersBoth, PasserAside, BishopForKnight, NoPawnsLeft, BishopsAlike, PawnsAlike} {
		rules[r].counted = true
	}
}

// Calm reports whether the rule only fills a silence: whoever has more to say says that instead.
func (r Rule) Calm() bool { return rules[r].calm }
