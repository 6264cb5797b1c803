// @ts-check
// Generated from overlay/wire/wire.go by its test; do not edit.

export const VERSION = 8;

export const TYPE = Object.freeze({
  WELCOME: 'welcome',
  SHOW: 'show',
  BOARD: 'board',
  PROMPTS: 'prompts',
  TABLE: 'table',
  PEOPLE: 'people',
  CAPTION: 'caption',
  AIR: 'air',
  DESK: 'desk',
  FEEDS: 'feeds',
  SOURCES: 'sources',
  LOG: 'log',
  PAGES: 'pages',
  PONG: 'pong',
  OPINIONS: 'opinions',
  PING: 'ping',
  AGAIN: 'again',
  WHO: 'who',
  TIME: 'time',
  HOLDS: 'holds',
});

export const CLOSE = Object.freeze({
  UNKNOWN_PAGE: 4000,
  BAD_FRAME: 4001,
  TOKEN_RENEWED: 4002,
});

export const QUALITY = Object.freeze({
  READ: 'read',
  DERIVED: 'derived',
  ESTIMATED: 'estimated',
  NONE: 'none',
});

export const LOOK = Object.freeze({
  PREPARATION: 'preparation',
  THINKING: 'thinking',
  UNSURE: 'unsure',
  TROUBLE: 'trouble',
  NONE: 'none',
});

export const VERDICT = Object.freeze({
  PREPARATION: 'preparation',
  THINKING: 'thinking',
  EARLY: 'early',
  NO_CLOCK: 'noclock',
});

export const PRIORITY = Object.freeze({
  NOW: 'now',
  SOON: 'soon',
  BACKGROUND: 'background',
});

export const JOURNAL = Object.freeze({
  KEPT: 'kept',
  FAILING: 'failing',
  OFF: 'off',
});

export const OFFER = Object.freeze({
  FOLLOWED: 'followed',
  READY: 'ready',
  DOUBTFUL: 'doubtful',
  DIFFERS: 'differs',
});

export const STATE = Object.freeze({
  RUNNING: 'running',
  STOPPED: 'stopped',
  RISING: 'rising',
  HELD: 'held',
});

export const MARK = Object.freeze({
  MENDED: 'mended',
  DOUBTFUL: 'doubtful',
  UNREAD: 'unread',
});

export const DELAY = Object.freeze({
  SIMPLE: 'simple',
  BRONSTEIN: 'bronstein',
});

export const PROMPT = Object.freeze({
  OPEN: 'open',
  TAKEN: 'taken',
  SAID: 'said',
  DROPPED: 'dropped',
});

export const MEANING = Object.freeze({
  LOOK: 'look',
  DANGER: 'danger',
  GUARD: 'guard',
  PLAN: 'plan',
  WEAK: 'weak',
});

export const WAY = Object.freeze({
  FOLLOW: 'follow',
  WHOLE: 'whole',
  TEXT: 'text',
});

export const CHALLENGE = Object.freeze({
  READY: 'ready',
  ASKED: 'asked',
  REVEALED: 'revealed',
});

export const ENGINE = Object.freeze({
  NONE: 'none',
  READY: 'ready',
  FAULT: 'fault',
});

export const BUS = Object.freeze({
  NONE: '',
  LEADS: 'leads',
  STANDS_BY: 'standsBy',
  FOLLOWS: 'follows',
});

/**
 * Welcome opens a connection.
 *
 * @typedef {object} Welcome
 * @property {string} type
 * @property {number} version
 * @property {string} run changes when the relay restarts
 * @property {number} now show time of sending
 * @property {number} rate show time per wall time
 * @property {number} pingEveryMs wall time between pings
 */

/**
 * Show says what is of all boards together. What a board is says its own frame.
 *
 * @typedef {object} Show
 * @property {string} type
 * @property {number} rev
 * @property {string} title
 * @property {string} lang of everything that is said: a language tag of BCP 47, such as "en"
 * @property {number} boards how many there are; they are numbered from 1, and none is left out
 * @property {boolean} quiet quiet mode: scenes tell no news of themselves
 * @property {Match | null} match null: none is configured
 * @property {Reference} reference
 */

/**
 * Match is how the match stands that the boards belong to. Scores are written as score
 * tables do: "2½".
 *
 * @typedef {object} Match
 * @property {string} first a player, or a team
 * @property {string} second
 * @property {string} firstScore
 * @property {string} secondScore
 * @property {string} stage "regular", "rapid", "blitz" or "armageddon"
 * @property {number} played
 * @property {number} planned
 * @property {string} line how it stands, as a sentence
 * @property {string} forecast what the ratings expect, or ""
 * @property {MatchGame[]} games on the boards now, in their order
 * @property {string[]} toCome rounds and colours still to come, a line each
 */

