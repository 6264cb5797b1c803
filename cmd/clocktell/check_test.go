package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"clocktell/relay/config"
)

// toldReport is the JSON of clocktell check as the README describes it, written down a
// second time: what a program of somebody else reads.
type toldReport struct {
	Format             int    `json:"format"`
	Config             string `json:"config"`
	Fine               bool   `json:"fine"`
	Failures, Warnings int
	Checks             []struct {
		Area, Feed, State, Text, Do string
		Game                        int
	}
	Feeds []struct {
		Name, Kind, Address string
		Asked, Answered     bool
		TookMs              int64 `json:"took_ms"`
		Bytes               int64
		Skew                *struct {
			Ahead  float64 `json:"ahead_seconds"`
			Within float64 `json:"within_seconds"`
		}
		Games []struct {
			Number                     int
			Good                       bool
			White, Black, Round, Board string
			Plies, Clocks              int
			TimeControl                string `json:"time_control"`
			Faults, Doubts, Notes      []string
		}
	}
	Links []struct{ URL, Text string }
}

// decoded reads the JSON and refuses fields that are not described.
func decoded(t *testing.T, text string) toldReport {
	t.Helper()
	decoder := json.NewDecoder(strings.NewReader(text))
	decoder.DisallowUnknownFields()
	var r toldReport
	if err := decoder.Decode(&r); err != nil {
		t.Fatalf("%v in %s", err, text)
	}
	if decoder.More() || r.Format != 1 {
		t.Fatalf("more than one object, or of format %d", r.Format)
	}
	return r
}

// checkRow is a situation before a show.
type checkRow struct {
	name  string
	serve http.HandlerFunc // of the feed; nil: a good game
	more  string           // of the configuration, before the feed
	feed  string           // of the feed's table
	free  int64            // bytes left on the disk; 0: plenty

	area  string // of the finding looked for; "": all is fine, without a warning
	state state
	says  string // in its text
	do    string // in what to do
	also  string // area that fails besides
}

const goodGame = "[White \"A\"]\n[Black \"B\"]\n[TimeControl \"900+10\"]\n\n1. e4 {[%clk 0:15:08]} e5 {[%clk 0:15:07]} *\n"

// dated answers with a good game at a time of its own, and an age if there is one.
func dated(ahead time.Duration, age string) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) {
		w.Header().Set("Date", time.Now().Add(ahead).UTC().Format(http.TimeFormat))
		if age != "" {
			w.Header().Set("Age", age)
		}
		io.WriteString(w, goodGame)
	}
}

func controlled(control string) http.HandlerFunc {
	return answer(strings.Replace(goodGame, "900+10", control, 1))
}

func refusing(status int) http.HandlerFunc {
	return func(w http.ResponseWriter, _ *http.Request) { http.Error(w, "no", status) }
}

