package tell

import "time"

// ModelVersion names the model and its constants; it changes with either.
const ModelVersion = "3"

// class picks the covariate shifts that were fitted for it.
type class uint8

const (
	classLong  class = iota // base time above params.shortBase; fitted at 15 min + 10 s
	classShort              // the rest; fitted at 10 min with 2 to 10 s
	classes
)

// params holds every constant of the model. Times are in seconds unless a name or
// a comment says otherwise; "log" is the natural logarithm of seconds, "logit" log
// odds. Pace is base/40 + increment. Constants marked F are fitted (see the package
// comment), those marked J are judgement, the others are from the project notes on
// move times.
//
// The games of the fit are rapid games of one account, so nothing here is fitted to
// strong players in a hall; what holds for other controls is the scaling by the pace.
type params struct {
	startPrepared float64 // probability of preparation at the first timed own move

	// Time of a move from preparation: log-normal, median growing with the root of
	// the pace inside bounds. Median and deviation F.
	preparedMedian, preparedPace, preparedPower float64 // median at that pace, and the power
	preparedLeast, preparedMost                 float64
	preparedSD                                  float64 // log

	// Time of a move thought out: log-normal, median a share of the pace. F, but for
	// slowPace.
	thinkingShare   float64
	thinkingSD      float64 // log, above slowPace
	thinkingSDShort float64 // log, at slowPace and below
	slowPace        float64

	// What kind of reply the move is shifts both medians; the shift of a prepared
	// move is only a part of it. F.
	shortBase    time.Duration
	replyShift   [classes][replies]float64 // log, on thinking
	replyPrepare [classes]float64          // the part that counts for a prepared move

	// What else the board says, on thinking like the replies: the choice there was,
	// per log step from choiceUsual legal moves, and whether a man was rescued. F.
	choiceShift, rescueShift [classes]float64 // log

	// Time of the move before, the opponent's and the own, pulls thinking along; both
	// weights F.
	lagOther, lagOwn float64 // per log step from lagPace
	lagPace          float64 // share of the pace at which nothing is pulled

	// Leaving preparation, per own move: logistic in the ply. F. Returning is rare.
	hazardAt, hazardSlope, hazardPly float64 // logit at hazardPly, and per 10 plies
	returning                        float64 // probability
	hazardMost                       float64 // probability, however high the ply; J

	// Reference games, on the hazard's logit. J, nobody has tested them.
	knownShift, firstShift, outsideShift float64
	outsideMoves                         int // own moves outside from which outsideShift holds

	// The side's own tempo, from all its moves, each by how exact its state is and how
	// likely. J. Version 1 counted moves alike, and only those thought out.
	tempoMoves  int     // from so many
	tempoShrink float64 // what is set against the moves: 1 over the variance of sides' tempi
	tempoMost   float64 // log, either way
	tempoFrom   float64 // probability of thinking from which alone moves count, 0: all count

	evidenceMost float64 // one move moves log odds by no more than this, either way

	// Words: see verdict.go.
	enter, leave, even, sure float64
	evenStays                float64 // J, see verdict.go
	enterSum                 float64 // log odds the moves themselves must have gathered for Thinking
	timedLeast               int     // own timed moves before preparation or a shade is said
	thinkingLeast            int     // own timed moves before Thinking is said
	blindMoves               int     // own moves without a time after which there is no clock, J
	preparationMost          float64 // share of the base time a side in preparation may have used, J
	runningFrom              float64 // log odds a running clock must add before it says anything, J

	resolution          time.Duration // of a clock reading when the feed has not said
	estimatedResolution time.Duration // of a time taken from receipts, J
	defaultBase         time.Duration // taken when the control is unknown
	defaultIncrement    time.Duration
	movesPerGame        float64 // own moves a base time is meant for where no control says it
}

// Legal moves: the number at which the choice shifts nothing, and the most a
// position can have, which is known to be 218 (from memory).
const (
	choiceUsual = 30
	choiceMost  = 218
)