/**
 * MatchGame says what a game on a board means for the match.
 *
 * @typedef {object} MatchGame
 * @property {number} board
 * @property {string} white if White wins, in words
 * @property {string} draw
 * @property {string} black
 */

/**
 * Reference says which collection of finished games moves are looked up in.
 *
 * @typedef {object} Reference
 * @property {number} games in it; 0 and no Fault: none is attached
 * @property {number} depth plies of a game it holds
 * @property {string} counted which of them count, "" for all: "both players 2400 or more"
 * @property {string} fault why the one that was named cannot be used, or ""
 */

/**
 * Board carries one board. With Base 0 it is whole: Keep is 0 and Plies are
 * all. With another Base it follows on revision Base only: the first Keep plies
 * stay, Plies come behind them, and everything else replaces what was. A page
 * that holds another revision than Base asks again.
 *
 * @typedef {object} Board
 * @property {string} type
 * @property {number} board number in the show, from 1
 * @property {number} base
 * @property {number} rev
 * @property {number} at when the relay received the packet that made this revision; 0: something else made it, such as time
 * @property {string} event
 * @property {string} round
 * @property {string} table the feed's own board number, often empty
 * @property {Player} white
 * @property {Player} black
 * @property {Control} control
 * @property {number} keep
 * @property {Ply[]} plies
 * @property {string} fen position now
 * @property {string} running side whose clock runs: "white", "black" or ""
 * @property {string} result "1-0", "0-1", "1/2-1/2" or "*"
 * @property {Opening} opening
 * @property {Correction | null} correction the latest one, null if none; show it while its At is recent
 * @property {string} fault why the game is shown no further, or ""
 * @property {boolean} frozen the producer keeps the board as it is
 * @property {FeedState} feed
 * @property {Alert[]} alerts raised and not cleared, oldest first
 * @property {Known | null} known what the reference knows of the position now; null: nothing has been answered
 * @property {Novelty | null} novelty with which the game left the reference; null while it has not
 */

/**
 * Known is what the reference knows of a position. A game counts once for it.
 *
 * @typedef {object} Known
 * @property {number} games that reached it, of those counted
 * @property {number} white of those, won by White
 * @property {number} draws
 * @property {number} black
 * @property {number} all with those that are not counted
 * @property {KnownMove[]} moves most played first, only the first few
 * @property {KnownGame | null} last the latest of those counted; null if none
 */

/**
 * KnownMove is a move that reference games went on with.
 *
 * @typedef {object} KnownMove
 * @property {string} san
 * @property {number} games
 * @property {number} white of those, won by White
 * @property {number} draws
 * @property {number} black
 * @property {number} bestRating of those who played it, 0 unknown
 * @property {number} meanRating
 * @property {number} lastYear 0 unknown
 * @property {KnownGame | null} example the one of the highest ratings; null if none
 */

/**
 * KnownGame is one game of the reference.
 *
 * @typedef {object} KnownGame
 * @property {string} white
 * @property {string} black
 * @property {number} whiteRating 0 unknown
 * @property {number} blackRating
 * @property {string} event
 * @property {number} year 0 unknown
 * @property {string} result
 * @property {string} went the move it went on with; "" if it ended there
 */

/**
 * Novelty is the move with which a game left the reference: from a position that games
 * reached to one that none did.
 *
 * @typedef {object} Novelty
 * @property {number} ply as Ply.Number
 * @property {number} all games with it that are not counted
 * @property {Known} before
 */

/**
 * Player is one side of a board.
 *
 * @typedef {object} Player
 * @property {string} name as the feed writes it
 * @property {string} short as people say it
 * @property {string} title "GM", or ""
 * @property {number} rating
 * @property {string} federation
 * @property {string} gains material ahead, strongest first: "Q", "RP", "BB", or ""
 * @property {Clock} clock
 * @property {Tell} tell
 * @property {Habit | null} habit from past games at this time class; null: too few, or no reference
 */

/**
 * Habit is how a player used the clock in past games of the reference.
 *
 * @typedef {object} Habit
 * @property {number} games that it is from
 * @property {number[]} prepared own moves in preparation: lower quartile, median, upper quartile
 * @property {HabitAt[]} left on the clock after own moves such as 10, 20 and 30
 * @property {HabitAt | null} next time spent on the own move to come; null if too few games tell
 */

/**
 * HabitAt is the median at one own move.
 *
 * @typedef {object} HabitAt
 * @property {number} move
 * @property {number} timeMs
 * @property {number} games
 */

