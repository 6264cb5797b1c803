package wire

// Version is the version of the protocol. It changes whenever a shape in this
// file changes; a page built for another version reloads itself.
const Version = 8

// Frame types, relay to page.
const (
	TypeWelcome = "welcome" // first frame of every connection
	TypeShow    = "show"    // how many boards there are, what the show is called
	TypeBoard   = "board"   // one board: whole, or what is new since Base
	TypePrompts = "prompts" // the panel's prompts, and what became of them
	TypeTable   = "table"   // the co-hosts' notes
	TypePeople  = "people"  // who sits at the panels
	TypeCaption = "caption" // the sentence on the air
	TypeAir     = "air"     // what the desk shows viewers besides the live boards
	TypeDesk    = "desk"    // what the desks share
	TypeFeeds   = "feeds"   // health of every feed
	TypeSources = "sources" // where every board comes from, for the producer
	TypeLog     = "log"     // new lines of the show log
	TypePages   = "pages"   // the pages connected
	TypePong    = "pong"    // answer to a ping

	TypeOpinions = "opinions" // what an engine thinks of where the desk stands and of the newest positions
)

// Frame types, page to relay.
const (
	TypePing  = "ping"  // measures time and reports lateness
	TypeAgain = "again" // asks for a whole board after a gap
	TypeWho   = "who"   // says who sits at a panel
)

// Close codes from the private range of RFC 6455, section 7.4.2.
const (
	CloseUnknownPage = 4000 // the URL names no page or board; do not come back
	CloseBadFrame    = 4001 // a frame from the page made no sense

	CloseTokenRenewed = 4002 // the token that the page came with is worth nothing any more; do not come back with it
)

// Times on the wire are milliseconds. An instant counts from the Unix epoch in
// show time, which runs Rate times as fast as the wall (1 but in a demo or a
// rehearsal). A length of time is in show time too.

// Welcome opens a connection.
type Welcome struct {
	Type        string  `json:"type"`
	Version     int     `json:"version"`
	Run         string  `json:"run"`         // changes when the relay restarts
	Now         int64   `json:"now"`         // show time of sending
	Rate        float64 `json:"rate"`        // show time per wall time
	PingEveryMs int64   `json:"pingEveryMs"` // wall time between pings
}

// Show says what is of all boards together. What a board is says its own frame.
type Show struct {
	Type   string `json:"type"`
	Rev    uint64 `json:"rev"`
	Title  string `json:"title"`
	Lang   string `json:"lang"`   // of everything that is said: a language tag of BCP 47, such as "en"
	Boards int    `json:"boards"` // how many there are; they are numbered from 1, and none is left out
	Quiet  bool   `json:"quiet"`  // quiet mode: scenes tell no news of themselves
	Match  *Match `json:"match"`  // null: none is configured

	Reference Reference `json:"reference"`
}

// Match is how the match stands that the boards belong to. Scores are written as score
// tables do: "2½".
type Match struct {
	First       string `json:"first"` // a player, or a team
	Second      string `json:"second"`
	FirstScore  string `json:"firstScore"`
	SecondScore string `json:"secondScore"`
	Stage       string `json:"stage"` // "regular", "rapid", "blitz" or "armageddon"
	Played      int    `json:"played"`
	Planned     int    `json:"planned"`

	Line     string      `json:"line"`     // how it stands, as a sentence
	Forecast string      `json:"forecast"` // what the ratings expect, or ""
	Games    []MatchGame `json:"games"`    // on the boards now, in their order
	ToCome   []string    `json:"toCome"`   // rounds and colours still to come, a line each
}

// MatchGame says what a game on a board means for the match.
type MatchGame struct {
	Board int    `json:"board"`
	White string `json:"white"` // if White wins, in words
	Draw  string `json:"draw"`
	Black string `json:"black"`
}

// Reference says which collection of finished games moves are looked up in.
type Reference struct {
	Games   int    `json:"games"`   // in it; 0 and no Fault: none is attached
	Depth   int    `json:"depth"`   // plies of a game it holds
	Counted string `json:"counted"` // which of them count, "" for all: "both players 2400 or more"
	Fault   string `json:"fault"`   // why the one that was named cannot be used, or ""
}

// Board carries one board. With Base 0 it is whole: Keep is 0 and Plies are
// all. With another Base it follows on revision Base only: the first Keep plies
// stay, Plies come behind them, and everything else replaces what was. A page
// that holds another revision than Base asks again.
type Board struct {
	Type       string      `json:"type"`
	Board      int         `json:"board"` // number in the show, from 1
	Base       uint64      `json:"base"`
	Rev        uint64      `json:"rev"`
	At         int64       `json:"at"` // when the relay received the packet that made this revision; 0: something else made it, such as time
	Event      string      `json:"event"`
	Round      string      `json:"round"`
	Table      string      `json:"table"` // the feed's own board number, often empty
	White      Player      `json:"white"`
	Black      Player      `json:"black"`
	Control    Control     `json:"control"`
	Keep       int         `json:"keep"`
	Plies      []Ply       `json:"plies"`
	FEN        string      `json:"fen"`     // position now
	Running    string      `json:"running"` // side whose clock runs: "white", "black" or ""
	Result     string      `json:"result"`  // "1-0", "0-1", "1/2-1/2" or "*"
	Opening    Opening     `json:"opening"`
	Correction *Correction `json:"correction"` // the latest one, null if none; show it while its At is recent
	Fault      string      `json:"fault"`      // why the game is shown no further, or ""
	Frozen     bool        `json:"frozen"`     // the producer keeps the board as it is
	Feed       FeedState   `json:"feed"`
	Alerts     []Alert     `json:"alerts"`  // raised and not cleared, oldest first
	Known      *Known      `json:"known"`   // what the reference knows of the position now; null: nothing has been answered
	Novelty    *Novelty    `json:"novelty"` // with which the game left the reference; null while it has not
}

