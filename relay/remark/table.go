package remark

// Priority is how soon a remark should be said.
type Priority uint8

// The priorities, most urgent first.
const (
	Now Priority = iota
	Soon
	Background
)

// topic groups rules of which one makes the others superfluous.
type topic uint8

const (
	aMate topic = iota + 1
	aChance
	aTrap
	aPin
	aCastling
	aKing
	aWings
	aBackRank
	aCentre
	anOutpost
	aFile
	aBishop
	aSqueeze
	aDelay
	aLoose
	aPasser
	aPawn
	aMajority
	aBalance
	aTrade
	aDraw
	aClaim
)

// law is when a rule may speak. Times are in plies.
type law struct {
	name       string
	topic      topic
	priority   Priority
	rank       int  // of two findings the higher is said
	wait       int  // it must have stood so long
	window     int  // and be said within so long
	life       int  // a remark is withdrawn after so long, though it holds
	rest       int  // nothing of the topic is said of the man again for so long
	wide       bool // of the side, not only of the man
	quiet      bool // only in a quiet position
	counted    bool // only in a settled one
	calm       bool // only when nothing else was said for a while
	again      int  // the rule is not said again of the side for so long
	either     bool // the rest counts for both sides
	lull       int  // nothing of the topic is said of the side for so long
	anyAmount  bool // the amount may change
	amountSaid bool // but not any more once it was said
}

