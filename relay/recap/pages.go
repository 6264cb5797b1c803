package recap

import "html/template"

// gamePage is what the page of a game is filled with.
type gamePage struct {
	In       *Words
	CSS      template.CSS
	Sheet    template.HTML // figurines
	Title    string
	Show     string
	Where    []string
	White    string // as they are called
	Black    string
	Score    string
	Result   string
	Facts    []string
	Players  []playerRow
	Lede     string
	Wide     template.HTML // tell line
	Narrow   template.HTML
	Timed    bool
	Legend   []legend
	Doubts   string
	Moments  []momentView
	Said     []saidView
	Lines    []lineView
	Asked    []askedView
	MovesHed string
	Moves    template.HTML
	Clocks   []clockRow
	Fault    string
	Empty    bool
	PGN      string // name of its file
	Made     string
	Home     string
}

type playerRow struct {
	Black                bool
	Name, Title, Federal string
	Rating               int
	Left, Side           string
}

type legend struct {
	Sample template.HTML
	Word   string
}

type momentView struct {
	Letter, Time, Text  string
	Besides             []string
	Move                template.HTML
	Diagram             template.HTML
	White, Black, Spent string
	Name                string // of its picture
}

type saidView struct {
	Time, Text, By string
	Move           template.HTML
	OnAir          bool
}

type lineView struct {
	After, Moves template.HTML
	Name         string
}

type askedView struct {
	Move              template.HTML
	Question, Seconds string
	Answer            template.HTML
	Hints             []string
}

type clockRow struct {
	Range string
	Total bool
	Sides [2]clockCell
}

type clockCell struct {
	Used, Left string
	Share      template.CSS // of the longest, in per cent
}