// Known is what the reference knows of a position. A game counts once for it.
type Known struct {
	Games int         `json:"games"` // that reached it, of those counted
	White int         `json:"white"` // of those, won by White
	Draws int         `json:"draws"`
	Black int         `json:"black"`
	All   int         `json:"all"`   // with those that are not counted
	Moves []KnownMove `json:"moves"` // most played first, only the first few
	Last  *KnownGame  `json:"last"`  // the latest of those counted; null if none
}

// KnownMove is a move that reference games went on with.
type KnownMove struct {
	SAN        string     `json:"san"`
	Games      int        `json:"games"`
	White      int        `json:"white"` // of those, won by White
	Draws      int        `json:"draws"`
	Black      int        `json:"black"`
	BestRating int        `json:"bestRating"` // of those who played it, 0 unknown
	MeanRating int        `json:"meanRating"`
	LastYear   int        `json:"lastYear"` // 0 unknown
	Example    *KnownGame `json:"example"`  // the one of the highest ratings; null if none
}

// KnownGame is one game of the reference.
type KnownGame struct {
	White       string `json:"white"`
	Black       string `json:"black"`
	WhiteRating int    `json:"whiteRating"` // 0 unknown
	BlackRating int    `json:"blackRating"`
	Event       string `json:"event"`
	Year        int    `json:"year"` // 0 unknown
	Result      string `json:"result"`
	Went        string `json:"went"` // the move it went on with; "" if it ended there
}

// Novelty is the move with which a game left the reference: from a position that games
// reached to one that none did.
type Novelty struct {
	Ply    int   `json:"ply"` // as Ply.Number
	All    int   `json:"all"` // games with it that are not counted
	Before Known `json:"before"`
}

// Player is one side of a board.
type Player struct {
	Name       string `json:"name"`  // as the feed writes it
	Short      string `json:"short"` // as people say it
	Title      string `json:"title"` // "GM", or ""
	Rating     int    `json:"rating"`
	Federation string `json:"federation"`
	Gains      string `json:"gains"` // material ahead, strongest first: "Q", "RP", "BB", or ""
	Clock      Clock  `json:"clock"`
	Tell       Tell   `json:"tell"`
	Habit      *Habit `json:"habit"` // from past games at this time class; null: too few, or no reference
}

// Habit is how a player used the clock in past games of the reference.
type Habit struct {
	Games    int       `json:"games"`    // that it is from
	Prepared []int     `json:"prepared"` // own moves in preparation: lower quartile, median, upper quartile
	Left     []HabitAt `json:"left"`     // on the clock after own moves such as 10, 20 and 30
	Next     *HabitAt  `json:"next"`     // time spent on the own move to come; null if too few games tell
}

// HabitAt is the median at one own move.
type HabitAt struct {
	Move   int   `json:"move"`
	TimeMs int64 `json:"timeMs"`
	Games  int   `json:"games"`
}

// Control is the time control as far as a page needs it.
type Control struct {
	Text        string `json:"text"` // "10 min + 5 s", or "" when unknown
	BaseMs      int64  `json:"baseMs"`
	IncrementMs int64  `json:"incrementMs"`
	Class       string `json:"class"`     // "rapid", "blitz", "standard" or ""
	Delay       string `json:"delay"`     // "simple", "bronstein", or "" for none
	DelayMs     int64  `json:"delayMs"`   // free on every move
	Hourglass   bool   `json:"hourglass"` // what one side uses the other gets
}

// Kinds of a delay.
const (
	DelaySimple    = "simple"    // the clock stands still for so long, then falls
	DelayBronstein = "bronstein" // it falls at once; what was used, up to so much, is given back with the move
)

// Qualities of a clock or of time spent: how far it can be trusted.
const (
	QualityRead      = "read"      // as the feed gave it
	QualityDerived   = "derived"   // worked out from other readings of the feed
	QualityEstimated = "estimated" // from receipt times
	QualityNone      = "none"      // nothing is known
)

// States of a clock.
const (
	StateRunning = "running" // of the side on move
	StateStopped = "stopped"
	StateRising  = "rising" // of the other side in an hourglass: it gets what the running one loses
	StateHeld    = "held"   // nobody knows whether it runs
)

// Marks of a reading that is not simply what the feed says.
const (
	MarkMended   = "mended"   // another reading was taken for it, on good grounds
	MarkDoubtful = "doubtful" // it does not add up, and nothing better is known
	MarkUnread   = "unread"   // it is no reading
)

// Clock is one side's clock. While it runs, what is left at show time t is
// LeftMs - (t - At), never below zero; until At, with a simple delay, it stands still. A
// rising one shows LeftMs and what the running one has lost at t. A held clock does not
// count down: nobody knows whether it runs.
type Clock struct {
	LeftMs   int64  `json:"leftMs"`
	At       int64  `json:"at"`
	State    string `json:"state"`    // one of the states
	Quality  string `json:"quality"`  // one of the qualities
	SpentMs  int64  `json:"spentMs"`  // since the last ply, at At
	StepMs   int64  `json:"stepMs"`   // the feed's readings are multiples of it: 60000, 1000, 100 or less; 0: there are none
	UnsureMs int64  `json:"unsureMs"` // when it began to run is known to about so much, either way; 0 unless it runs or rises
	Mark     string `json:"mark"`     // of its last reading: one of the marks, or ""
	Remark   string `json:"remark"`   // the mark in words, or ""
}