var rules = [256]law{
	MateHere:         {name: "mate here", topic: aMate, priority: Now, rank: 100, life: 1, rest: 8, wide: true},
	MateForced:       {name: "mate forced", topic: aMate, priority: Now, rank: 97, life: 1, rest: 2, wide: true},
	MateThreatened:   {name: "mate threatened", topic: aMate, priority: Soon, rank: 90, life: 1, rest: 8, wide: true},
	ForkOffered:      {name: "fork offered", topic: aChance, priority: Soon, rank: 80, life: 1, rest: 10, wide: true},
	SkewerOffered:    {name: "skewer offered", topic: aChance, priority: Soon, rank: 78, life: 1, rest: 10, wide: true},
	DiscoveryOffered: {name: "discovery offered", topic: aChance, priority: Soon, rank: 77, life: 1, rest: 10, wide: true},
	DoubleDuty:       {name: "double duty", topic: aChance, priority: Soon, rank: 60, life: 1, rest: 10, wide: true, anyAmount: true},
	GuardRemovable:   {name: "guard removable", topic: aChance, priority: Soon, rank: 76, life: 1, rest: 10, wide: true, anyAmount: true},
	PieceHangs:       {name: "piece hangs", topic: aChance, priority: Soon, rank: 82, life: 1, rest: 4, wide: true, anyAmount: true},
	PieceTrapped:     {name: "piece trapped", topic: aTrap, priority: Soon, rank: 75, life: 4, rest: 20, anyAmount: true},
	TrapOffered:      {name: "trap offered", topic: aTrap, priority: Soon, rank: 70, life: 1, rest: 20, anyAmount: true},
	NoSquareLeft:     {name: "no square left", topic: aTrap, priority: Soon, rank: 50, life: 1, rest: 20, anyAmount: true},
	NoSafeSquare:     {name: "no safe square", topic: aTrap, priority: Background, rank: 31, wait: 2, window: 2, life: 6, rest: 30, quiet: true},
	PinAttacked:      {name: "pin attacked", topic: aPin, priority: Soon, rank: 65, life: 2, rest: 20, anyAmount: true},
	PinLasting:       {name: "pin lasting", topic: aPin, priority: Background, rank: 20, wait: 2, window: 4, life: 10, rest: 30, quiet: true},

	CastlingPrevented: {name: "castling prevented", topic: aCastling, priority: Soon, rank: 55, wait: 1, window: 3, life: 10, rest: 80, wide: true, anyAmount: true, quiet: true},
	CastlingGivenUp:   {name: "castling given up", topic: aCastling, priority: Soon, rank: 58, wait: 1, window: 3, life: 10, rest: 80, wide: true},
	CentreOpen:        {name: "centre open", topic: aKing, priority: Soon, rank: 52, wait: 1, window: 2, life: 10, rest: 30, wide: true},
	FileToKing:        {name: "file to king", topic: aKing, priority: Soon, rank: 45, wait: 1, window: 2, life: 10, rest: 30, wide: true},
	KingLate:          {name: "king late", topic: aKing, priority: Background, rank: 38, window: 1, life: 6, rest: 30, wide: true},
	OppositeWings:     {name: "opposite wings", topic: aWings, priority: Background, rank: 36, wait: 1, window: 4, life: 8, rest: 80, wide: true},
	KingUnderFire:     {name: "king under fire", topic: aKing, priority: Soon, rank: 48, wait: 1, window: 2, life: 6, rest: 24, wide: true, anyAmount: true, amountSaid: true},
	BackRank:          {name: "back rank", topic: aBackRank, priority: Soon, rank: 53, wait: 1, window: 2, life: 6, rest: 40, wide: true},
	FianchettoGone:    {name: "fianchetto gone", topic: aKing, priority: Background, rank: 42, wait: 2, window: 4, life: 10, rest: 30, wide: true, quiet: true},
	CoverGone:         {name: "cover gone", topic: aKing, priority: Soon, rank: 43, wait: 2, window: 4, life: 10, rest: 30, wide: true, quiet: true},

	KnightOutpost:      {name: "knight outpost", topic: anOutpost, priority: Background, rank: 40, wait: 2, window: 3, life: 10, rest: 30, quiet: true},
	FileTaken:          {name: "file taken", topic: aFile, priority: Background, rank: 25, wait: 1, window: 3, life: 8, rest: 30, wide: true, quiet: true},
	FileDoubled:        {name: "file doubled", topic: aFile, priority: Background, rank: 35, wait: 1, window: 3, life: 8, rest: 12, wide: true, quiet: true, again: 40},
	SeventhRank:        {name: "seventh rank", topic: aFile, priority: Soon, rank: 42, wait: 1, window: 2, life: 8, rest: 20, wide: true, again: 60},
	SeventhRankDoubled: {name: "seventh rank doubled", topic: aFile, priority: Soon, rank: 61, wait: 1, window: 2, life: 8, rest: 8, wide: true},
	Hole:               {name: "hole", topic: anOutpost, priority: Background, rank: 23, wait: 1, window: 2, life: 10, rest: 40, wide: true, quiet: true},
	AtHome:             {name: "at home", topic: aDelay, priority: Background, rank: 33, wait: 1, window: 4, life: 6, rest: 40, wide: true, quiet: true},
	LoosePieces:        {name: "loose pieces", topic: aLoose, priority: Background, rank: 29, wait: 1, window: 1, life: 4, rest: 24, wide: true, quiet: true},
	BadBishop:          {name: "bad bishop", topic: aBishop, priority: Background, rank: 32, wait: 2, window: 6, life: 14, rest: 40, wide: true, quiet: true, counted: true, anyAmount: true, again: 200},
	ShortOfMoves:       {name: "short of moves", topic: aSqueeze, priority: Background, rank: 26, quiet: true, counted: true, wait: 2, window: 4, life: 8, rest: 40, wide: true, anyAmount: true},

	PasserFar:          {name: "passer far", topic: aPasser, priority: Soon, rank: 46, wait: 1, window: 2, life: 8, rest: 12, lull: 6},
	PassersConnected:   {name: "passers connected", topic: aPasser, priority: Soon, rank: 44, wait: 2, window: 4, life: 10, rest: 20, wide: true, quiet: true, counted: true},
	PasserProtected:    {name: "passer protected", topic: aPasser, priority: Background, rank: 36, wait: 2, window: 4, life: 12, rest: 30, lull: 8, quiet: true, anyAmount: true},
	PasserNew:          {name: "passer new", topic: aPasser, priority: Background, rank: 24, wait: 2, window: 4, life: 10, rest: 30, lull: 12, again: 24, quiet: true, anyAmount: true},
	PasserBlocked:      {name: "passer blocked", topic: aPasser, priority: Background, rank: 31, wait: 1, window: 2, life: 8, rest: 24},
	OutsideSquare:      {name: "outside square", topic: aPasser, priority: Soon, rank: 63, life: 6, rest: 24},
	PasserBacked:       {name: "passer backed", topic: aPasser, priority: Background, rank: 28, wait: 1, window: 3, life: 8, rest: 12, lull: 6, again: 40, quiet: true},
	IsolatedQueensPawn: {name: "isolated queen's pawn", topic: aPawn, priority: Background, rank: 34, wait: 2, window: 6, life: 14, rest: 60, wide: true, quiet: true},
	DoubledIsolated:    {name: "doubled isolated", topic: aPawn, priority: Background, rank: 21, wait: 2, window: 6, life: 10, rest: 30, wide: true, quiet: true},
	BackwardAttacked:   {name: "backward attacked", topic: aPawn, priority: Background, rank: 27, wait: 1, window: 3, life: 8, rest: 30, wide: true, quiet: true},
	CentreClosed:       {name: "centre closed", topic: aCentre, priority: Background, rank: 39, wait: 2, window: 4, life: 12, rest: 80, wide: true, quiet: true},
	IsolatedAttacked:   {name: "isolated attacked", topic: aPawn, priority: Background, rank: 26, wait: 1, window: 3, life: 8, rest: 30, wide: true, quiet: true},
	PassersFar:         {name: "passers far", topic: aPasser, priority: Soon, rank: 45, wait: 1, window: 3, life: 10, rest: 30, wide: true, quiet: true, counted: true},
	WingMajority:       {name: "wing majority", topic: aMajority, priority: Background, rank: 18, wait: 2, window: 8, life: 12, rest: 80, wide: true, either: true, quiet: true},

	PawnUp:               {name: "pawn up", topic: aBalance, priority: Background, rank: 30, wait: 2, window: 12, life: 12, rest: 6, wide: true, again: 60, either: true, quiet: true, counted: true},
	PieceUp:              {name: "piece up", topic: aBalance, priority: Soon, rank: 50, wait: 2, window: 12, life: 12, rest: 6, wide: true, again: 60, either: true, quiet: true, counted: true},
	PieceForPawns:        {name: "piece for pawns", topic: aBalance, priority: Soon, rank: 51, wait: 2, window: 12, life: 12, rest: 6, wide: true, again: 60, either: true, quiet: true, counted: true},
	ExchangeUp:           {name: "exchange up", topic: aBalance, priority: Soon, rank: 51, wait: 2, window: 12, life: 12, rest: 6, wide: true, again: 60, either: true, quiet: true, counted: true},
	PiecesForRook:        {name: "pieces for rook", topic: aBalance, priority: Soon, rank: 51, wait: 2, window: 12, life: 12, rest: 6, wide: true, again: 60, either: true, quiet: true, counted: true},
	RookUp:               {name: "rook up", topic: aBalance, priority: Soon, rank: 49, wait: 2, window: 12, life: 12, rest: 6, wide: true, again: 60, either: true, quiet: true, counted: true},
	QueenUp:              {name: "queen up", topic: aBalance, priority: Soon, rank: 49, wait: 2, window: 12, life: 12, rest: 6, wide: true, again: 60, either: true, quiet: true, counted: true},
	QueenForRook:         {name: "queen for rook", topic: aBalance, priority: Soon, rank: 51, wait: 2, window: 12, life: 12, rest: 6, wide: true, again: 60, either: true, quiet: true, counted: true},
	QueenForRooks:        {name: "queen for rooks", topic: aBalance, priority: Soon, rank: 51, wait: 2, window: 12, life: 12, rest: 6, wide: true, again: 60, either: true, quiet: true, counted: true},
	QueenForRookAndPiece: {name: "queen for rook and piece", topic: aBalance, priority: Soon, rank: 51, wait: 2, window: 12, life: 12, rest: 6, wide: true, again: 60, either: true, quiet: true, counted: true},
	QueenForPieces:       {name: "queen for pieces", topic: aBalance, priority: Soon, rank: 51, wait: 2, window: 12, life: 12, rest: 6, wide: true, again: 60, either: true, quiet: true, counted: true},
	LevelAgain:           {name: "level again", topic: aBalance, priority: Background, rank: 29, wait: 2, window: 6, life: 8, rest: 6, wide: true, again: 30, either: true, quiet: true, counted: true},
	TwoBishops:           {name: "two bishops", topic: aBishop, priority: Background, rank: 22, wait: 2, window: 6, life: 12, rest: 40, wide: true, quiet: true, counted: true},
	OppositeBishops:      {name: "opposite bishops", topic: aBishop, priority: Background, rank: 37, wait: 2, window: 6, life: 12, rest: 40, wide: true, quiet: true, counted: true},
	EndingBegun:          {name: "ending begun", topic: aTrade, priority: Background, rank: 41, wait: 2, window: 6, life: 10, rest: 20, again: 200, wide: true, quiet: true, counted: true, anyAmount: true, amountSaid: true},
	QueensGone:           {name: "queens gone", topic: aTrade, priority: Background, rank: 54, window: 1, life: 6, rest: 20, again: 200, wide: true, counted: true, anyAmount: true},
	QueensOff:            {name: "queens off", topic: aTrade, priority: Background, rank: 28, window: 1, life: 4, rest: 200, wide: true, counted: true},

	PositionTwice:  {name: "position twice", topic: aDraw, priority: Soon, rank: 66, life: 1, rest: 12, wide: true},
	PositionThrice: {name: "position thrice", topic: aClaim, priority: Now, rank: 85, life: 1, rest: 6, wide: true, anyAmount: true},
	FiftyNear:      {name: "fifty near", topic: aDraw, priority: Soon, rank: 40, window: 4, life: 6, rest: 8, wide: true},
	FiftyReached:   {name: "fifty reached", topic: aClaim, priority: Now, rank: 84, window: 4, life: 6, rest: 20, wide: true, anyAmount: true},
	DeadDraw:       {name: "dead draw", topic: aClaim, priority: Now, rank: 95, window: 2, life: 20, rest: 200, wide: true},
	LoneKing:       {name: "lone king", topic: aDraw, priority: Soon, rank: 47, wait: 1, window: 4, life: 20, rest: 100, wide: true},
}