// standard is the model in use. It is never changed.
var standard = params{
	startPrepared:  .95,
	preparedMedian: 2.36, preparedPace: 20, preparedPower: .5,
	preparedLeast: .9, preparedMost: 3,
	preparedSD:    .90,
	thinkingShare: .55,
	thinkingSD:    1.27, thinkingSDShort: 1.18, slowPace: 20,
	shortBase: 10 * time.Minute,
	replyShift: [classes][replies]float64{
		classLong:  {Quiet: 0, Recapture: -1.60, EvadesCheck: -.13, AfterCapture: -.96},
		classShort: {Quiet: 0, Recapture: -1.28, EvadesCheck: -.05, AfterCapture: -.55},
	},
	replyPrepare: [classes]float64{classLong: .58, classShort: .69},
	choiceShift:  [classes]float64{classLong: .56, classShort: .28},
	rescueShift:  [classes]float64{classLong: -.41, classShort: -.22},
	lagOther:     .13, lagOwn: .08, lagPace: .4,
	hazardAt: -1.34, hazardSlope: .95, hazardPly: 16,
	returning: .005, hazardMost: .6,
	knownShift: -1, firstShift: 1, outsideShift: 1.5, outsideMoves: 3,
	tempoShrink: 16, tempoMost: .7,
	evidenceMost: 5,
	enter:        .9, leave: .2, even: .5, evenStays: .75, sure: .2,
	enterSum: 1.5, timedLeast: 3, thinkingLeast: 2, blindMoves: 3, preparationMost: .25, runningFrom: 1,
	resolution: time.Second, estimatedResolution: 4 * time.Second,
	defaultBase: 15 * time.Minute, defaultIncrement: 10 * time.Second,
	movesPerGame: 40,
}

// Long thinks: rule in longthink.go. Multiples 4 and 2 % are those of the study
// behind the notes; the floor is judgement.
const (
	longMedians    = 4.0
	longShare      = .02
	longThought    = 2.5
	longFloorShare = 1.0 / 20 // 30 s at 10 min
	longFloorLeast = 5 * time.Second
	longFloorMost  = 2 * time.Minute
	longFromTimed  = 3 // own timed moves before its own median counts
)

// Time trouble: rule in trouble.go. Judgement, but for the forecast, whose prior
// mean and deviation run through three fitted controls (3+2: 7 and 9 s, 10+5: 17
// and 25 s, 15+10: 23 and 38 s) as powers of the pace.
const (
	troubleMoves      = 10               // own moves the forecast looks ahead
	troubleFrom       = 8                // own timed moves before the forecast counts
	troubleChance     = .5               // forecast that makes level 1
	troubleBudget     = .5               // budget, as a share of the pace, that makes level 1
	troubleClear      = 1.25             // a level ends when the clock is above its limit by this
	troubleLimit      = time.Minute      // level 2
	troubleIncrements = 6                // level 2, in increments
	troubleShare      = .2               // level 2 is never more than this of the base time
	severePart        = 3                // level 3 is this part of level 2
	livingMoves       = 3                // own moves that make living on the increment
	livingNear        = .2               // each this near the increment
	livingClock       = 3                // with a clock below so many increments
	flagLeast         = 10 * time.Second // see flagAt
	flagMoves         = 4                // own timed moves before its quick moves count
	forecastShare     = .1               // the forecast's limit as a share of the base time, or level 2 if that is more
	forecastShrink    = 8.0              // moves' worth of prior
	meanAt, meanPower = 1.755, .739      // prior mean = meanAt * pace^meanPower
	sdAt, sdPower     = 1.685, .895
	together          = 5.0       // moves that say as much of a side's mean as one would, were they independent
	bandLow, bandHigh = 1.45, .95 // deviations below and above the middle that hold 80 %, see TestAssessProjection
	movesLeftLeast    = 15        // own moves always still expected
	usualMoves        = 8         // moves thought out in the usual pace
)

// Clock lead: judgement. Both halves must hold.
const (
	leadLeast  = time.Minute
	leadShare  = .2 // of the base time
	leadBudget = 1.5
	addedLeast = 10 * time.Second // more on a clock than its increment explains: it was added
	leadStands = .75              // of either, for a lead that stood before
	closedPart = .5               // of the largest lead, when the other side has caught up so far
)
