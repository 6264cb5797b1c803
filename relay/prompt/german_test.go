package prompt

import (
	"os"
	"strings"
	"testing"
	"time"

	"clocktell/relay/clock"
)

// TestNumbersOfICU: the numbers are those that another program spells out, see the files.
func TestNumbersOfICU(t *testing.T) {
	for _, in := range []Language{English, German} {
		text, err := os.ReadFile("testdata/numbers-" + in.Code() + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimSpace(string(text)), "\n")[1:]
		if len(lines) != 100 {
			t.Fatalf("%s: %d numbers, want 0 to 99", in.Code(), len(lines))
		}
		for n, want := range lines {
			if got := in.Number(n); got != want {
				t.Errorf("%s: %d is %q, want %q", in.Code(), n, got, want)
			}
		}
		if in.Number(100) != "100" || in.Number(-1) != "-1" {
			t.Errorf("%s: %q and %q, want figures", in.Code(), in.Number(100), in.Number(-1))
		}
	}
}

// "anderthalb" and "zweieinhalb" are how German says halves; from memory.
func TestGermanSpan(t *testing.T) {
	for d, want := range map[time.Duration]string{
		0: "null Sekunden", sec: "eine Sekunde", 9 * sec: "neun Sekunden", 22 * sec: "etwa zwanzig Sekunden", 25 * sec: "fünfundzwanzig Sekunden",
		55 * sec: "etwa eine Minute", 60 * sec: "eine Minute", 66 * sec: "über eine Minute", 90 * sec: "anderthalb Minuten",
		96 * sec: "über anderthalb Minuten", 118 * sec: "etwa zwei Minuten", 150 * sec: "zweieinhalb Minuten", 161 * sec: "über zweieinhalb Minuten",
		21 * time.Minute: "einundzwanzig Minuten", 21*time.Minute + 30*sec: "einundzwanzigeinhalb Minuten", 100*time.Minute + 30*sec: "über 100 Minuten",
	} {
		if got := German.Span(d); got != want {
			t.Errorf("%v is %q, want %q", d, got, want)
		}
	}
}

func TestGermanCount(t *testing.T) {
	for n, want := range map[int]string{
		2: "zwei", 20: "zwanzig", 21: "21", 214: "über 200", 250: "250", 1000: "1000", 1999: "über 1500", 10_000: "10\u00a0000",
		214_512: "über 214\u00a0000", 1_000_000: "1 Million", 1_000_001: "über 1 Million", 3_400_000: "über 3 Millionen",
	} {
		if got := German.Count(n); got != want {
			t.Errorf("%d is %q, want %q", n, got, want)
		}
	}
}

// TestGermanSpoken: moves as they are read aloud; common practice, no source.
func TestGermanSpoken(t *testing.T) {
	for san, want := range map[string]string{
		"e4": "e4", "exd5": "e schlägt d5", "Nf3": "Springer f3", "Nbd7": "Springer b d7", "R7h6+": "Turm 7 h6 Schach", "Nxc6": "Springer schlägt c6",
		"Bxc6": "Läufer schlägt c6", "Qa6xb7#": "Dame a6 schlägt b7 matt", "Ke2": "König e2", "O-O": "kurze Rochade", "O-O-O+": "lange Rochade Schach",
		"e8=Q": "e8 Dame", "fxg1=N+": "f schlägt g1 Springer Schach", "": "",
	} {
		if got := German.Spoken(san); got != want {
			t.Errorf("%s is read %q, want %q", san, got, want)
		}
	}
}