// Looks of a move on the tell line.
const (
	LookPreparation = "preparation"
	LookThinking    = "thinking"
	LookUnsure      = "unsure"  // probably thinking, or too early to say
	LookTrouble     = "trouble" // played in time trouble
	LookNone        = "none"    // no reading
)

// Ply is one half-move. Number counts half-moves from White's first, which is 1;
// a game from another position starts where that position says, so an odd Number
// is always White's.
type Ply struct {
	Number  int    `json:"number"`
	SAN     string `json:"san"`
	From    string `json:"from"`
	To      string `json:"to"`
	SpentMs int64  `json:"spentMs"`
	LeftMs  int64  `json:"leftMs"` // mover's clock after the move
	Quality string `json:"quality"`
	Look    string `json:"look"`
	ByHand  bool   `json:"byHand"` // entered by the producer; no feed has it yet
	Mark    string `json:"mark"`   // of its reading: one of the marks, or ""
	Remark  string `json:"remark"` // the mark in words, or ""
}

// Verdicts of the tell.
const (
	VerdictPreparation = "preparation" // in preparation
	VerdictThinking    = "thinking"    // thinking
	VerdictEarly       = "early"       // too early to say
	VerdictNoClock     = "noclock"     // nothing to go by
)

// Tell is what the clock says of one side.
type Tell struct {
	Verdict  string   `json:"verdict"`  // one of the verdicts; "" while viewers are asked for the board's next move
	Shade    string   `json:"shade"`    // in words, shades included: "probably thinking"
	Thinking float64  `json:"thinking"` // probability of thinking, 0 to 1
	Timed    int      `json:"timed"`    // own moves with a usable time
	Evidence string   `json:"evidence"` // a few words for the air: "9 moves, 0:41 gained"
	Reasons  []string `json:"reasons"`  // for panel and desk, strongest first
	Changed  string   `json:"changed"`  // why the probability moved last, or ""
	Trouble  int      `json:"trouble"`  // time trouble: 0 none, 1 to 3
	Outlook  []string `json:"outlook"`  // what there is to say of the time left: budget, pace, control, where the clock is going
}

// Opening is a name from the opening code table.
type Opening struct {
	Code string `json:"code"`
	Name string `json:"name"`
}

// Correction says that the feed took something back.
type Correction struct {
	Ply int    `json:"ply"` // Number of the first ply that differs
	Was string `json:"was"` // move as it stood, "" if none
	Is  string `json:"is"`  // move as it stands, "" for a takeback
	At  int64  `json:"at"`
}

// FeedState is how the board's feed does, for a scene.
type FeedState struct {
	Name  string `json:"name"`  // of the feed the board follows, "" for none
	State string `json:"state"` // "ok" or "stale"
	Since int64  `json:"since"` // when stale: of the last good answer; else 0
}

// Alert is a condition that holds.
type Alert struct {
	ID       string `json:"id"`
	Kind     string `json:"kind"` // one of the AlertKinds in relay/alert.go, such as "leftPreparation"
	Side     string `json:"side"` // "white", "black" or ""
	Level    int    `json:"level"`
	Ply      int    `json:"ply"`
	At       int64  `json:"at"`
	Reason   string `json:"reason"`
	Evidence string `json:"evidence"`
}

// Prompts is the panel's list, newest first.
type Prompts struct {
	Type  string   `json:"type"`
	Rev   uint64   `json:"rev"`
	Items []Prompt `json:"items"`
}

// Priorities of a prompt.
const (
	PriorityNow        = "now"
	PrioritySoon       = "soon"
	PriorityBackground = "background"
)

// States of a prompt: what a co-host last did with it.
const (
	PromptOpen    = "open"
	PromptTaken   = "taken" // somebody is about to say it
	PromptSaid    = "said"
	PromptDropped = "dropped"
)

// Prompt is one sentence to say.
type Prompt struct {
	Key       string `json:"key"`   // its own; what acts at the panel name it by
	Kind      string `json:"kind"`  // a word from the list in relay/prompt, such as "tell"
	Board     int    `json:"board"` // 0: the whole show
	Side      string `json:"side"`
	Ply       int    `json:"ply"` // as Ply.Number; 0 for the whole show
	At        int64  `json:"at"`
	Priority  string `json:"priority"`
	Text      string `json:"text"`
	Evidence  string `json:"evidence"`
	Ends      string `json:"ends"`      // what withdraws it: "when the move comes"
	Withdrawn int64  `json:"withdrawn"` // when it stopped being true, 0 while it holds
	Marks     []Mark `json:"marks"`     // what to point at on the board
	State     string `json:"state"`     // one of the states
	By        string `json:"by"`        // who brought it there; "" while it is open
	Since     int64  `json:"since"`     // and when
	Pinned    string `json:"pinned"`    // who pinned it, "" nobody
}

// Meanings of a mark.
const (
	MeaningLook   = "look"   // the man spoken of
	MeaningDanger = "danger" // what attacks it
	MeaningGuard  = "guard"  // what guards it
	MeaningPlan   = "plan"   // a move on offer
	MeaningWeak   = "weak"   // a square or a man that cannot be held; drawn by people only
)

// Mark points at something on a board: a square, or a way from one square to another.
type Mark struct {
	Kind string `json:"kind"` // one of the meanings
	From string `json:"from"` // "" for a square alone
	To   string `json:"to"`
}

