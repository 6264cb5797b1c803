package prompt

import (
	"fmt"
	"time"

	"clocktell/relay/clock"
)

const englishThree = "three moves later"

func (english) HalfTime(name string, move int, left time.Duration) Words {
	return Words{Text: fmt.Sprintf("%s has half of the starting time left.", name), Evidence: fmt.Sprintf("%s left after move %d", clock.Format(left), move), Ends: englishThree}
}

func (e english) Below(name, other string, limit, left time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s is below %s, and %s still has over %s.", name, e.Span(limit), other, e.Number(wholeMinutes(left))),
		Evidence: fmt.Sprintf("%s has %s", other, clock.Format(left)), Ends: englishThree,
	}
}

func (e english) BothBelow(limit time.Duration) Words {
	return Words{Text: fmt.Sprintf("Both clocks are below %s now.", e.Span(limit)), Evidence: "the second has just come below " + clock.Format(limit), Ends: englishThree}
}

func (english) UnderHalf(name, other string, mine, yours time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s has less than half the time of %s.", name, other),
		Evidence: fmt.Sprintf("%s against %s", clock.Format(mine), clock.Format(yours)), Ends: englishThree,
	}
}

func (e english) FiveMoves(slow, quick string, long, short time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s's last five moves took more than %s as long as those of %s.", slow, e.times(int(long/short)), quick),
		Evidence: fmt.Sprintf("%s against %s for five moves each", clock.Format(long), clock.Format(short)), Ends: englishThree,
	}
}

func (e english) Longest(name string, move int, spent time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("The longest think of the game so far: %s, %s.", name, e.Span(spent)),
		Evidence: e.onMove(spent, move), Ends: englishThree,
	}
}

func (e english) AtOnce(name, other string, spent time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s answers at once, after %s of thought by %s.", name, e.Span(spent), other),
		Evidence: clock.Format(spent) + " for the move before, a moment for this one", Ends: englishThree,
	}
}

func (e english) AboveStart(moves int, least time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("After %s moves both players have more time than at the start.", e.Number(moves)),
		Evidence: "both clocks by " + clock.Format(least) + " or more", Ends: englishThree,
	}
}

func (e english) QuickMoves(name string, moves int, most time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s has played the last %s moves almost at once.", name, e.Number(moves)),
		Evidence: "none took more than " + clock.Format(most), Ends: englishThree,
	}
}

func (e english) SlowMoves(name string, moves int, least time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("The last %s moves took %s at least %s each.", e.Number(moves), name, e.Span(atLeast(least))),
		Evidence: clock.Format(least) + " for the quickest of them", Ends: englishThree,
	}
}

func (e english) Average(quick, slow string, short, long time.Duration, moves int) Words {
	return Words{
		Text:     fmt.Sprintf("%s takes %s a move on average, %s %s.", quick, e.mean(short), slow, e.mean(long)),
		Evidence: fmt.Sprintf("over %s: %s against %s", englishMoves(moves), clock.Format(short), clock.Format(long)), Ends: englishThree,
	}
}

// mean says what a move takes, in seconds as long as there are not too many.
func (e english) mean(d time.Duration) string {
	if d < meanMinutes {
		return e.Number(max(2, int(d.Round(time.Second)/time.Second))) + " seconds"
	}
	return "about " + e.Number(int(d.Round(time.Minute)/time.Minute)) + " minutes"
}

func (e english) LevelClocks(moves int, by time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("After %s moves the clocks are level.", e.Number(moves)),
		Evidence: clock.Format(by) + " between them", Ends: englishThree,
	}
}

func (e english) Unspent(name string, moves int, left, start time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("After %s moves %s still has %s of %s minutes.", e.Number(moves), name, e.Number(wholeMinutes(left)), e.Number(wholeMinutes(start))),
		Evidence: fmt.Sprintf("%s of %s", clock.Format(left), clock.Format(start)), Ends: englishThree,
	}
}

func (english) AheadNow(name, other string, by time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s has more time than %s for the first time in a while.", name, other),
		Evidence: "by " + clock.Format(by) + ", for the first time since the opening", Ends: englishThree,
	}
}

func (e english) Surge(name string, moves, before int, lately, earlier time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s's last %s moves took longer than the %s before together.", name, e.Number(moves), e.Number(before)),
		Evidence: fmt.Sprintf("%s against %s", clock.Format(lately), clock.Format(earlier)), Ends: englishThree,
	}
}

func (e english) Regained(name string, moves int, by time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s's clock has gone up by %s in %s moves.", name, e.Span(by), e.Number(moves)),
		Evidence: "the clock went up by " + clock.Format(by), Ends: englishThree,
	}
}

func (e english) Recall(name string, move int, spent time.Duration) Words {
	return Words{
		Text:     fmt.Sprintf("%s's longest think so far was on move %s: %s.", name, e.Number(move), e.Span(spent)),
		Evidence: e.onMove(spent, move), Ends: englishThree,
	}
}

func (e english) MinuteMoves(name string, moves int) Words {
	return Words{
		Text:     fmt.Sprintf("%s has now made %s moves in a row with under a minute.", name, e.Number(moves)),
		Evidence: "below 1:00 after each of them", Ends: englishThree,
	}
}