/**
 * Control is the time control as far as a page needs it.
 *
 * @typedef {object} Control
 * @property {string} text "10 min + 5 s", or "" when unknown
 * @property {number} baseMs
 * @property {number} incrementMs
 * @property {string} class "rapid", "blitz", "standard" or ""
 * @property {string} delay "simple", "bronstein", or "" for none
 * @property {number} delayMs free on every move
 * @property {boolean} hourglass what one side uses the other gets
 */

/**
 * Clock is one side's clock. While it runs, what is left at show time t is
 * LeftMs - (t - At), never below zero; until At, with a simple delay, it stands still. A
 * rising one shows LeftMs and what the running one has lost at t. A held clock does not
 * count down: nobody knows whether it runs.
 *
 * @typedef {object} Clock
 * @property {number} leftMs
 * @property {number} at
 * @property {string} state one of the states
 * @property {string} quality one of the qualities
 * @property {number} spentMs since the last ply, at At
 * @property {number} stepMs the feed's readings are multiples of it: 60000, 1000, 100 or less; 0: there are none
 * @property {number} unsureMs when it began to run is known to about so much, either way; 0 unless it runs or rises
 * @property {string} mark of its last reading: one of the marks, or ""
 * @property {string} remark the mark in words, or ""
 */

/**
 * Ply is one half-move. Number counts half-moves from White's first, which is 1;
 * a game from another position starts where that position says, so an odd Number
 * is always White's.
 *
 * @typedef {object} Ply
 * @property {number} number
 * @property {string} san
 * @property {string} from
 * @property {string} to
 * @property {number} spentMs
 * @property {number} leftMs mover's clock after the move
 * @property {string} quality
 * @property {string} look
 * @property {boolean} byHand entered by the producer; no feed has it yet
 * @property {string} mark of its reading: one of the marks, or ""
 * @property {string} remark the mark in words, or ""
 */

/**
 * Tell is what the clock says of one side.
 *
 * @typedef {object} Tell
 * @property {string} verdict one of the verdicts; "" while viewers are asked for the board's next move
 * @property {string} shade in words, shades included: "probably thinking"
 * @property {number} thinking probability of thinking, 0 to 1
 * @property {number} timed own moves with a usable time
 * @property {string} evidence a few words for the air: "9 moves, 0:41 gained"
 * @property {string[]} reasons for panel and desk, strongest first
 * @property {string} changed why the probability moved last, or ""
 * @property {number} trouble time trouble: 0 none, 1 to 3
 * @property {string[]} outlook what there is to say of the time left: budget, pace, control, where the clock is going
 */

/**
 * Opening is a name from the opening code table.
 *
 * @typedef {object} Opening
 * @property {string} code
 * @property {string} name
 */

/**
 * Correction says that the feed took something back.
 *
 * @typedef {object} Correction
 * @property {number} ply Number of the first ply that differs
 * @property {string} was move as it stood, "" if none
 * @property {string} is move as it stands, "" for a takeback
 * @property {number} at
 */

/**
 * FeedState is how the board's feed does, for a scene.
 *
 * @typedef {object} FeedState
 * @property {string} name of the feed the board follows, "" for none
 * @property {string} state "ok" or "stale"
 * @property {number} since when stale: of the last good answer; else 0
 */

/**
 * Alert is a condition that holds.
 *
 * @typedef {object} Alert
 * @property {string} id
 * @property {string} kind one of the AlertKinds in relay/alert.go, such as "leftPreparation"
 * @property {string} side "white", "black" or ""
 * @property {number} level
 * @property {number} ply
 * @property {number} at
 * @property {string} reason
 * @property {string} evidence
 */

/**
 * Prompts is the panel's list, newest first.
 *
 * @typedef {object} Prompts
 * @property {string} type
 * @property {number} rev
 * @property {Prompt[]} items
 */

/**
 * Prompt is one sentence to say.
 *
 * @typedef {object} Prompt
 * @property {string} key its own; what acts at the panel name it by
 * @property {string} kind a word from the list in relay/prompt, such as "tell"
 * @property {number} board 0: the whole show
 * @property {string} side
 * @property {number} ply as Ply.Number; 0 for the whole show
 * @property {number} at
 * @property {string} priority
 * @property {string} text
 * @property {string} evidence
 * @property {string} ends what withdraws it: "when the move comes"
 * @property {number} withdrawn when it stopped being true, 0 while it holds
 * @property {Mark[]} marks what to point at on the board
 * @property {string} state one of the states
 * @property {string} by who brought it there; "" while it is open
 * @property {number} since and when
 * @property {string} pinned who pinned it, "" nobody
 */