// Table is what co-hosts share besides the prompts.
type Table struct {
	Type  string      `json:"type"`
	Rev   uint64      `json:"rev"`
	Notes []TableNote `json:"notes"` // oldest first
}

// TableNote is a note for the others at the table.
type TableNote struct {
	ID   string `json:"id"`
	By   string `json:"by"`
	At   int64  `json:"at"`
	Text string `json:"text"`
}

// People lists who sits at the panels.
type People struct {
	Type  string   `json:"type"`
	Names []string `json:"names"` // each once, in the order in which they came
}

// CaptionFrame brings the sentence on the air.
type CaptionFrame struct {
	Type    string   `json:"type"`
	Rev     uint64   `json:"rev"`
	Caption *Caption `json:"caption"` // null: none
}

// Caption is a sentence on the air.
type Caption struct {
	Key    string `json:"key"`   // of its prompt, "" for one of a person's own
	Kind   string `json:"kind"`  // of its prompt, or ""
	Board  int    `json:"board"` // 0: the whole show
	Side   string `json:"side"`
	Text   string `json:"text"`
	Source string `json:"source"` // what it is about, in words: "board 1 · Quintanilha – Tveiterås · move 15"
	Marks  []Mark `json:"marks"`  // for the scene of its board
	By     string `json:"by"`
	At     int64  `json:"at"`
	Until  int64  `json:"until"` // when it leaves by itself, 0: not yet known
}

// PanelAct is what a co-host does at the panel, sent to POST /at-panel. Which fields count
// depends on Act.
type PanelAct struct {
	ID     string `json:"id"`     // as of an Entry
	Who    string `json:"who"`    // the co-host's name
	Act    string `json:"act"`    // "take", "said", "drop", "undo", "pin", "unpin", "air", "off", "note" or "wipe"
	Prompt string `json:"prompt"` // its Key; all but off, note and wipe
	Over   bool   `json:"over"`   // although somebody else has taken it
	Text   string `json:"text"`   // note; air, for a sentence of one's own
	Note   string `json:"note"`   // wipe: the note's ID
}

// Feeds is the health of every feed, or of those that do otherwise than the page holds, and what
// there is besides.
type Feeds struct {
	Type    string     `json:"type"`
	Rev     uint64     `json:"rev"`
	Base    uint64     `json:"base"`    // revision of the feeds that this follows on; 0: it has all of them
	Verdict string     `json:"verdict"` // one sentence: are the viewers fine, and why
	Fine    bool       `json:"fine"`
	Journal Journal    `json:"journal"`
	Items   []FeedItem `json:"items"` // those that are others than at Base
	Engine  Engine     `json:"engine"`
	Second  Engine     `json:"second"` // that it is compared with
	Bus     Bus        `json:"bus"`
}

// What a process does with a show that is shared.
const (
	BusNone     = ""         // it is not shared
	BusLeads    = "leads"    // it hears the feeds, and what it takes is the show
	BusStandsBy = "standsBy" // it follows, and leads when the other does not
	BusFollows  = "follows"  // an edge: it serves pages and never leads
)

// Bus is how the process that a page came to shares the show with others.
type Bus struct {
	Role    string `json:"role"`    // one of those
	Leader  string `json:"leader"`  // the process that leads, as far as this one knows, or ""
	Wrong   string `json:"wrong"`   // what is wrong and what to do, or ""
	Waiting int    `json:"waiting"` // messages that are kept until the bus takes them again
}

// States of an engine.
const (
	EngineNone  = "none"  // none is set, as it may be
	EngineReady = "ready" // it searches, or waits for something to search
	EngineFault = "fault" // it gives no opinion now
)

// Engine is how the engine does that gives second opinions.
type Engine struct {
	State    string `json:"state"`   // one of the states
	Name     string `json:"name"`    // by the name it gives itself
	Text     string `json:"text"`    // what is wrong and what to do, or ""
	Since    int64  `json:"since"`   // it has been ready since then; 0: it is not
	Board    int    `json:"board"`   // whose position it searches now, 0 none
	Waiting  int    `json:"waiting"` // positions that wait for it
	Restarts int    `json:"restarts"`
	Last     string `json:"last"` // the kind of its last fault, or ""
}

// Opinions brings what an engine thinks, for desk and panel. Who must not know of a board,
// because viewers are asked for its next move, is sent nothing of it.
type Opinions struct {
	Type   string    `json:"type"`
	Rev    uint64    `json:"rev"`
	State  string    `json:"state"`  // of the engine, one of its states
	Engine string    `json:"engine"` // its name
	Text   string    `json:"text"`   // why it says nothing, or ""
	Kept   int       `json:"kept"`   // the board of which nothing is told, 0 none
	Desk   *Opinion  `json:"desk"`   // of the position that the desk looks at; null: it has not been judged
	Other  *Opinion  `json:"other"`  // of it by the second engine, with its best line; null: there is none, or it has not judged it
	Differ bool      `json:"differ"` // the two are not of one mind: they would play other moves, and their scores are far apart
	Boards []Opinion `json:"boards"` // of the newest position of each board that has been judged: the best line, and the first of its moves
}

// Opinion is what an engine thinks of a position. It is of the engine, not of clocktell.
type Opinion struct {
	Board  int           `json:"board"`
	Ply    int           `json:"ply"`   // of the game up to there, or to where the side line departs
	Move   int           `json:"move"`  // the side line's move behind which it stands, by ID; 0: in the game
	FEN    string        `json:"fen"`   // of the position
	Depth  int           `json:"depth"` // plies that all lines were searched to
	Final  bool          `json:"final"` // the search has come to its planned end
	Words  string        `json:"words"` // how it stands by the first line
	Lines  []OpinionLine `json:"lines"` // best first for the side on move
	Engine string        `json:"engine"`
}

