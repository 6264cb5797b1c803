package recap

var english = Words{
	Code: "en", Pieces: "KQRBN", Date: "{} {} {}",
	Months: [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"},

	White: "White", Black: "Black",
	WhiteWon: "{} won with White", BlackWon: "{} won with Black", Drawn: "Drawn", UnderWay: "Still under way when this was written",
	NoMoves: "No move was played.", Round: "round {}", Board: "board {}", Game: "game {}", Moves: "{} moves", OneMove: "1 move",
	Score: "match score {}", NotShown: "The game is told no further: {}", Control: "{} for each side",
	Key: "Key moments", After: "After {}", Start: "At the start",
	LongestThink: "The longest think of the game: {} on {}.", OwnThink: "{} thinks longest here: {} on {}.",
	Turned: "A second opinion turned: {} before {}, {} after it.", Mates: "{} mates in {}",
	ShownThen: "Shown on the air: {}", Left: "{} left", Spent: "{} on this move",
	SaidTitle: "Said in the show", SaidNone: "Nothing was marked as said.", OnAir: "on the air",
	LinesTitle: "Side lines shown", ShownAfter: "Shown on the air",
	AskedTitle: "Put to the viewers", Question: "Asked of the viewers", Answer: "Answer", Seconds: "{} seconds to find it",
	MovesTitle: "The moves, with thinks of {} and more", MovesPlain: "The moves", ByHand: "entered by hand",
	ClocksTitle: "Where the time went", Range: "{}–{}", All: "all",
	New: "new", Preparation: "in preparation", Unsure: "probably thinking", Think: "thinking", Trouble: "time trouble", NoReading: "no reading",
	LineTitle: "The game as time", LineNote: "A block is as wide as the think was long. Its state is a probability read from the clocks, not a diagnosis.",
	NoClocks: "The feed told no clocks of this game.", Doubts: "Times not as they were read: {}.",

	BothPrepared: "By the clocks {} played the first {} moves from preparation, {} the first {}.", OnePrepared: "By the clocks {} played the first {} moves from preparation.",
	WasNew: "New to the reference was {}.", InTrouble: "{} was in time trouble from move {} on.",

	Summary: "The show in short", Title: "Recap", Games: "Games",
	LongestOfDay: "The longest think of the show was {}, by {} on {} (board {}).",
	SaidCount:    "{} sentences were said.", SaidOne: "One sentence was said.",
	Longest: "longest think", Novelty: "new move", Prompts: "said", Used: "time used", Back: "All games",
	AllPGN: "All games, annotated, as PGN", OnePGN: "this game as PGN",
	Diagram: "Position {}", MadeBy: "As the show stood on {} UTC.", MovesHead: "moves",
	ForEditing: "For the editing program", Chapters: "chapters", CueList: "cue list", CutList: "cut list",
}