/**
 * Mark points at something on a board: a square, or a way from one square to another.
 *
 * @typedef {object} Mark
 * @property {string} kind one of the meanings
 * @property {string} from "" for a square alone
 * @property {string} to
 */

/**
 * Table is what co-hosts share besides the prompts.
 *
 * @typedef {object} Table
 * @property {string} type
 * @property {number} rev
 * @property {TableNote[]} notes oldest first
 */

/**
 * TableNote is a note for the others at the table.
 *
 * @typedef {object} TableNote
 * @property {string} id
 * @property {string} by
 * @property {number} at
 * @property {string} text
 */

/**
 * People lists who sits at the panels.
 *
 * @typedef {object} People
 * @property {string} type
 * @property {string[]} names each once, in the order in which they came
 */

/**
 * CaptionFrame brings the sentence on the air.
 *
 * @typedef {object} CaptionFrame
 * @property {string} type
 * @property {number} rev
 * @property {Caption | null} caption null: none
 */

/**
 * Caption is a sentence on the air.
 *
 * @typedef {object} Caption
 * @property {string} key of its prompt, "" for one of a person's own
 * @property {string} kind of its prompt, or ""
 * @property {number} board 0: the whole show
 * @property {string} side
 * @property {string} text
 * @property {string} source what it is about, in words: "board 1 · Quintanilha – Tveiterås · move 15"
 * @property {Mark[]} marks for the scene of its board
 * @property {string} by
 * @property {number} at
 * @property {number} until when it leaves by itself, 0: not yet known
 */

/**
 * PanelAct is what a co-host does at the panel, sent to POST /at-panel. Which fields count
 * depends on Act.
 *
 * @typedef {object} PanelAct
 * @property {string} id as of an Entry
 * @property {string} who the co-host's name
 * @property {string} act "take", "said", "drop", "undo", "pin", "unpin", "air", "off", "note" or "wipe"
 * @property {string} prompt its Key; all but off, note and wipe
 * @property {boolean} over although somebody else has taken it
 * @property {string} text note; air, for a sentence of one's own
 * @property {string} note wipe: the note's ID
 */

/**
 * Feeds is the health of every feed, or of those that do otherwise than the page holds, and what
 * there is besides.
 *
 * @typedef {object} Feeds
 * @property {string} type
 * @property {number} rev
 * @property {number} base revision of the feeds that this follows on; 0: it has all of them
 * @property {string} verdict one sentence: are the viewers fine, and why
 * @property {boolean} fine
 * @property {Journal} journal
 * @property {FeedItem[]} items those that are others than at Base
 * @property {Engine} engine
 * @property {Engine} second that it is compared with
 * @property {Bus} bus
 */

/**
 * Bus is how the process that a page came to shares the show with others.
 *
 * @typedef {object} Bus
 * @property {string} role one of those
 * @property {string} leader the process that leads, as far as this one knows, or ""
 * @property {string} wrong what is wrong and what to do, or ""
 * @property {number} waiting messages that are kept until the bus takes them again
 */

/**
 * Engine is how the engine does that gives second opinions.
 *
 * @typedef {object} Engine
 * @property {string} state one of the states
 * @property {string} name by the name it gives itself
 * @property {string} text what is wrong and what to do, or ""
 * @property {number} since it has been ready since then; 0: it is not
 * @property {number} board whose position it searches now, 0 none
 * @property {number} waiting positions that wait for it
 * @property {number} restarts
 * @property {string} last the kind of its last fault, or ""
 */

/**
 * Opinions brings what an engine thinks, for desk and panel. Who must not know of a board,
 * because viewers are asked for its next move, is sent nothing of it.
 *
 * @typedef {object} Opinions
 * @property {string} type
 * @property {number} rev
 * @property {string} state of the engine, one of its states
 * @property {string} engine its name
 * @property {string} text why it says nothing, or ""
 * @property {number} kept the board of which nothing is told, 0 none
 * @property {Opinion | null} desk of the position that the desk looks at; null: it has not been judged
 * @property {Opinion | null} other of it by the second engine, with its best line; null: there is none, or it has not judged it
 * @property {boolean} differ the two are not of one mind: they would play other moves, and their scores are far apart
 * @property {Opinion[]} boards of the newest position of each board that has been judged: the best line, and the first of its moves
 */