// checkRows is what may be wrong before a show.
var checkRows = []checkRow{
	{name: "all is well"},
	{name: "the feed is not there", serve: refusing(404), area: areaFeed, state: stateFails, says: "404", do: "address"},
	{name: "the feed wants a password", serve: refusing(401), area: areaFeed, state: stateFails, says: "401", do: "call whoever runs it"},
	{name: "the feed hangs", serve: func(_ http.ResponseWriter, r *http.Request) { <-r.Context().Done() }, feed: "timeout = \"100ms\"", area: areaFeed, state: stateFails, says: "within 0.1 s"},
	{name: "a web page", serve: answer("<!doctype html>"), area: areaFeed, state: stateFails, says: "does not hold PGN"},
	{name: "nothing", serve: answer(""), area: areaFeed, state: stateFails, says: "does not hold PGN"},
	{name: "nobody answers", feed: "url = \"http://127.0.0.1:1/\"", area: areaFeed, state: stateFails, says: "no connection", do: "call whoever runs it"},
	{name: "no such file", feed: "file = \"no/such.pgn\"", area: areaFeed, state: stateFails, says: "no/such.pgn"},
	{name: "a game that cannot be played", serve: answer(strings.Replace(goodGame, "e5", "Ke3", 1)), area: areaGame, state: stateFails, says: "not a legal move", do: "by hand"},
	{name: "a time control that is none", serve: controlled("a quarter of an hour"), area: areaGame, state: stateWarning, says: "TimeControl", do: "configuration"},
	{name: "no time control", serve: controlled(""), area: areaGame, state: stateWarning, says: "no time control", do: "configuration"},
	{name: "no time control, but configured", serve: controlled(""), feed: "time_control = \"900+10\""},
	{name: "another time control", serve: controlled("300+3"), area: areaGame, state: stateWarning, says: "15:08", do: "configuration"},
	{name: "no clocks", serve: answer("[White \"A\"]\n[Black \"B\"]\n[TimeControl \"900+10\"]\n\n1. e4 e5 *\n"), area: areaGame, state: stateWarning, says: "2 of 2 plies have no clock"},
	{name: "more games than boards", serve: answer(goodGame + strings.Replace(goodGame, "\"A\"", "\"C\"", 1)), more: "[show]\nmax_boards = 1", area: areaFeed, state: stateWarning, says: "2 games", do: "max_boards"},
	{name: "an address of another machine", more: "[server]\nlisten = \"192.0.2.1:8600\"", area: areaPort, state: stateFails, says: "192.0.2.1:8600", do: "listen", also: areaAccess}, // RFC 5737: of no machine
	{name: "open to all", more: "[server]\nlisten = \"0.0.0.0:0\"", area: areaAccess, state: stateFails, says: "anybody could watch", do: "[access]"},
	{name: "tokens over plain HTTP", more: "[server]\nlisten = \"0.0.0.0:0\"\n[access]\ndir = \"no/state\"", area: areaAccess, state: stateWarning, says: "first start", do: "tls_cert"},
	{name: "tokens below a file", more: "[access]\ndir = \"FILE/state\"", area: areaAccess, state: stateFails, says: "not a directory", do: "[access]"},
	{name: "a certificate that is none", more: "[server]\ntls_cert = \"FILE\"\ntls_key = \"FILE\"", area: areaAccess, state: stateFails, says: "PEM", do: "tls_cert"},
	{name: "no journal", more: "[journal]\ndir = \"\"", area: areaJournal, state: stateWarning, says: "none", do: "[journal]"},
	{name: "a journal below a file", more: "[journal]\ndir = \"FILE/journal\"", area: areaJournal, state: stateFails, says: "not a directory", do: "[journal]"},
	{name: "a journal where nobody can write", more: "[journal]\ndir = \"/proc/journal\"", area: areaJournal, state: stateFails, says: "/proc", do: "right to write"},
	{name: "a full disk", free: journalLeast - 1, area: areaDisk, state: stateFails, says: "67 MB left", do: "free some space"},
	{name: "a disk that will be full", free: journalLeast, area: areaDisk, state: stateWarning, says: "may still take 1.1 GB", do: "max_bytes"},
	{name: "a disk with just enough", free: 1 << 30},
	{name: "no bus", more: "[bus]\nurl = \"nats://127.0.0.1:1\"", area: areaBus, state: stateFails, says: "does not answer", do: "start the bus"},
	{name: "a bus in this process", more: "[bus]\nlisten = \"127.0.0.1:0\""},
	{name: "a bus at an address of another machine", more: "[bus]\nlisten = \"192.0.2.1:4222\"\ntoken_env = \"PATH\"", area: areaBus, state: stateFails, says: "192.0.2.1:4222", do: "listen under [bus]"}, // any token does
	{name: "a bus below a file", more: "[bus]\nlisten = \"127.0.0.1:0\"\ndir = \"FILE/bus\"", area: areaBus, state: stateFails, says: "not a directory", do: "dir under [bus]"},
	{name: "no such reference", more: "[reference]\nfile = \"no/such.ref\"", area: areaReference, state: stateFails, says: "no/such.ref", do: "reference build"},
	{name: "a reference that is none", more: "[reference]\nfile = \"FILE\"", area: areaReference, state: stateFails, says: "file.txt", do: "reference build"},
	{name: "no such engine", more: "[engine]\ncommand = \"no-such-engine\"", area: areaEngine, state: stateFails, says: "no-such-engine", do: "[engine]"},
	{name: "this clock is 90 s behind", serve: dated(90*time.Second, ""), area: areaClock, state: stateWarning, says: "s behind that of feed hall", do: "set its clock"},
	{name: "this clock is 90 s ahead", serve: dated(-90*time.Second, ""), area: areaClock, state: stateWarning, says: "s ahead of that of feed hall", do: "set its clock"},
	{name: "an error page with a wrong date", serve: func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Date", time.Now().Add(time.Hour).UTC().Format(http.TimeFormat))
		refusing(500)(w, r)
	}, area: areaClock, state: stateWarning, says: "s behind that of feed hall", also: areaFeed},
	{name: "a second is nothing", serve: dated(-time.Second, "")},
	{name: "a cache kept it for 90 s", serve: dated(-90*time.Second, "90")},
}

