package desk

// Action is something that can be done at a desk. The table of them is the only place
// where actions are defined: the page's keys and help, the calls over HTTP and their
// description are made of it.
type Action struct {
	Name  string // in the address of its call, and in the journal: never changed
	Group Group
	Title string // on a button
	Does  string // in a sentence
	Key   string // as a browser names it, "Shift+" before it where that is held; a page may have another
	Takes []Field
	do    func(*State, Act, Games) error
}

// Group says what an action is about.
type Group string

// The groups, in the order in which they are shown.
const (
	GroupFollow    Group = "follow"
	GroupExplain   Group = "explain"
	GroupMark      Group = "mark"
	GroupAir       Group = "air"
	GroupChallenge Group = "challenge"
	GroupLead      Group = "lead"
)

// Field is something that an action needs to be told.
type Field struct {
	Name     string // as in the JSON of its call
	Kind     FieldKind
	Does     string
	Required bool
}

// FieldKind is the type of a field, as JSON Schema names it.
type FieldKind string

// The kinds of fields. Texts are a list of strings.
const (
	FieldText   FieldKind = "string"
	FieldNumber FieldKind = "integer"
	FieldYesNo  FieldKind = "boolean"
	FieldTexts  FieldKind = "array"
)

var (
	fieldOn   = Field{Name: "on", Kind: FieldYesNo, Does: "true or false; without it the other way than now"}
	fieldLine = Field{Name: "move", Kind: FieldNumber, Does: "the last move of the side line, by its id; without it where the desk stands"}
	fieldTo   = Field{Name: "to", Kind: FieldText, Does: "the square, such as e4", Required: true}
	fieldFrom = Field{Name: "from", Kind: FieldText, Does: "the square where an arrow begins; without it the square alone is marked"}
)