/**
 * Opinion is what an engine thinks of a position. It is of the engine, not of clocktell.
 *
 * @typedef {object} Opinion
 * @property {number} board
 * @property {number} ply of the game up to there, or to where the side line departs
 * @property {number} move the side line's move behind which it stands, by ID; 0: in the game
 * @property {string} fen of the position
 * @property {number} depth plies that all lines were searched to
 * @property {boolean} final the search has come to its planned end
 * @property {string} words how it stands by the first line
 * @property {OpinionLine[]} lines best first for the side on move
 * @property {string} engine
 */

/**
 * OpinionLine is a way that the game may go on.
 *
 * @typedef {object} OpinionLine
 * @property {string} score from White's view: "+0.84", "≤ −1.20"; mate: "#5", "#−5"
 * @property {string} words "White is better, by a pawn and a half"
 * @property {string} side that stands better: "white" or "black"; "" for level
 * @property {boolean} exact the score is no bound
 * @property {WDL | null} wdl null: the engine gives none
 * @property {OpinionMove[]} moves the first of them; each is legal
 */

/**
 * WDL is an engine's own guess at how the game ends, in thousandths, from White's view.
 *
 * @typedef {object} WDL
 * @property {number} win
 * @property {number} draw
 * @property {number} loss
 */

/**
 * OpinionMove is a move of a line.
 *
 * @typedef {object} OpinionMove
 * @property {number} number as Ply.Number
 * @property {string} san
 */

/**
 * Journal says whether what happens is being written down.
 *
 * @typedef {object} Journal
 * @property {string} state one of the states
 * @property {string} text what is wrong and what to do, or where it is kept
 */

/**
 * FeedItem is one feed on the health page.
 *
 * @typedef {object} FeedItem
 * @property {string} name
 * @property {string} kind "http", "growing", "file", "folder", "push" or "stdin"
 * @property {string} backupOf the feed it backs up, or ""
 * @property {string} address without credentials
 * @property {string} state "waiting", "ok", "late" or "stale"
 * @property {number} everyMs planned time between answers
 * @property {number} staleMs silence that makes it stale
 * @property {number} games
 * @property {number} lastGood 0 if none
 * @property {number} lastNew last answer with something new, 0 if none
 * @property {FeedFault | null} lastFault
 * @property {number} faults in a row, up to now
 * @property {string[]} reading what could not be read in the games, a line each
 * @property {Beat[]} rhythm last five minutes, oldest first
 * @property {Span[]} followed when some board followed it, of the last ten minutes, oldest first
 * @property {number | null} lateMs how long after a move it usually tells of it, beyond its least delay; null: not learnt yet
 * @property {string} note how it is watched, where that is worth telling: "looked at every 0.25 s, not notified: …"
 */

/**
 * FeedFault is a failed attempt.
 *
 * @typedef {object} FeedFault
 * @property {number} at
 * @property {string} reason a word from the list in relay/feed
 * @property {string} text for people
 */

/**
 * Span is a time from one instant to another.
 *
 * @typedef {object} Span
 * @property {number} from
 * @property {number} to 0: not over
 */

/**
 * Beat is one answer or one failed attempt.
 *
 * @typedef {object} Beat
 * @property {number} at
 * @property {string} kind "same", "new" or "fault"
 */

/**
 * Sources says where every board comes from, or of which boards it is another thing than the
 * page holds.
 *
 * @typedef {object} Sources
 * @property {string} type
 * @property {number} rev
 * @property {number} base revision of the sources that this follows on; 0: it is all there is
 * @property {BoardSources[]} items those that are new or others than at Base, by number
 * @property {ClockErrorAt[]} errors of the running clocks since Base, oldest first; with Base 0 those of the last ten minutes, 256 at most
 */

/**
 * ClockErrorAt is by how much a reading showed a board's running clock to have been wrong.
 *
 * @typedef {object} ClockErrorAt
 * @property {number} at
 * @property {number} board
 * @property {number} ms
 */

/**
 * BoardSources is one board as the producer sees it.
 *
 * @typedef {object} BoardSources
 * @property {number} board
 * @property {string} white full name as shown
 * @property {string} black
 * @property {number} plies how many are shown; the next is Plies+1
 * @property {string} last the last of them with its number, "23...Qxh4", or ""
 * @property {string} turn side on move: "white" or "black"
 * @property {string} next number of the next move, "24." or "24..."
 * @property {string} result
 * @property {string} fault
 * @property {string} feed the one followed, "" for none
 * @property {string} pinned the one the producer wants followed, "" for the best
 * @property {number} frozen since when the producer keeps the board as it is, 0: not
 * @property {string[]} byHand entries that stand, a few words each
 * @property {Offer[]} offers what each feed has of the game, the primary first
 * @property {Question | null} question null: nothing is asked
 * @property {ClockError} clockError
 */

