package demo

import (
	"fmt"
	"strings"
)

// referenceLine is an opening that so many games of the demo's reference played, and
// how they went on from there.
type referenceLine struct {
	games int
	moves string
}

// Both games of the demo leave these lines by a new move: game 1 with 15. f3, game 2
// with 13. b4.
const (
	line1 = "d4 d5 c4 c6 Nf3 Nf6 e3 Bf5 Nc3 e6 Nh4"
	line3 = line1 + " Bg4 Qb3 Qb6 h3 Bh5 g4 Bg6 Nxg6 hxg6 Bg2 Nbd7 Bd2"
	line2 = "e4 e5 Nf3 Nc6 Bc4 Bc5 c3 Nf6 d3 d6 O-O a6 a4 Ba7 Re1 O-O h3 h6 Nbd2 Re8"
)

var referenceLines = []referenceLine{
	{34, line1 + " Bg6 Nxg6 hxg6 Bd3 Nbd7 O-O Bd6"},
	{21, line1 + " Be4 f3 Bg6 Qb3 Qb6"},
	{12, line1 + " Bg4 Qb3 Qb6 h3 Bh5 g4 Bg6 Nxg6 hxg6 Bd2 Nbd7"},
	{9, line3 + " Be7 O-O"},
	{6, line3 + " Bd6 O-O-O"},
	{7, line3 + " g5 Qxb6 axb6 cxd5 exd5 O-O"},
	{4, line3 + " g5 Qxb6 axb6 cxd5 exd5 a3"},
	{3, line3 + " g5 cxd5 exd5"},
	{2, "Nf3 d5 c4 c6 d4 Nf6 e3 Bf5 Nc3 e6 Nh4 Bg4 Qb3 Qb6 h3 Bh5 g4 Bg6 Nxg6 hxg6 Bg2 Nbd7 Bd2 dxc4"},
	{40, "e4 e5 Nf3 Nc6 Bb5 a6 Ba4 Nf6 O-O Be7"},
	{28, "e4 c5 Nf3 d6 d4 cxd4 Nxd4 Nf6 Nc3 a6"},
	{26, line2 + " b4 Be6 Bxe6 Rxe6"},
	{15, line2 + " Nf1 Be6 Bxe6 Rxe6 Ng3 d5"},
	{8, line2 + " Nf1 Be6 Bxe6 Rxe6 Be3 Bxe3 Nxe3 d5"},
	{4, line2 + " Nf1 Be6 Bb3 d5"},
	{18, "d4 Nf6 c4 e6 Nc3 Bb4 e3 O-O"},
}

var referencePlayers = []string{
	"Abenov, Temir", "Brandvold, Signe", "Castelhano, Rui", "Dobreva, Milena", "Eskelund, Thor", "Farrugia, Celia",
	"Grigoryan-Vail, Anna", "Hollander, Piet", "Ibarrondo, Jon", "Jastrow, Edda", "Kovalenchik, Taras",
}

// Reference returns the games that the demo's novelties are measured against, as PGN.
// They are as invented as its players: openings from memory, cut off where they end, and
// names, years and results that follow a plain count.
func Reference() []byte {
	var out strings.Builder
	n := 0
	for _, line := range referenceLines {
		for range line.games {
			writeGame(&out, n, line.moves)
			n++
		}
	}
	return []byte(out.String())
}

func writeGame(out *strings.Builder, n int, moves string) {
	players := len(referencePlayers)
	white, black := n%players, (n+1+n/players%(players-1))%players
	result := []string{"1-0", "1/2-1/2", "0-1", "1/2-1/2", "1-0"}[n%5]
	for _, tag := range [][2]any{
		{"Event", fmt.Sprintf("Velmarin Spring Open %d", 2009+n*7%16)}, {"Date", fmt.Sprintf("%d.04.%02d", 2009+n*7%16, 1+n%9)},
		{"Round", 1 + n%9}, {"White", referencePlayers[white]}, {"Black", referencePlayers[black]}, {"Result", result},
		{"WhiteElo", 2310 + n*37%340}, {"BlackElo", 2310 + n*53%340}, {"TimeControl", "5400+30"}, {"Mode", "OTB"},
	} {
		fmt.Fprintf(out, "[%s \"%v\"]\n", tag[0], tag[1])
	}
	out.WriteByte('\n')
	for i, san := range strings.Fields(moves) {
		if i%2 == 0 {
			fmt.Fprintf(out, "%d. ", i/2+1)
		}
		out.WriteString(san + " ")
	}
	fmt.Fprintf(out, "%s\n\n", result)
}