// String returns the rule in words, for keys, logs and tests.
func (r Rule) String() string { return rules[r].name }

// Rules returns all rules there are.
func Rules() []Rule {
	var all []Rule
	for r := range rules {
		if rules[r].name != "" {
			all = append(all, Rule(r))
		}
	}
	return all
}

// Neutral reports whether the rule is about neither side.
func (r Rule) Neutral() bool {
	switch r {
	case NoPasser, NoOpenFile, OnePieceOff, PawnsAllOn, NoCheckYet, NothingTaken, PiecesAllOn, NobodyCastled, CentreEmpty, PawnsAlike, PawnsTouch, PawnsLocked, FileFree, SquareFought, PawnsLeft, Opposition,
		NoCaptureLong, QueensFace, MinorsGone, RooksGone, BishopsAlike, OneWing, LastPawn, PassersBoth:
		return true
	case OppositeWings, CentreClosed, EndingBegun, LevelAgain, OppositeBishops, QueensOff, QueensGone, PositionTwice, PositionThrice, FiftyNear, FiftyReached, DeadDraw:
		return true
	}
	return false
}

// IsEvent reports whether the rule tells what has happened, not only what is: it is no
// news to who was not there before.
func (r Rule) IsEvent() bool {
	switch r {
	case SameMan, ChecksInRow, QueenOften:
		return true
	case CastlingGivenUp, KingLate, OppositeWings, LevelAgain, QueensOff, QueensGone, PinLasting, CoverGone, PositionTwice:
		return true
	}
	return false
}