/**
 * ClockError is by how much the next readings showed a board's running clock to have been
 * wrong, at least: what the receipts allow is no error.
 *
 * @typedef {object} ClockError
 * @property {number} count readings that told, in this game
 * @property {number} lastMs 0 without any
 * @property {number} medianMs of the newest 32
 */

/**
 * Offer is what one feed has of a board's game.
 *
 * @typedef {object} Offer
 * @property {string} feed
 * @property {string} state one of the states
 * @property {string} text why it is doubtful, or ""
 * @property {number} plies
 */

/**
 * Question asks the producer who is right, the feed or the entry by hand.
 *
 * @typedef {object} Question
 * @property {string} id
 * @property {string} kind "move", "clock", "result" or "name"
 * @property {string} text the whole question
 * @property {string} hand as entered; "" for a ply taken back
 * @property {string} feed as the feed has it; "" for nothing
 */

/**
 * Log brings lines of the show log, oldest first: on connecting the newest hundred,
 * then each new line once.
 *
 * @typedef {object} Log
 * @property {string} type
 * @property {LogLine[]} items
 */

/**
 * LogLine is one thing that happened.
 *
 * @typedef {object} LogLine
 * @property {number} seq from 1, without gaps
 * @property {number} at
 * @property {number} board 0: the whole show
 * @property {string} kind a word from the list in relay/note.go
 * @property {number} ply on the board, from 1, or 0
 * @property {string} was
 * @property {string} is
 * @property {string} text
 */

/**
 * Entry is what the producer does by hand, sent to POST /by-hand. Which fields
 * count depends on Act.
 *
 * @typedef {object} Entry
 * @property {string} id up to 64 characters, its own; sent twice it is done once
 * @property {number} board number in the show; one more than there are begins a board with a move or a name
 * @property {string} act "move", "correct", "clock", "result", "name", "freeze", "thaw", "pin", "answer", "hold", "quiet" or "recording"
 * @property {number} ply move: the next one; correct: the last one; clock: any one
 * @property {string} san move, correct; correct without one takes the ply back
 * @property {string} clock clock: what the mover's showed after Ply, "0:09:58" or "9:58"
 * @property {string} side name: "white" or "black"
 * @property {string} text name, result; hold, recording: the group; quiet: "on" or "off"
 * @property {string} feed pin; "" follows the best again
 * @property {string} keep answer: "feed" or "hand"
 * @property {string} asked answer: the question's ID
 * @property {string} hold hold: seconds, "12" or "7.5"
 * @property {string} mark recording: when it began, "2026-11-26T19:00:00+01:00"; "" now
 * @property {string} timecode recording: what its first picture has, "10:00:00:00"; "" zero
 */

/**
 * EntryReply answers an Entry or a PanelAct: 200 when it was done, 409 when it cannot be, with the
 * reason.
 *
 * @typedef {object} EntryReply
 * @property {boolean} done
 * @property {string} error what is wrong and what to do; "" when done
 */

/**
 * Pages tells of the pages connected: sums over all, and those that matter most.
 *
 * @typedef {object} Pages
 * @property {string} type
 * @property {number} count pages connected
 * @property {number} inTrouble of them
 * @property {number} frames that all of them drew last, as far as it is remembered
 * @property {number} lateFrames of these
 * @property {PageCount[]} kinds how many of each kind, by name; none without a page
 * @property {PageCount[]} groups how many of each group of scenes held back; those first whose hold is set
 * @property {number} moreGroups that pages name and Groups has no room for; no hold of these is set
 * @property {PageItem[]} items those in trouble first
 * @property {LatePast} late
 */

/**
 * PageCount is how many pages there are of a kind, or of a group.
 *
 * @typedef {object} PageCount
 * @property {string} name
 * @property {number} count
 */

/**
 * LatePast is how late pages drew what they were sent in the last ten minutes: a figure
 * for each piece of that time, the oldest first, the last not over yet. Null: nothing
 * was drawn in it. All in wall milliseconds.
 *
 * @typedef {object} LatePast
 * @property {number} pieceMs
 * @property {(number | null)[]} sceneMiddle of scenes, half of the figures are no higher
 * @property {(number | null)[]} sceneWorst
 * @property {(number | null)[]} otherWorst of desks, panels and health pages
 */

