package recap

var german = Words{
	Code: "de", Pieces: "KDTLS", Date: "{}. {} {}",
	Months: [12]string{"Januar", "Februar", "März", "April", "Mai", "Juni", "Juli", "August", "September", "Oktober", "November", "Dezember"},

	White: "Weiß", Black: "Schwarz",
	WhiteWon: "{} gewann mit Weiß", BlackWon: "{} gewann mit Schwarz", Drawn: "Remis", UnderWay: "Noch im Gange, als dies geschrieben wurde",
	NoMoves: "Es wurde kein Zug gespielt.", Round: "Runde {}", Board: "Brett {}", Game: "Partie {}", Moves: "{} Züge", OneMove: "1 Zug",
	Score: "Stand im Wettkampf {}", NotShown: "Weiter ist die Partie nicht erzählt: {}", Control: "{} für jede Seite",
	Key: "Schlüsselmomente", After: "Nach {}", Start: "Am Anfang",
	LongestThink: "Am längsten nachgedacht wurde hier: {} über {}.", OwnThink: "{} denkt hier am längsten nach: {} über {}.",
	Turned: "Hier schlug die zweite Meinung um: {} vor {}, {} danach.", Mates: "{} setzt in {} matt",
	ShownThen: "In der Sendung gezeigt: {}", Left: "noch {}", Spent: "{} für diesen Zug",
	SaidTitle: "In der Sendung gesagt", SaidNone: "Nichts wurde als gesagt abgehakt.", OnAir: "eingeblendet",
	LinesTitle: "Gezeigte Varianten", ShownAfter: "In der Sendung gezeigt",
	AskedTitle: "Den Zuschauern gestellt", Question: "Frage an die Zuschauer", Answer: "Antwort", Seconds: "{} Sekunden Bedenkzeit",
	MovesTitle: "Die Züge, mit Bedenkzeiten ab {}", MovesPlain: "Die Züge", ByHand: "von Hand eingegeben",
	ClocksTitle: "Wo die Zeit blieb", Range: "{}–{}", All: "gesamt",
	New: "neu", Preparation: "in der Vorbereitung", Unsure: "denkt wohl nach", Think: "denkt nach", Trouble: "Zeitnot", NoReading: "keine Uhrzeit",
	LineTitle: "Die Partie als Zeit", LineNote: "Ein Block ist so breit, wie nachgedacht wurde. Was er bedeutet, ist eine Wahrscheinlichkeit aus den Uhren, keine Diagnose.",
	NoClocks: "Zu dieser Partie nennt die Übertragung keine Uhrzeiten.", Doubts: "Nicht wie abgelesene Zeiten: {}.",

	BothPrepared: "Nach den Uhren spielte {} die ersten {} Züge aus der Vorbereitung, {} die ersten {}.", OnePrepared: "Nach den Uhren spielte {} die ersten {} Züge aus der Vorbereitung.",
	WasNew: "Neu für die Sammlung war {}.", InTrouble: "{} war ab Zug {} in Zeitnot.",

	Summary: "Die Sendung in Kürze", Title: "Rückblick", Games: "Partien",
	LongestOfDay: "Am längsten nachgedacht wurde {}, von {} über {} (Brett {}).",
	SaidCount:    "{} Sätze wurden gesagt.", SaidOne: "Ein Satz wurde gesagt.",
	Longest: "längste Bedenkzeit", Novelty: "neuer Zug", Prompts: "gesagt", Used: "verbrauchte Zeit", Back: "Alle Partien",
	AllPGN: "Alle Partien, kommentiert, als PGN", OnePGN: "diese Partie als PGN",
	Diagram: "Stellung {}", MadeBy: "Stand der Sendung am {} UTC.", MovesHead: "Züge",
	ForEditing: "Für das Schnittprogramm", Chapters: "Kapitel", CueList: "Liste der Ereignisse", CutList: "Schnittliste",
}
