package match

import "fmt"

// Score is a score that need not be whole: hundredths of a point.
type Score int

// String writes the score with two places: "1.27".
func (s Score) String() string { return fmt.Sprintf("%d.%02d", s/100, s%100) }

// Bounds of the rule of 400 points (FIDE Rating Regulations B.02, 8.3.1, as in force
// from 1 October 2025).
const (
	differenceMost = 400  // a larger difference counts as this much ...
	trueDifference = 2650 // ... for a player rated below this
)

// band is a row of the table: from and to are differences of rating, ends included.
type band struct {
	from, to  int
	high, low Score // of the higher and of the lower rated player
}

// expectations is the table of FIDE Rating Regulations B.02, 8.1.2, typed from memory.
// The tests hold it to rows of a copy and to the normal curve it was made from.
var expectations = [...]band{
	{0, 3, 50, 50}, {4, 10, 51, 49}, {11, 17, 52, 48}, {18, 25, 53, 47}, {26, 32, 54, 46},
	{33, 39, 55, 45}, {40, 46, 56, 44}, {47, 53, 57, 43}, {54, 61, 58, 42}, {62, 68, 59, 41},
	{69, 76, 60, 40}, {77, 83, 61, 39}, {84, 91, 62, 38}, {92, 98, 63, 37}, {99, 106, 64, 36},
	{107, 113, 65, 35}, {114, 121, 66, 34}, {122, 129, 67, 33}, {130, 137, 68, 32}, {138, 145, 69, 31},
	{146, 153, 70, 30}, {154, 162, 71, 29}, {163, 170, 72, 28}, {171, 179, 73, 27}, {180, 188, 74, 26},
	{189, 197, 75, 25}, {198, 206, 76, 24}, {207, 215, 77, 23}, {216, 225, 78, 22}, {226, 235, 79, 21},
	{236, 245, 80, 20}, {246, 256, 81, 19}, {257, 267, 82, 18}, {268, 278, 83, 17}, {279, 290, 84, 16},
	{291, 302, 85, 15}, {303, 315, 86, 14}, {316, 328, 87, 13}, {329, 344, 88, 12}, {345, 357, 89, 11},
	{358, 374, 90, 10}, {375, 391, 91, 9}, {392, 411, 92, 8}, {412, 432, 93, 7}, {433, 456, 94, 6},
	{457, 484, 95, 5}, {485, 517, 96, 4}, {518, 559, 97, 3}, {560, 619, 98, 2}, {620, 735, 99, 1},
}

// certain is the score beyond the last row.
const certain Score = 100

// ExpectedAt returns the expected score of a player rated higher by the difference,
// lower if it is negative, straight from the table.
func ExpectedAt(difference int) Score {
	for _, row := range expectations {
		if max(difference, -difference) > row.to {
			continue
		}
		if difference < 0 {
			return row.low
		}
		return row.high
	}
	if difference < 0 {
		return 0
	}
	return certain
}

// Expected returns the score that FIDE's regulations expect of a player in one game, by
// the ratings of the player and of the opponent, both known. The difference counts as
// 400 at most for a player rated below 2650. The rule looks at each player alone, so the
// scores of two players make more than one point if only the higher is above that bound
// and the difference is larger; see Shares.
func Expected(own, other int) Score {
	difference := own - other
	if own < trueDifference {
		difference = min(max(difference, -differenceMost), differenceMost)
	}
	return ExpectedAt(difference)
}

// Shares returns the expected scores of two players in one game, which make one point:
// that of the higher rated by Expected, and what is left of the point.
func Shares(first, second int) (Score, Score) {
	if first < second {
		low, high := Shares(second, first)
		return high, low
	}
	high := Expected(first, second)
	return high, certain - high
}