// TestGermanWords reads the sentences that have parts.
func TestGermanWords(t *testing.T) {
	in, b := German, Budget{Move: 9 * sec, Usual: 70 * sec, ToControl: 1, Below: 60 * sec, AtMove: 31, From: 28, To: 35}
	for _, test := range []struct{ got, want string }{
		{InPreparation(in, "Weiß", "Schwarz", 9, 41*sec).Text, "Weiß spielt noch aus der Vorbereitung, während Schwarz schon nachdenkt."},
		{InPreparation(in, "A", "", 1, -12*sec).Evidence, "nach 1 Zug mit bekannter Zeit stand die Uhr 0:12 unter dem Anfangswert"},
		{InPreparation(in, "A", "", 9, 400*time.Millisecond).Evidence, "nach 9 Zügen mit bekannter Zeit stand die Uhr auf dem Anfangswert"},
		{LeftPreparation(in, "A", 15, 161*sec, 0, true).Text, "A ist aus der Vorbereitung: über zweieinhalb Minuten für Zug fünfzehn."},
		{LeftPreparation(in, "A", 8, 8*sec, 12*sec, false).Text, "A ist spätestens seit Zug acht aus der Vorbereitung."},
		{LeftPreparation(in, "A", 8, 8*sec, 12*sec, false).Evidence, "0:08 für Zug 8; zuletzt 0:12 pro Zug"},
		{TimeTrouble(in, "A", 2, 60*sec, b).Text, "A ist in Zeitnot: keine Minute mehr auf der Uhr."},
		{TimeTrouble(in, "A", 2, 100*sec, b).Text, "A ist in Zeitnot: keine zwei Minuten mehr auf der Uhr."},
		{TimeTrouble(in, "A", 3, 36*sec, b).Text, "A hat keine vierzig Sekunden mehr auf der Uhr."},
		{TimeTrouble(in, "A", 3, 90*sec, b).Text, "A hat keine anderthalb Minuten mehr auf der Uhr."},
		{TimeTrouble(in, "A", 3, sec, b).Text, "A hat keine Sekunde mehr auf der Uhr."},
		{TimeTrouble(in, "A", 1, sec, b).Evidence, "Budget 9 s pro Zug; denkt sonst meist 1:10; noch 1 Zug bis zur Kontrolle; unter 1:00 etwa mit Zug 31 (wohl 28 bis 35)"},
		{ToControl(in, "A", 40, b).Text, "Für A wird die Zeit bis zur Kontrolle in Zug vierzig knapp."},
		{OnIncrement(in, "A", true, b).Text, "A lebt jetzt nur noch vom Zeitaufschub."},
		{ClockLead(in, "A", Lead{By: 246 * sec, Mine: 20 * sec, Yours: 12 * sec, Moves: 12}).Evidence, "4:06 Vorsprung, als es auffiel; Budget 20 s pro Zug gegen 12 s; das sind 12 Züge"},
		{Novelty(in, New{Move: 9, SAN: "Nxc6", Reached: 214}).Text, "Neuerung in Zug neun: Hier kam in über 200 Partien noch nie Springer schlägt c6."},
		{Novelty(in, New{Move: 9, SAN: "Qa6xb7#", Reached: 214}).Text, "Neuerung in Zug neun: Das kam hier in über 200 Partien noch nie."},
		{Novelty(in, New{Move: 9, SAN: "h4", Reached: 1, Went: "O-O"}).Text, "Neue Stellung: In der einzigen Vorgängerpartie kam in Zug neun kurze Rochade."},
		{Novelty(in, New{Move: 9, SAN: "h4", Reached: 3, Elsewhere: 1, Usual: "c4", UsualGames: 2}).Evidence, "meistgespielt: c4 in 2 von 3; 1 nicht gezählte Partie hat ihn"},
		{Rare(in, Few{Move: 9, SAN: "h4", Games: 1}).Text, "Nur eine Partie hat diese Stellung erreicht."},
		{in.Prepared(8, 11, 14, 34), "sonst meist 11 Züge Vorbereitung (8 bis 14 in der Hälfte von 34 Partien)"},
		{in.Colour(clock.White) + ", " + in.Colour(clock.Black), "Weiß, Schwarz"},
	} {
		if test.got != test.want {
			t.Errorf("got %q, want %q", test.got, test.want)
		}
	}
}