// OpinionLine is a way that the game may go on.
type OpinionLine struct {
	Score string        `json:"score"` // from White's view: "+0.84", "≤ −1.20"; mate: "#5", "#−5"
	Words string        `json:"words"` // "White is better, by a pawn and a half"
	Side  string        `json:"side"`  // that stands better: "white" or "black"; "" for level
	Exact bool          `json:"exact"` // the score is no bound
	WDL   *WDL          `json:"wdl"`   // null: the engine gives none
	Moves []OpinionMove `json:"moves"` // the first of them; each is legal
}

// WDL is an engine's own guess at how the game ends, in thousandths, from White's view.
type WDL struct {
	Win  int `json:"win"`
	Draw int `json:"draw"`
	Loss int `json:"loss"`
}

// OpinionMove is a move of a line.
type OpinionMove struct {
	Number int    `json:"number"` // as Ply.Number
	SAN    string `json:"san"`
}

// States of the journal.
const (
	JournalKept    = "kept"    // everything is written down before it is shown
	JournalFailing = "failing" // it cannot be written; the show goes on
	JournalOff     = "off"     // none is configured
)

// Journal says whether what happens is being written down.
type Journal struct {
	State string `json:"state"` // one of the states
	Text  string `json:"text"`  // what is wrong and what to do, or where it is kept
}

// FeedItem is one feed on the health page.
type FeedItem struct {
	Name      string     `json:"name"`
	Kind      string     `json:"kind"`     // "http", "growing", "file", "folder", "push" or "stdin"
	BackupOf  string     `json:"backupOf"` // the feed it backs up, or ""
	Address   string     `json:"address"`  // without credentials
	State     string     `json:"state"`    // "waiting", "ok", "late" or "stale"
	EveryMs   int64      `json:"everyMs"`  // planned time between answers
	StaleMs   int64      `json:"staleMs"`  // silence that makes it stale
	Games     int        `json:"games"`
	LastGood  int64      `json:"lastGood"` // 0 if none
	LastNew   int64      `json:"lastNew"`  // last answer with something new, 0 if none
	LastFault *FeedFault `json:"lastFault"`
	Faults    int        `json:"faults"`   // in a row, up to now
	Reading   []string   `json:"reading"`  // what could not be read in the games, a line each
	Rhythm    []Beat     `json:"rhythm"`   // last five minutes, oldest first
	Followed  []Span     `json:"followed"` // when some board followed it, of the last ten minutes, oldest first
	LateMs    *int64     `json:"lateMs"`   // how long after a move it usually tells of it, beyond its least delay; null: not learnt yet
	Note      string     `json:"note"`     // how it is watched, where that is worth telling: "looked at every 0.25 s, not notified: …"
}

// FeedFault is a failed attempt.
type FeedFault struct {
	At     int64  `json:"at"`
	Reason string `json:"reason"` // a word from the list in relay/feed
	Text   string `json:"text"`   // for people
}

// Span is a time from one instant to another.
type Span struct {
	From int64 `json:"from"`
	To   int64 `json:"to"` // 0: not over
}

// Beat is one answer or one failed attempt.
type Beat struct {
	At   int64  `json:"at"`
	Kind string `json:"kind"` // "same", "new" or "fault"
}

// Sources says where every board comes from, or of which boards it is another thing than the
// page holds.
type Sources struct {
	Type   string         `json:"type"`
	Rev    uint64         `json:"rev"`
	Base   uint64         `json:"base"`   // revision of the sources that this follows on; 0: it is all there is
	Items  []BoardSources `json:"items"`  // those that are new or others than at Base, by number
	Errors []ClockErrorAt `json:"errors"` // of the running clocks since Base, oldest first; with Base 0 those of the last ten minutes, 256 at most
}

// ClockErrorAt is by how much a reading showed a board's running clock to have been wrong.
type ClockErrorAt struct {
	At    int64 `json:"at"`
	Board int   `json:"board"`
	Ms    int64 `json:"ms"`
}

// BoardSources is one board as the producer sees it.
type BoardSources struct {
	Board    int        `json:"board"`
	White    string     `json:"white"` // full name as shown
	Black    string     `json:"black"`
	Plies    int        `json:"plies"` // how many are shown; the next is Plies+1
	Last     string     `json:"last"`  // the last of them with its number, "23...Qxh4", or ""
	Turn     string     `json:"turn"`  // side on move: "white" or "black"
	Next     string     `json:"next"`  // number of the next move, "24." or "24..."
	Result   string     `json:"result"`
	Fault    string     `json:"fault"`
	Feed     string     `json:"feed"`     // the one followed, "" for none
	Pinned   string     `json:"pinned"`   // the one the producer wants followed, "" for the best
	Frozen   int64      `json:"frozen"`   // since when the producer keeps the board as it is, 0: not
	ByHand   []string   `json:"byHand"`   // entries that stand, a few words each
	Offers   []Offer    `json:"offers"`   // what each feed has of the game, the primary first
	Question *Question  `json:"question"` // null: nothing is asked
	Error    ClockError `json:"clockError"`
}

// ClockError is by how much the next readings showed a board's running clock to have been
// wrong, at least: what the receipts allow is no error.
type ClockError struct {
	Count    int   `json:"count"`    // readings that told, in this game
	LastMs   int64 `json:"lastMs"`   // 0 without any
	MedianMs int64 `json:"medianMs"` // of the newest 32
}