/**
 * PageItem is one connected page.
 *
 * @typedef {object} PageItem
 * @property {string} page "scene/board", "panel", "health"
 * @property {number} board
 * @property {string} from its address
 * @property {number} since
 * @property {number[]} late lateness of its last frames, wall milliseconds, oldest first
 * @property {number} superseded revisions it skipped because a newer one was there
 * @property {string} group of scenes held back together, "" for none
 * @property {number | null} holdMs by how much it is held back, 0 not at all; null: its group has not been set, so it is shown nothing
 * @property {string} trouble what is wrong with it, or ""
 */

/**
 * Ping is a page's heartbeat.
 *
 * @typedef {object} Ping
 * @property {string} type
 * @property {number} t the page's own monotonic milliseconds, sent back in the pong
 * @property {number[]} late lateness of the boards drawn since the last ping, wall milliseconds
 */

/**
 * Pong answers a ping.
 *
 * @typedef {object} Pong
 * @property {string} type
 * @property {number} t
 * @property {number} now show time of sending
 */

/**
 * Again asks for the whole of a board.
 *
 * @typedef {object} Again
 * @property {string} type
 * @property {number} board
 */

/**
 * Who says who sits at a panel.
 *
 * @typedef {object} Who
 * @property {string} type
 * @property {string} name up to 40 characters; "" nobody
 */

/**
 * Time tells a page that is held back that its show time is Now, and how fast it goes
 * on: it stands while the hold has become longer, and hurries after it has become
 * shorter.
 *
 * @typedef {object} Time
 * @property {string} type
 * @property {number} now
 * @property {number} rate show time per wall time; 0: it stands
 */

/**
 * Holds says which scenes there are and by how much each group of them is held back, for the
 * producer.
 *
 * @typedef {object} Holds
 * @property {string} type
 * @property {number} rev
 * @property {number} mostMs the longest hold there can be
 * @property {HoldGroup[]} groups in the order in which they were set first
 * @property {string[]} scenes every scene there is, by its path without the first slash
 */

/**
 * HoldGroup is a group of scenes held back together.
 *
 * @typedef {object} HoldGroup
 * @property {string} group
 * @property {number} holdMs
 * @property {number} since when it was set to that
 */

/**
 * Air is what the desk shows viewers besides the live boards. While a question is put to
 * them, scenes are sent its board as it stood at the question, and nothing newer.
 *
 * @typedef {object} Air
 * @property {string} type
 * @property {number} rev
 * @property {number} board the one that scenes with board=air show; 0: there is none yet
 * @property {Explained | null} explained null: boards are shown as they are
 * @property {AirChallenge | null} challenge null: none
 * @property {Lean | null} lean null: none, as it is unless somebody puts it there
 */

/**
 * Lean says which way an engine leans in the position that viewers see of a board.
 *
 * @typedef {object} Lean
 * @property {number} board
 * @property {string} side that stands better: "white" or "black"; "" for level
 * @property {number} size 0 level, 1 slightly, 2 better, 3 clearly, 4 winning, 5 mate is seen
 * @property {string} text in a few words
 */

/**
 * Explained is a position, or a side line, that is shown in place of a board's live position.
 *
 * @typedef {object} Explained
 * @property {number} board
 * @property {string} way one of the ways
 * @property {number} ply plies of the game up to where the side line departs, or to the position itself
 * @property {string} fen of that position in the game
 * @property {Step | null} last the game's move that led there; null at the start
 * @property {Step[]} moves of the side line, up to the position shown; none: it is one of the game
 * @property {string} name of the side line, often ""
 * @property {number} at since when it is shown so
 * @property {number} stepMs
 * @property {boolean} live it is the live position: only the marks are the desk's
 * @property {boolean} turned the desk has Black below
 * @property {Mark[]} marks
 */

/**
 * Step is a move that is shown, played or not.
 *
 * @typedef {object} Step
 * @property {number} number as Ply.Number
 * @property {string} san
 * @property {string} from
 * @property {string} to
 * @property {string} fen of the position after it
 */

/**
 * AirChallenge is a question put to the viewers: find the move. Nothing in it tells the
 * answer before it is revealed.
 *
 * @typedef {object} AirChallenge
 * @property {number} id another with every question
 * @property {number} board
 * @property {string} state asked or revealed
 * @property {number} number of the move to be found, as Ply.Number
 * @property {string} fen
 * @property {Step | null} last the move that led there; null: none
 * @property {boolean} turned
 * @property {string} question
 * @property {number} asked when
 * @property {number} ends when the time for thinking is over
 * @property {string[]} hints given so far
 * @property {Step[]} answer none before it is revealed
 * @property {number} revealed when; 0: not yet
 * @property {number} stepMs between moves of the answer, from Revealed on
 */