// TestCheckTable looks at every row as JSON and as text.
func TestCheckTable(t *testing.T) {
	for _, row := range checkRows {
		t.Run(row.name, func(t *testing.T) {
			row.run(t)
		})
	}
}

func (row *checkRow) run(t *testing.T) {
	handler := row.serve
	if handler == nil {
		handler = answer(goodGame)
	}
	server := httptest.NewServer(handler)
	defer server.Close()
	k := row.checker(t, server.URL)
	k.all(t.Context())
	var asJSON, asText bytes.Buffer
	err := k.report.tell(&asJSON, true)
	if told := k.report; told.Fine != (err == nil) || told.Fine != (row.state != stateFails && row.also == "") {
		t.Errorf("fine %v, error %v\n%s", told.Fine, err, &asJSON)
	}
	k.report.Failures, k.report.Warnings = 0, 0 // told once more
	k.report.tell(&asText, false)
	r, found := decoded(t, asJSON.String()), false
	for _, f := range r.Checks {
		if f.State == string(stateFine) {
			continue
		}
		if f.Do == "" {
			t.Errorf("%s: %s: nothing says what to do", f.Area, f.Text)
		}
		if f.Area == row.area && f.State == string(row.state) && strings.Contains(f.Text, row.says) && strings.Contains(f.Do, row.do) {
			found = true
		} else if f.Area != row.also {
			t.Errorf("found besides: %+v", f)
		}
		if !strings.Contains(asText.String(), f.Text) {
			t.Errorf("no %q in\n%s", f.Text, &asText)
		}
	}
	if row.area != "" && !found {
		t.Errorf("no %s finding of %q that says %q and %q in\n%s", row.state, row.area, row.says, row.do, &asText)
	}
	if len(r.Feeds) != 1 || r.Feeds[0].Name != "hall" || !r.Feeds[0].Asked {
		t.Errorf("feeds %+v", r.Feeds)
	}
}

// checker returns a checker of the row's configuration.
func (row *checkRow) checker(t *testing.T, url string) *checker {
	t.Helper()
	more := row.more
	if !strings.Contains(more, "[journal]") {
		more += fmt.Sprintf("\n[journal]\ndir = '%s'\n", t.TempDir())
	}
	if !strings.Contains(more, "[server]") {
		more += "\n[server]\nlisten = \"127.0.0.1:0\"\n"
	}
	feed := row.feed
	if !strings.Contains(feed, "url") && !strings.Contains(feed, "file") {
		feed += "\nurl = \"" + url + "\""
	}
	text := strings.ReplaceAll(more, "FILE", write(t, "file.txt", "text")) + "\n[[feed]]\nname = \"hall\"\n" + feed + "\n"
	c, err := config.Parse("show.toml", text, os.LookupEnv)
	if err != nil {
		t.Fatal(err)
	}
	free := func(string) (int64, error) { return cmp.Or(row.free, 1<<40), nil }
	return &checker{config: c, report: newCheckReport("show.toml"), now: time.Now, free: free}
}

// TestCheckPortInUse: whoever holds the port, a second clocktell cannot have it.
func TestCheckPortInUse(t *testing.T) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	file := write(t, "show.toml", "[server]\nlisten = \""+l.Addr().String()+"\"\n[[feed]]\nname = \"hall\"\nstdin = true\n")
	code, stdout, _ := call(t, "check", "--config", file)
	if code != 1 || !strings.Contains(stdout, "FAILS   port") || !strings.Contains(stdout, "clocktell runs already") {
		t.Errorf("exit %d\n%s", code, stdout)
	}
}