// States of an offer.
const (
	OfferFollowed = "followed" // the board follows it
	OfferReady    = "ready"    // it could be followed
	OfferDoubtful = "doubtful" // see its Text
	OfferDiffers  = "differs"  // its moves are others than those shown
)

// Offer is what one feed has of a board's game.
type Offer struct {
	Feed  string `json:"feed"`
	State string `json:"state"` // one of the states
	Text  string `json:"text"`  // why it is doubtful, or ""
	Plies int    `json:"plies"`
}

// Question asks the producer who is right, the feed or the entry by hand.
type Question struct {
	ID   string `json:"id"`
	Kind string `json:"kind"` // "move", "clock", "result" or "name"
	Text string `json:"text"` // the whole question
	Hand string `json:"hand"` // as entered; "" for a ply taken back
	Feed string `json:"feed"` // as the feed has it; "" for nothing
}

// Log brings lines of the show log, oldest first: on connecting the newest hundred,
// then each new line once.
type Log struct {
	Type  string    `json:"type"`
	Items []LogLine `json:"items"`
}

// LogEngine stands for the kind of an alert that is kept back.
const LogEngine = "engine"

// LogLine is one thing that happened.
type LogLine struct {
	Seq   uint64 `json:"seq"` // from 1, without gaps
	At    int64  `json:"at"`
	Board int    `json:"board"` // 0: the whole show
	Kind  string `json:"kind"`  // a word from the list in relay/note.go
	Ply   int    `json:"ply"`   // on the board, from 1, or 0
	Was   string `json:"was"`
	Is    string `json:"is"`
	Text  string `json:"text"`
}

// Entry is what the producer does by hand, sent to POST /by-hand. Which fields
// count depends on Act.
type Entry struct {
	ID       string `json:"id"`       // up to 64 characters, its own; sent twice it is done once
	Board    int    `json:"board"`    // number in the show; one more than there are begins a board with a move or a name
	Act      string `json:"act"`      // "move", "correct", "clock", "result", "name", "freeze", "thaw", "pin", "answer", "hold", "quiet" or "recording"
	Ply      int    `json:"ply"`      // move: the next one; correct: the last one; clock: any one
	SAN      string `json:"san"`      // move, correct; correct without one takes the ply back
	Clock    string `json:"clock"`    // clock: what the mover's showed after Ply, "0:09:58" or "9:58"
	Side     string `json:"side"`     // name: "white" or "black"
	Text     string `json:"text"`     // name, result; hold, recording: the group; quiet: "on" or "off"
	Feed     string `json:"feed"`     // pin; "" follows the best again
	Keep     string `json:"keep"`     // answer: "feed" or "hand"
	Asked    string `json:"asked"`    // answer: the question's ID
	Hold     string `json:"hold"`     // hold: seconds, "12" or "7.5"
	Mark     string `json:"mark"`     // recording: when it began, "2026-11-26T19:00:00+01:00"; "" now
	Timecode string `json:"timecode"` // recording: what its first picture has, "10:00:00:00"; "" zero
}

// EntryReply answers an Entry or a PanelAct: 200 when it was done, 409 when it cannot be, with the
// reason.
type EntryReply struct {
	Done  bool   `json:"done"`
	Error string `json:"error"` // what is wrong and what to do; "" when done
}

// LateMs is the limit of lateness: what is drawn later than so many wall milliseconds is late.
const LateMs = 250

// What is wrong with a page. All but unset last for half a minute after the last sign.
const (
	TroubleSilent = "silent" // none of its pings came for three times as long as they are apart
	TroubleUnset  = "unset"  // it is shown nothing, because the hold of its group has not been set
	TroubleLate   = "late"   // it drew something late
	TroubleBehind = "behind" // it skips one revision or more for every two that it is sent
)

// Pages tells of the pages connected: sums over all, and those that matter most.
type Pages struct {
	Type       string      `json:"type"`
	Count      int         `json:"count"`      // pages connected
	InTrouble  int         `json:"inTrouble"`  // of them
	Frames     int         `json:"frames"`     // that all of them drew last, as far as it is remembered
	LateFrames int         `json:"lateFrames"` // of these
	Kinds      []PageCount `json:"kinds"`      // how many of each kind, by name; none without a page
	Groups     []PageCount `json:"groups"`     // how many of each group of scenes held back; those first whose hold is set
	MoreGroups int         `json:"moreGroups"` // that pages name and Groups has no room for; no hold of these is set
	Items      []PageItem  `json:"items"`      // those in trouble first
	Late       LatePast    `json:"late"`
}

// PageCount is how many pages there are of a kind, or of a group.
type PageCount struct {
	Name  string `json:"name"`
	Count int    `json:"count"`
}

// LatePast is how late pages drew what they were sent in the last ten minutes: a figure
// for each piece of that time, the oldest first, the last not over yet. Null: nothing
// was drawn in it. All in wall milliseconds.
type LatePast struct {
	PieceMs     int64    `json:"pieceMs"`
	SceneMiddle []*int64 `json:"sceneMiddle"` // of scenes, half of the figures are no higher
	SceneWorst  []*int64 `json:"sceneWorst"`
	OtherWorst  []*int64 `json:"otherWorst"` // of desks, panels and health pages
}