/**
 * Desk is what the desks share.
 *
 * @typedef {object} Desk
 * @property {string} type
 * @property {number} rev
 * @property {string} lead whose acts count; "" of whoever comes first
 * @property {string} asks who asks for the lead, "" nobody
 * @property {DeskPlace} place what the desks look at
 * @property {boolean} turned Black below
 * @property {LegalMove[]} moves legal at the place
 * @property {LineMove[]} lines side lines of the game on the place's board, in the order in which they were entered
 * @property {Mark[]} marks oldest first
 * @property {boolean} keep marks stay when the next move comes
 * @property {string} undoable what undo would take back, in words; "" nothing
 * @property {DeskAir} air
 * @property {DeskChallenge | null} challenge null: none is prepared
 * @property {boolean} auto the board on the air follows the suggestions by itself
 * @property {Suggestion[]} suggestions the most urgent first
 */

/**
 * DeskPlace is where the desks stand.
 *
 * @typedef {object} DeskPlace
 * @property {number} board 0: there is none yet
 * @property {boolean} live they follow the game
 * @property {number} ply plies of the game up to there, or to where the side line departs
 * @property {number} move the side line's move that they stand behind, by ID; 0: in the game
 * @property {string} fen
 * @property {Step | null} last the move that led there; null at the start
 */

/**
 * LegalMove is a move that may be played where the desks stand.
 *
 * @typedef {object} LegalMove
 * @property {string} san
 * @property {string} from
 * @property {string} to of castling: where the king arrives
 * @property {string} promotion "q", "r", "b", "n" or ""
 */

/**
 * LineMove is a move of a side line.
 *
 * @typedef {object} LineMove
 * @property {number} id
 * @property {number} after the move of a side line before it; 0: it departs from the game
 * @property {number} ply plies of the game before the side line
 * @property {Step} step
 * @property {string} name of the side line that begins with it, often ""
 * @property {boolean} adrift the game has been corrected since: it departs from a position that was not reached
 */

/**
 * DeskAir is what of the desk is on the air.
 *
 * @typedef {object} DeskAir
 * @property {number} board the one that scenes with board=air show
 * @property {string} way one of the ways; "" nothing of the desk is on the air
 * @property {number} since
 * @property {number} move whole and text: the last move of the side line
 * @property {number} leanBoard the one whose scene has the marker that leans, 0 none
 * @property {boolean} leanKept it comes again with every position
 */

/**
 * DeskChallenge is a question as the desks know it.
 *
 * @typedef {object} DeskChallenge
 * @property {AirChallenge} air as viewers are told of it, once it is asked
 * @property {number} forMs time for thinking
 * @property {string[]} all every hint there is
 * @property {number} until when it ends by itself; 0 while it is not asked
 * @property {number} line prepared answer: the last move of a side line; 0: the move played
 * @property {boolean} played the game has gone on from there, so that the move played can be revealed
 */

/**
 * Suggestion is a board that something happens on.
 *
 * @typedef {object} Suggestion
 * @property {number} board
 * @property {string} kind of its alert, as Alert.Kind
 * @property {string} side
 * @property {string} reason
 * @property {number} at
 */

/**
 * DeskAct is what is done at a desk, sent to POST /api/actions/NAME. Which fields count
 * is said of each action by GET /api/actions; all may be left out that do not count.
 *
 * @typedef {object} DeskAct
 * @property {string} id as of an Entry; one is made up when there is none
 * @property {string} who the name of who sits at the desk; "" acts for whoever leads
 * @property {boolean} over lead: although somebody else leads
 * @property {number} board
 * @property {number} ply
 * @property {number} move a side line's move, by ID
 * @property {string} san a move as people type it, or its two squares: "e2e4", "e7e8q"
 * @property {string} from
 * @property {string} to
 * @property {string} text
 * @property {boolean | null} on null: the other way than now
 * @property {number} seconds
 * @property {string[]} hints
 * @property {string} prompt its Key
 * @property {number} steps
 */

/**
 * Access says which tokens there are: the answer to GET /api/access, for the producer.
 *
 * @typedef {object} Access
 * @property {boolean} tokens are asked for
 * @property {string} viewers the viewers' token, for the addresses of scenes; "" not known
 * @property {AccessRole[]} roles
 */

/**
 * AccessRole is one role that has a token.
 *
 * @typedef {object} AccessRole
 * @property {string} role
 * @property {number} made when its token was made, wall time
 */

/**
 * Renewed is the answer to POST /api/access/ROLE.
 *
 * @typedef {object} Renewed
 * @property {boolean} done
 * @property {string} error what is wrong and what to do
 * @property {string} role
 * @property {string} path of the role's page, with the new token; it is told this once
 */