// Actions lists every action, in the order in which they are shown.
var Actions = []Action{
	{"look-at", GroupFollow, "Look at board", "The desk looks at another board. Viewers do not.", "b", []Field{
		{Name: "board", Kind: FieldNumber, Does: "the board's number", Required: true}}, (*State).lookAt},
	{"next-board", GroupFollow, "Next board", "The desk looks at the next board.", "]", nil, (*State).nextBoard},
	{"previous-board", GroupFollow, "Previous board", "The desk looks at the board before.", "[", nil, (*State).previousBoard},
	{"go-where-it-burns", GroupFollow, "Go where it burns", "The desk looks at the board of the first suggestion.", "h", nil, (*State).goWhereItBurns},
	{"follow-by-itself", GroupFollow, "Follow by itself", "The board on the air follows the suggestions, while nothing of the desk is on the air.", "Shift+H", []Field{fieldOn}, (*State).followByItself},

	{"back", GroupExplain, "Back", "One move back.", "ArrowLeft", nil, (*State).back},
	{"forward", GroupExplain, "Forward", "One move on, in the side line or in the game.", "ArrowRight", nil, (*State).forward},
	{"to-start", GroupExplain, "To the start", "To where the side line departs, or to the start of the game.", "Home", nil, (*State).toStart},
	{"to-live", GroupExplain, "To the live game", "Back to the live position, and on with it.", "End", nil, (*State).toLive},
	{"other-line", GroupExplain, "Other line", "To the next move that was shown in place of this one.", "ArrowDown", nil, (*State).otherLine},
	{"go-to", GroupExplain, "Go to", "To a position of the game or of a side line.", "g", []Field{
		{Name: "ply", Kind: FieldNumber, Does: "how many moves of either side have been played in the game; 0 is its start"},
		{Name: "move", Kind: FieldNumber, Does: "a move of a side line, by its id; counts before ply"}}, (*State).goTo},
	{"play", GroupExplain, "Play a move", "A move on the desk's board: a side line, unless it is the one that was played.", "m", []Field{
		{Name: "san", Kind: FieldText, Does: "the move, as Nf3 or as its two squares, e7e8q", Required: true}}, (*State).play},
	{"play-moves", GroupExplain, "Play moves", "Several moves behind each other on the desk's board, as a side line; all or none.", "Shift+M", []Field{
		{Name: "text", Kind: FieldText, Does: "the moves, such as Nf3 Nc6 Bb5", Required: true},
		{Name: "ply", Kind: FieldNumber, Does: "from where in the game, with from set; without it where the desk stands"},
		{Name: "move", Kind: FieldNumber, Does: "from behind this move of a side line, by its id, with from set"},
		{Name: "from", Kind: FieldText, Does: "begin: the moves begin at ply and move, though the desk has gone on"},
		{Name: "steps", Kind: FieldNumber, Does: "behind how many of them the desk then stands; without it behind the last"}}, (*State).playMoves},
	{"name-line", GroupExplain, "Name the line", "Gives the side line a name.", "n", []Field{
		{Name: "text", Kind: FieldText, Does: "the name; empty takes it off", Required: true}, fieldLine}, (*State).nameLine},
	{"drop-line", GroupExplain, "Drop the line", "Takes a move of a side line away, with all that follows it.", "Delete", []Field{fieldLine}, (*State).dropLine},
	{"undo", GroupExplain, "Undo", "Takes back what was last done to side lines and marks.", "z", nil, (*State).undo},
	{"turn", GroupExplain, "Turn the board", "The other side at the bottom, on the desk and of what it shows.", "t", []Field{fieldOn}, (*State).turn},

	{"mark-attention", GroupMark, "Attention", "Marks a square or a man to look at. The same again takes it off.", "1", []Field{fieldTo, fieldFrom}, markAs(Attention)},
	{"mark-plan", GroupMark, "Plan", "Marks a plan: an arrow, or a square to be reached.", "2", []Field{fieldTo, fieldFrom}, markAs(Plan)},
	{"mark-threat", GroupMark, "Threat", "Marks a threat, from the attacker to what it attacks.", "3", []Field{fieldTo, fieldFrom}, markAs(Threat)},
	{"mark-weak", GroupMark, "Weak", "Marks a square or a man that cannot be held.", "4", []Field{fieldTo, fieldFrom}, markAs(Weak)},
	{"mark-fact", GroupMark, "Mark the sentence", "Makes marks of what a sentence points at.", "f", []Field{
		{Name: "prompt", Kind: FieldText, Does: "the sentence's key; without it the first of this board that points at something"}}, (*State).markFact},
	{"clear-marks", GroupMark, "Clear marks", "Takes all marks off.", "x", nil, (*State).clearMarks},
	{"keep-marks", GroupMark, "Keep marks", "Marks stay when the next move comes; otherwise they go with it.", "k", []Field{fieldOn}, (*State).keepMarks},

	{"put-on-air", GroupAir, "Put on air", "Viewers see what the desk sees, step by step, until it is taken off.", "a", nil, (*State).putOnAir},
	{"play-line", GroupAir, "Play the line", "Viewers see the side line played through.", "p", []Field{fieldLine}, airAs(WayWhole)},
	{"write-line", GroupAir, "Write the line", "Viewers read the side line below the live board.", "w", []Field{fieldLine}, airAs(WayText)},
	{"take-off-air", GroupAir, "Take off air", "Viewers see the live board again.", "o", nil, (*State).takeOffAir},
	{"say-verdict", GroupAir, "Say the verdict", "Viewers read in a sentence what the engine thinks of the position that they see, until it changes.", "v", []Field{fieldOn}, (*State).sayVerdict},
	{"lean", GroupAir, "Show the lean", "A small mark below the board tells viewers which way the engine leans, until the position changes.", "Shift+V", []Field{fieldOn}, (*State).lean},
	{"keep-lean", GroupAir, "Keep the lean", "The mark comes again with every position, as soon as the engine has settled on it.", "Shift+K", []Field{fieldOn}, (*State).keepLean},
	{"quiet", GroupAir, "Quiet mode", "Scenes draw what there is, but tell no news of themselves.", "q", []Field{fieldOn}, (*State).quiet},

	{"prepare-challenge", GroupChallenge, "Prepare a challenge", "Makes a question of where the desk stands. Viewers see nothing of it yet.", "c", []Field{
		{Name: "text", Kind: FieldText, Does: "the question; without it the tool words one"},
		{Name: "seconds", Kind: FieldNumber, Does: "time for thinking, 10 to 600; without it 60"},
		{Name: "hints", Kind: FieldTexts, Does: "hints to give one by one, up to 5"},
		{Name: "move", Kind: FieldNumber, Does: "the answer: the last move of a side line, by its id; without it the move that is played"}}, (*State).prepareChallenge},
	{"ask", GroupChallenge, "Ask the viewers", "Puts the question on the air. Until the answer, scenes are sent nothing newer of its board.", "Shift+C", nil, (*State).ask},
	{"give-hint", GroupChallenge, "Give a hint", "Shows the next hint.", "i", []Field{
		{Name: "text", Kind: FieldText, Does: "a hint of one's own; without it the next one prepared"}}, (*State).giveHint},
	{"reveal", GroupChallenge, "Reveal", "Plays the answer.", "r", []Field{
		{Name: "move", Kind: FieldNumber, Does: "another answer: the last move of a side line, by its id"}}, (*State).reveal},
	{"end-challenge", GroupChallenge, "End the challenge", "Takes the question off, answered or not.", "e", nil, (*State).endChallenge},

	{"lead", GroupLead, "Take the lead", "What you do at the desk counts from now on.", "l", []Field{
		{Name: "over", Kind: FieldYesNo, Does: "although somebody else leads"}}, (*State).lead},
	{"ask-for-lead", GroupLead, "Ask for the lead", "Tells whoever leads that you want to.", "Shift+L", nil, (*State).askForLead},
	{"hand-over", GroupLead, "Hand over", "Gives the lead to whoever asks for it, or to nobody.", "u", []Field{
		{Name: "text", Kind: FieldText, Does: "to whom; without it to whoever asks, or else to whoever does something next"}}, (*State).handOver},
}