// PageItem is one connected page.
type PageItem struct {
	Page       string  `json:"page"` // "scene/board", "panel", "health"
	Board      int     `json:"board"`
	From       string  `json:"from"` // its address
	Since      int64   `json:"since"`
	Late       []int64 `json:"late"`       // lateness of its last frames, wall milliseconds, oldest first
	Superseded uint64  `json:"superseded"` // revisions it skipped because a newer one was there
	Group      string  `json:"group"`      // of scenes held back together, "" for none
	HoldMs     *int64  `json:"holdMs"`     // by how much it is held back, 0 not at all; null: its group has not been set, so it is shown nothing
	Trouble    string  `json:"trouble"`    // what is wrong with it, or ""
}

// Ping is a page's heartbeat.
type Ping struct {
	Type string  `json:"type"`
	T    float64 `json:"t"`    // the page's own monotonic milliseconds, sent back in the pong
	Late []int64 `json:"late"` // lateness of the boards drawn since the last ping, wall milliseconds
}

// Pong answers a ping.
type Pong struct {
	Type string  `json:"type"`
	T    float64 `json:"t"`
	Now  int64   `json:"now"` // show time of sending
}

// Again asks for the whole of a board.
type Again struct {
	Type  string `json:"type"`
	Board int    `json:"board"`
}

// Who says who sits at a panel.
type Who struct {
	Type string `json:"type"`
	Name string `json:"name"` // up to 40 characters; "" nobody
}

// Frames of what is held back.
const (
	TypeTime  = "time"  // the page's time goes on at another pace
	TypeHolds = "holds" // by how much each group of scenes is held back
)

// Time tells a page that is held back that its show time is Now, and how fast it goes
// on: it stands while the hold has become longer, and hurries after it has become
// shorter.
type Time struct {
	Type string  `json:"type"`
	Now  int64   `json:"now"`
	Rate float64 `json:"rate"` // show time per wall time; 0: it stands
}

// Holds says which scenes there are and by how much each group of them is held back, for the
// producer.
type Holds struct {
	Type   string      `json:"type"`
	Rev    uint64      `json:"rev"`
	MostMs int64       `json:"mostMs"` // the longest hold there can be
	Groups []HoldGroup `json:"groups"` // in the order in which they were set first
	Scenes []string    `json:"scenes"` // every scene there is, by its path without the first slash
}

// HoldGroup is a group of scenes held back together.
type HoldGroup struct {
	Group  string `json:"group"`
	HoldMs int64  `json:"holdMs"`
	Since  int64  `json:"since"` // when it was set to that
}

// Air is what the desk shows viewers besides the live boards. While a question is put to
// them, scenes are sent its board as it stood at the question, and nothing newer.
type Air struct {
	Type      string        `json:"type"`
	Rev       uint64        `json:"rev"`
	Board     int           `json:"board"`     // the one that scenes with board=air show; 0: there is none yet
	Explained *Explained    `json:"explained"` // null: boards are shown as they are
	Challenge *AirChallenge `json:"challenge"` // null: none
	Lean      *Lean         `json:"lean"`      // null: none, as it is unless somebody puts it there
}

// Lean says which way an engine leans in the position that viewers see of a board.
type Lean struct {
	Board int    `json:"board"`
	Side  string `json:"side"` // that stands better: "white" or "black"; "" for level
	Size  int    `json:"size"` // 0 level, 1 slightly, 2 better, 3 clearly, 4 winning, 5 mate is seen
	Text  string `json:"text"` // in a few words
}

// Ways in which the desk shows something.
const (
	WayFollow = "follow" // viewers see what the desk sees, step by step
	WayWhole  = "whole"  // a side line is played through, a move every StepMs from At on
	WayText   = "text"   // a side line is written, and the board stays live
)

// Explained is a position, or a side line, that is shown in place of a board's live position.
type Explained struct {
	Board  int    `json:"board"`
	Way    string `json:"way"`   // one of the ways
	Ply    int    `json:"ply"`   // plies of the game up to where the side line departs, or to the position itself
	FEN    string `json:"fen"`   // of that position in the game
	Last   *Step  `json:"last"`  // the game's move that led there; null at the start
	Moves  []Step `json:"moves"` // of the side line, up to the position shown; none: it is one of the game
	Name   string `json:"name"`  // of the side line, often ""
	At     int64  `json:"at"`    // since when it is shown so
	StepMs int64  `json:"stepMs"`
	Live   bool   `json:"live"`   // it is the live position: only the marks are the desk's
	Turned bool   `json:"turned"` // the desk has Black below
	Marks  []Mark `json:"marks"`
}

// Step is a move that is shown, played or not.
type Step struct {
	Number int    `json:"number"` // as Ply.Number
	SAN    string `json:"san"`
	From   string `json:"from"`
	To     string `json:"to"`
	FEN    string `json:"fen"` // of the position after it
}

// States of a challenge.
const (
	ChallengeReady    = "ready"    // only the desks know of it
	ChallengeAsked    = "asked"    // viewers think
	ChallengeRevealed = "revealed" // the answer is played
)

// AirChallenge is a question put to the viewers: find the move. Nothing in it tells the
// answer before it is revealed.
type AirChallenge struct {
	ID       int      `json:"id"` // another with every question
	Board    int      `json:"board"`
	State    string   `json:"state"`  // asked or revealed
	Number   int      `json:"number"` // of the move to be found, as Ply.Number
	FEN      string   `json:"fen"`
	Last     *Step    `json:"last"` // the move that led there; null: none
	Turned   bool     `json:"turned"`
	Question string   `json:"question"`
	Asked    int64    `json:"asked"`    // when
	Ends     int64    `json:"ends"`     // when the time for thinking is over
	Hints    []string `json:"hints"`    // given so far
	Answer   []Step   `json:"answer"`   // none before it is revealed
	Revealed int64    `json:"revealed"` // when; 0: not yet
	StepMs   int64    `json:"stepMs"`   // between moves of the answer, from Revealed on
}