// TestCheckJSONOfTheCommand: the command tells JSON alone on standard output, also of a
// configuration that cannot be read, and its links are those that serve prints.
func TestCheckJSONOfTheCommand(t *testing.T) {
	games := write(t, "games.pgn", goodGame)
	file := write(t, "show.toml", "[server]\nlisten = \"127.0.0.1:18600\"\n[[feed]]\nname = \"hall\"\nfile = '"+games+"'\n")
	code, stdout, stderr := call(t, "check", "--json", "--config", file)
	r := decoded(t, stdout)
	if code != 0 || stderr != "" || !r.Fine || r.Warnings != 1 || r.Config != file || len(r.Feeds[0].Games) != 1 || r.Feeds[0].Skew != nil {
		t.Errorf("exit %d, %s\n%s", code, stderr, stdout)
	}
	if g := r.Feeds[0].Games[0]; !g.Good || g.White != "A" || g.Plies != 2 || g.Clocks != 2 || g.TimeControl != "15 min + 10 s" {
		t.Errorf("the game: %+v", g)
	}
	if len(r.Links) != len(links) || r.Links[0].URL != "http://127.0.0.1:18600/scene/board" {
		t.Errorf("links %+v", r.Links)
	}
	if err := os.WriteFile(games, []byte(goodGame+strings.Replace(goodGame, "\"A\"", "\"C\"", 1)), 0o600); err != nil {
		t.Fatal(err)
	}
	_, stdout, _ = call(t, "check", "--json", "--config", file)
	if told := decoded(t, stdout).Links; len(told) != len(links)+2 || told[len(links)+1].URL != "http://127.0.0.1:18600/scene/board?board=2" || !strings.HasPrefix(told[len(links)+1].Text, "C – B") {
		t.Errorf("links of two boards: %+v", told)
	}
	bad := write(t, "bad.toml", "[show]\ntitel = \"x\"\n")
	code, stdout, _ = call(t, "check", "--json", "--config", bad)
	if r := decoded(t, stdout); code != 1 || r.Fine || r.Failures != 1 || r.Checks[0].Area != areaConfig || !strings.Contains(r.Checks[0].Text, "titel") {
		t.Errorf("exit %d\n%s", code, stdout)
	}
	if code, _, _ = call(t, "check", "--json", "--jsno", "--config", bad); code != 2 {
		t.Errorf("wrong use: exit %d", code)
	}
}

// TestCheckLeavesNothing: no folder is made and no file stays.
func TestCheckLeavesNothing(t *testing.T) {
	dir := t.TempDir()
	near, err := writable(filepath.Join(dir, "a", "b"))
	if entries, _ := os.ReadDir(dir); err != nil || near != dir || len(entries) != 0 {
		t.Errorf("tried %s, %v; left %v", near, err, entries)
	}
}

// TestSkewHoldsTheTruth: whatever part of a second the server's clock stood at, and however
// long the answer took, the true difference lies within what is told.
func TestSkewHoldsTheTruth(t *testing.T) {
	start := time.Date(2026, 10, 17, 15, 0, 0, 0, time.UTC)
	for _, ahead := range []time.Duration{0, 90 * time.Second, -90 * time.Second, 300 * time.Millisecond} {
		for part := time.Duration(0); part < time.Second; part += 100 * time.Millisecond {
			for _, took := range []time.Duration{0, 300 * time.Millisecond, 4 * time.Second} {
				for _, made := range []time.Duration{0, took / 2, took} {
					sent := start.Add(part)
					date := sent.Add(made).Add(-ahead).Truncate(time.Second)
					var d dates
					d.note(sent, sent.Add(took), http.Header{"Date": {date.Format(http.TimeFormat)}})
					got, within, known := d.skew()
					if off := (got - ahead).Abs(); !known || off > within || within != (time.Second+took)/2 {
						t.Errorf("ahead %v, told %v ± %v", ahead, got, within)
					}
				}
			}
		}
	}
}

// TestCheckFieldsAreDescribed: the README names every field of the JSON, and every area that the
// source has.
func TestCheckFieldsAreDescribed(t *testing.T) {
	readme, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, section, _ := strings.Cut(string(readme), "`check --json`")
	section, _, _ = strings.Cut(section, "\n## ")
	for _, kind := range []any{checkReport{}, finding{}, checkedFeed{}, checkedSkew{}, checkedGame{}, checkedLink{}} {
		fields := reflect.TypeOf(kind)
		for i := range fields.NumField() {
			if name := fields.Field(i).Tag.Get("json"); name != "" && !strings.Contains(section, "`"+name+"`") {
				t.Errorf("the README does not describe %s of %s", name, fields.Name())
			}
		}
	}
	source, err := os.ReadFile("checkreport.go")
	if err != nil {
		t.Fatal(err)
	}
	areas := regexp.MustCompile(`area[A-Z]\w+ += "(\w+)"`).FindAllStringSubmatch(string(source), -1)
	_, row, _ := strings.Cut(section, "`area` ")
	row, _, _ = strings.Cut(row, ";")
	for _, area := range areas {
		if !slices.Contains(strings.FieldsFunc(row, func(r rune) bool { return r == ' ' || r == ',' }), area[1]) {
			t.Errorf("the README does not name the area %s", area[1])
		}
	}
	if len(areas) < 10 {
		t.Errorf("only %d areas in the source", len(areas))
	}
}