// Desk is what the desks share.
type Desk struct {
	Type        string         `json:"type"`
	Rev         uint64         `json:"rev"`
	Lead        string         `json:"lead"`     // whose acts count; "" of whoever comes first
	Asks        string         `json:"asks"`     // who asks for the lead, "" nobody
	Place       DeskPlace      `json:"place"`    // what the desks look at
	Turned      bool           `json:"turned"`   // Black below
	Moves       []LegalMove    `json:"moves"`    // legal at the place
	Lines       []LineMove     `json:"lines"`    // side lines of the game on the place's board, in the order in which they were entered
	Marks       []Mark         `json:"marks"`    // oldest first
	Keep        bool           `json:"keep"`     // marks stay when the next move comes
	Undoable    string         `json:"undoable"` // what undo would take back, in words; "" nothing
	Air         DeskAir        `json:"air"`
	Challenge   *DeskChallenge `json:"challenge"`   // null: none is prepared
	Auto        bool           `json:"auto"`        // the board on the air follows the suggestions by itself
	Suggestions []Suggestion   `json:"suggestions"` // the most urgent first
}

// DeskPlace is where the desks stand.
type DeskPlace struct {
	Board int    `json:"board"` // 0: there is none yet
	Live  bool   `json:"live"`  // they follow the game
	Ply   int    `json:"ply"`   // plies of the game up to there, or to where the side line departs
	Move  int    `json:"move"`  // the side line's move that they stand behind, by ID; 0: in the game
	FEN   string `json:"fen"`
	Last  *Step  `json:"last"` // the move that led there; null at the start
}

// LegalMove is a move that may be played where the desks stand.
type LegalMove struct {
	SAN       string `json:"san"`
	From      string `json:"from"`
	To        string `json:"to"`        // of castling: where the king arrives
	Promotion string `json:"promotion"` // "q", "r", "b", "n" or ""
}

// LineMove is a move of a side line.
type LineMove struct {
	ID     int    `json:"id"`
	After  int    `json:"after"` // the move of a side line before it; 0: it departs from the game
	Ply    int    `json:"ply"`   // plies of the game before the side line
	Step   Step   `json:"step"`
	Name   string `json:"name"`   // of the side line that begins with it, often ""
	Adrift bool   `json:"adrift"` // the game has been corrected since: it departs from a position that was not reached
}

// DeskAir is what of the desk is on the air.
type DeskAir struct {
	Board int    `json:"board"` // the one that scenes with board=air show
	Way   string `json:"way"`   // one of the ways; "" nothing of the desk is on the air
	Since int64  `json:"since"`
	Move  int    `json:"move"` // whole and text: the last move of the side line

	LeanBoard int  `json:"leanBoard"` // the one whose scene has the marker that leans, 0 none
	LeanKept  bool `json:"leanKept"`  // it comes again with every position
}

// DeskChallenge is a question as the desks know it.
type DeskChallenge struct {
	Air    AirChallenge `json:"air"`    // as viewers are told of it, once it is asked
	ForMs  int64        `json:"forMs"`  // time for thinking
	All    []string     `json:"all"`    // every hint there is
	Until  int64        `json:"until"`  // when it ends by itself; 0 while it is not asked
	Line   int          `json:"line"`   // prepared answer: the last move of a side line; 0: the move played
	Played bool         `json:"played"` // the game has gone on from there, so that the move played can be revealed
}

// Suggestion is a board that something happens on.
type Suggestion struct {
	Board  int    `json:"board"`
	Kind   string `json:"kind"` // of its alert, as Alert.Kind
	Side   string `json:"side"`
	Reason string `json:"reason"`
	At     int64  `json:"at"`
}

// DeskAct is what is done at a desk, sent to POST /api/actions/NAME. Which fields count
// is said of each action by GET /api/actions; all may be left out that do not count.
type DeskAct struct {
	ID      string   `json:"id"`   // as of an Entry; one is made up when there is none
	Who     string   `json:"who"`  // the name of who sits at the desk; "" acts for whoever leads
	Over    bool     `json:"over"` // lead: although somebody else leads
	Board   int      `json:"board"`
	Ply     int      `json:"ply"`
	Move    int      `json:"move"` // a side line's move, by ID
	SAN     string   `json:"san"`  // a move as people type it, or its two squares: "e2e4", "e7e8q"
	From    string   `json:"from"`
	To      string   `json:"to"`
	Text    string   `json:"text"`
	On      *bool    `json:"on"` // null: the other way than now
	Seconds int      `json:"seconds"`
	Hints   []string `json:"hints"`
	Prompt  string   `json:"prompt"` // its Key
	Steps   int      `json:"steps"`
}

// Access says which tokens there are: the answer to GET /api/access, for the producer.
type Access struct {
	Tokens  bool         `json:"tokens"`  // are asked for
	Viewers string       `json:"viewers"` // the viewers' token, for the addresses of scenes; "" not known
	Roles   []AccessRole `json:"roles"`
}

// AccessRole is one role that has a token.
type AccessRole struct {
	Role string `json:"role"`
	Made int64  `json:"made"` // when its token was made, wall time
}

// Renewed is the answer to POST /api/access/ROLE.
type Renewed struct {
	Done  bool   `json:"done"`
	Error string `json:"error"` // what is wrong and what to do
	Role  string `json:"role"`
	Path  string `json:"path"` // of the role's page, with the new token; it is told this once
}
