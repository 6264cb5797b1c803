package config

import (
	"errors"
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"
)

const shipped = "../../configs/clocktell.toml"

func noEnv(string) (string, bool) { return "", false }

// TestShippedFile holds the annotated file to the defaults it claims to show.
func TestShippedFile(t *testing.T) {
	got, err := Load(shipped, noEnv)
	if err != nil {
		t.Fatal(err)
	}
	want := Default()
	feed := DefaultFeed()
	feed.Name, feed.URL = "arena", "http://127.0.0.1:8601/games.pgn"
	if len(got.Feeds) != 1 || got.Feeds[0] != feed {
		t.Errorf("feeds = %+v, want one of %+v", got.Feeds, feed)
	}
	if !reflect.DeepEqual(got.Engine, emptied(want.Engine)) || !reflect.DeepEqual(got.Second, emptied(want.Second)) {
		t.Errorf("engines = %+v and %+v, want none with the defaults", got.Engine, got.Second)
	}
	if got.Match.given() || got.Match.Boards != want.Match.Boards || got.Match.Plan() != nil {
		t.Errorf("match = %+v, want none", got.Match)
	}
	if got.Show != want.Show || got.Server != want.Server || got.Access != want.Access || got.Log != want.Log || got.Journal != want.Journal || got.Bus != want.Bus || got.Reference != want.Reference {
		t.Errorf("got %+v, want the defaults %+v", got, want)
	}
}

// emptied returns an engine whose lists are there, without anything in them.
func emptied(e Engine) Engine {
	e.Args, e.Options = []string{}, map[string]string{}
	return e
}

// TestEveryKeyIsShown finds keys that the annotated file forgot.
func TestEveryKeyIsShown(t *testing.T) {
	text, err := os.ReadFile(shipped)
	if err != nil {
		t.Fatal(err)
	}
	lines := lineNumbers(string(text))
	for _, key := range []string{
		"show.title", "show.max_boards", "show.time_control", "show.language", "show.caption", "server.listen", "server.max_pages",
		"server.max_connections", "server.max_connections_each", "server.tls_cert", "server.tls_key", "access.dir", "journal.dir", "journal.max_bytes", "journal.resume_within", "log.level",
		"reference.file", "reference.min_rating", "reference.from_year", "reference.to_year", "reference.over_the_board", "reference.time_class",
		"engine.command", "engine.args", "engine.options", "engine.threads", "engine.memory", "engine.nice", "engine.lines", "engine.movetime",
		"engine.deep_movetime", "second_engine.command", "second_engine.args", "second_engine.options", "second_engine.threads",
		"second_engine.memory", "second_engine.nice", "second_engine.lines", "second_engine.movetime", "second_engine.deep_movetime",
		"match.first", "match.second", "match.games", "match.boards", "match.race", "match.opens", "match.tie_breaks", "match.favours",
		"bus.url", "bus.listen", "bus.dir", "bus.show", "bus.pair", "bus.replicas", "bus.max_bytes", "bus.token_env",
		"match.results", "match.score", "match.rounds", "match.lineup", "match.ratings",
		"feed[0].name", "feed[0].url", "feed[0].file", "feed[0].folder", "feed[0].push", "feed[0].stdin", "feed[0].growing",
		"feed[0].backup_of", "feed[0].every", "feed[0].every_idle", "feed[0].timeout", "feed[0].max_wait", "feed[0].late_after",
		"feed[0].stale_after", "feed[0].max_bytes", "feed[0].time_control", "feed[0].delay", "feed[0].delay_kind",
		"feed[0].white_clock", "feed[0].black_clock", "feed[0].clock_read", "feed[0].token_env", "feed[0].user_env", "feed[0].password_env",
	} {
		if lines[key] == 0 {
			t.Errorf("%s does not show %s", shipped, key)
		}
	}
	if got, want := len(lines), 85+11; got != want { // 85 keys, 11 tables
		t.Errorf("%s has %d keys and tables, the list above has %d", shipped, got, want)
	}
}

const minimal = "[[feed]]\nname = \"a\"\nfile = \"x.pgn\"\n"

func TestDefaultsFillIn(t *testing.T) {
	c, err := Parse("f", minimal, noEnv)
	if err != nil {
		t.Fatal(err)
	}
	if c.Feeds[0].Every.Duration != time.Second || c.Server.Listen != "127.0.0.1:8600" {
		t.Errorf("defaults not filled in: %+v", c)
	}
}

// TestLargeShow: 200 boards on 12 feeds are within the limits.
func TestLargeShow(t *testing.T) {
	text := "[show]\nmax_boards = 200\n"
	for i := range 12 {
		text += fmt.Sprintf("[[feed]]\nname = \"hall-%d\"\nurl = \"http://h%d/games.pgn\"\n", i+1, i+1)
	}
	c, err := Parse("f", text, noEnv)
	if err != nil || c.Show.MaxBoards != 200 || len(c.Feeds) != 12 {
		t.Errorf("%d boards, %d feeds, %v", c.Show.MaxBoards, len(c.Feeds), err)
	}
}

func TestErrors(t *testing.T) {
	for _, test := range []struct{ name, text, want string }{
		{"not toml", "[show]\ntitle = oops\n", "f:2: show.title: expected value but found"},
		{"unknown key", minimal + "evry = \"1s\"\n", "f:4: feed.evry: is not a key of clocktell; see configs/clocktell.toml for all of them"},
		{"unknown table", minimal + "[shwo]\n", "f:4: shwo: is not a key of clocktell"},
		{"unknown key of a table", "[show]\ntitel = \"x\"\n" + minimal, "f:2: show.titel: is not a key"},
		{"wrong type", "[show]\nmax_boards = \"ten\"\n" + minimal, "f:2: show.max_boards: needs a whole number, not a text in quotes"},
		{"table as value", "show = 3\n" + minimal, "f:1: show: is a table"},
		{"feed in single brackets", "[feed]\nname = \"a\"\n", "f:1: feed: is a list of tables: write [[feed]]"},
		{"text without quotes", "[show]\ntitle = 3\n" + minimal, "f:2: show.title: needs a text in quotes, not a whole number"},
		{"no unit", minimal + "every = \"5\"\n", `f:4: feed.every: needs a time with its unit, such as "1.5s" or "2m"`},
		{"number for a time", minimal + "every = 5\n", `f:4: feed.every: needs a time with its unit`},
		{"too fast", minimal + "every = \"1ms\"\n", "f:4: feed.every: 1ms is out of range; 100ms to 10m0s"},
		{"stale before late", minimal + "late_after = \"20s\"\n", "f:1: feed.stale_after: 15s is out of range; late_after, 20s, to 1h0m0s"},
		{"wait below every", minimal + "max_wait = \"500ms\"\n", "f:4: feed.max_wait: 500ms is out of range; every, 1s, to 1h0m0s"},
		{"no feed", "[show]\n", "f: feed: there is no feed; add a table [[feed]]"},
		{"no name", "[[feed]]\nfile = \"x\"\n", `f:1: feed.name: "" is not a name`},
		{"odd name", "[[feed]]\nname = \"Main Hall\"\nfile = \"x\"\n", `f:2: feed.name: "Main Hall" is not a name`},
		{"two of a name", minimal + minimal, `f:5: feed.name: "a" names two feeds`},
		{"second feed", minimal + "[[feed]]\nname = \"b\"\nfile = \"y\"\nmax_bytes = 3\n", "f:7: feed.max_bytes: 3 is out of range"},
		{"url and file", minimal + "url = \"http://h/\"\n", "f:4: feed.url: give exactly one of url, file, folder, push"},
		{"neither", "[[feed]]\nname = \"a\"\n", "f:1: feed.url: give exactly one of"},
		{"scheme", "[[feed]]\nname = \"a\"\nurl = \"ftp://h/x\"\n", "f:3: feed.url: is not an address"},
		{"secret in url", "[[feed]]\nname = \"a\"\nurl = \"http://me:pw@h/x\"\n", "f:3: feed.url: holds a user or password"},
		{"secret missing", minimal + "token_env = \"NO_SUCH\"\n", "f:4: feed.token_env: the environment has no NO_SUCH"},
		{"boards", "[show]\nmax_boards = 0\n" + minimal, "f:2: show.max_boards: 0 is out of range; 1 to 500"},
		{"control", "[show]\ntime_control = \"soon\"\n" + minimal, "f:2: show.time_control: "},
		{"language", "[show]\nlanguage = \"xx\"\n" + minimal, `f:2: show.language: "xx" is no language of the prompts; there are "en", "de"`},
		{"no language", "[show]\nlanguage = \"\"\n" + minimal, `f:2: show.language: "" is no language`},
		{"listen", "[server]\nlisten = \"8600\"\n" + minimal, `f:2: server.listen: "8600" is not host:port`},
		{"pages", "[server]\nmax_pages = -1\n" + minimal, "f:2: server.max_pages: -1 is out of range"},
		{"bus address", "[bus]\nurl = \"http://h\"\n" + minimal, "f:2: bus.url: is not an address of a bus"},
		{"secret on the bus", "[bus]\nurl = \"nats://me@h\"\n" + minimal, "f:2: bus.url: holds a user or a token"},
		{"two buses", "[bus]\nurl = \"nats://h\"\nlisten = \"127.0.0.1:1\"\n" + minimal, "f:3: bus.listen: give either url"},
		{"no folder for the bus", "[bus]\nlisten = \"127.0.0.1:1\"\n" + minimal, "f:1: bus.dir: is missing"},
		{"a bus open to all", "[bus]\nlisten = \"0.0.0.0:1\"\ndir = \"d\"\n" + minimal, "f:1: bus.token_env: is missing"},
		{"bus at nothing", "[bus]\nlisten = \"4222\"\n" + minimal, `f:2: bus.listen: "4222" is not host:port`},
		{"name on the bus", "[bus]\nshow = \"My Show\"\n" + minimal, `f:2: bus.show: "My Show" is not a name`},
		{"replicas", "[bus]\nreplicas = 9\n" + minimal, "f:2: bus.replicas: 9 is out of range; 1 to 5"},
		{"room on the bus", "[bus]\nmax_bytes = 9\n" + minimal, "f:2: bus.max_bytes: 9 is out of range"},
		{"token of the bus", "[bus]\ntoken_env = \"NO_SUCH\"\n" + minimal, "f:2: bus.token_env: the environment has no NO_SUCH"},
		{"pair without bus", "[bus]\npair = true\n" + minimal, "f:2: bus.pair: needs url"},
		{"pair on its own bus", "[bus]\npair = true\nlisten = \"127.0.0.1:1\"\ndir = \"d\"\n" + minimal, "f:2: bus.pair: a pair needs a bus of its own"},
		{"pair at one keyboard", "[bus]\npair = true\nurl = \"nats://h\"\n[[feed]]\nname = \"a\"\nstdin = true\n", `f:2: bus.pair: feed "a" reads standard input`},
		{"growing file", minimal + "growing = true\n", "f:4: feed.growing: is for a url"},
		{"push to anyone", "[[feed]]\nname = \"a\"\npush = true\n", "f:3: feed.push: needs token_env"},
		{"no such primary", minimal + "backup_of = \"b\"\n", `f:4: feed.backup_of: there is no feed "b"`},
		{"own backup", minimal + "backup_of = \"a\"\n", "f:4: feed.backup_of: a feed cannot back up itself"},
		{"backup of a backup", minimal + "[[feed]]\nname = \"b\"\nfile = \"y\"\nbackup_of = \"a\"\n[[feed]]\nname = \"c\"\nfile = \"z\"\nbackup_of = \"b\"\n",
			`f:11: feed.backup_of: "b" is a backup itself; name its primary, "a"`},
		{"two of stdin", "[[feed]]\nname = \"a\"\nstdin = true\n[[feed]]\nname = \"b\"\nstdin = true\n", "f:6: feed.stdin: only one feed"},
		{"small journal", "[journal]\nmax_bytes = 5\n" + minimal, "f:2: journal.max_bytes: 5 is out of range"},
		{"long memory", "[journal]\nresume_within = \"1000h\"\n" + minimal, "f:2: journal.resume_within: 1000h0m0s is out of range"},
		{"connections", "[server]\nmax_connections = 0\n" + minimal, "f:2: server.max_connections: 0 is out of range"},
		{"connections from one", "[server]\nmax_connections_each = 100001\n" + minimal, "f:2: server.max_connections_each: 100001 is out of range"},
		{"certificate alone", "[server]\ntls_cert = \"a.pem\"\n" + minimal, "f:2: server.tls_cert: needs tls_key"},
		{"key alone", "[server]\ntls_key = \"a.pem\"\n" + minimal, "f:2: server.tls_key: needs tls_cert"},
		{"threads", "[engine]\nthreads = 0\n" + minimal, "f:2: engine.threads: 0 is out of range; 1 to 512"},
		{"memory", "[engine]\nmemory = 0\n" + minimal, "f:2: engine.memory: 0 is out of range; 1 to 1048576"},
		{"nice", "[second_engine]\nnice = 20\n" + minimal, "f:2: second_engine.nice: 20 is out of range; 0 to 19"},
		{"lines", "[engine]\nlines = 9\n" + minimal, "f:2: engine.lines: 9 is out of range; 1 to 8"},
		{"movetime", "[engine]\nmovetime = \"1ms\"\n" + minimal, "f:2: engine.movetime: 1ms is out of range; 100ms to 10m0s"},
		{"deep", "[engine]\ndeep_movetime = \"1s\"\n" + minimal, "f:2: engine.deep_movetime: 1s is out of range; movetime, 5s, to 1h0m0s, or 0s"},
		{"alone", "[second_engine]\ncommand = \"x\"\n" + minimal, "f:2: second_engine.command: there is no engine to compare it with; set command under [engine] first"},
		{"own option", "[engine]\noptions = { hash = \"5\" }\n" + minimal, `f:2: engine.options: "hash" has a key of its own, memory`},
		{"two lines", "[engine]\noptions = { A = \"5\\nquit\" }\n" + minimal, `f:2: engine.options: "A" needs a name and a value of one line each`},
		{"idle below every", minimal + "every_idle = \"500ms\"\n", "f:4: feed.every_idle: 500ms is out of range; every, 1s,"},
		{"control of a feed", minimal + "time_control = \"soon\"\n", "f:4: feed.time_control: "},
		{"kind of delay", minimal + "delay_kind = \"slow\"\n", `f:4: feed.delay_kind: "slow" is no kind of delay; there are "simple" and "bronstein"`},
		{"long delay", minimal + "delay = \"1h\"\n", "f:4: feed.delay: a delay of 1h0m0s is out of range; 0s to 10m0s"},
		{"clock at the start", minimal + "black_clock = \"5\"\n", `f:4: feed.black_clock: clock reading "5": must be h:mm:ss`},
		{"reading", minimal + "clock_read = \"later\"\n", `f:4: feed.clock_read: "later" is none of auto, after, before`},
		{"short caption", "[show]\ncaption = \"1s\"\n" + minimal, "f:2: show.caption: 1s is out of range; 4s to 1h, or 0s"},
		{"rating between hundreds", "[reference]\nmin_rating = 2450\n" + minimal, "f:2: reference.min_rating: 2450 is not a rating in hundreds; 0 to 4000"},
		{"no such rating", "[reference]\nmin_rating = 4100\n" + minimal, "f:2: reference.min_rating: 4100 is not a rating"},
		{"short year", "[reference]\nfrom_year = 99\n" + minimal, "f:2: reference.from_year: 99 is not a year; 1400 to 2200, or 0 for any"},
		{"far year", "[reference]\nto_year = 2201\n" + minimal, "f:2: reference.to_year: 2201 is not a year"},
		{"years backwards", "[reference]\nfrom_year = 2020\nto_year = 2010\n" + minimal, "f:3: reference.to_year: 2010 is before from_year, 2020"},
		{"time class", "[reference]\ntime_class = \"slow\"\n" + minimal, `f:2: reference.time_class: "slow" is none of rapid, blitz, standard`},
		{"level", "[log]\nlevel = \"loud\"\n" + minimal, `f:2: log.level: "loud" is none of`},
	} {
		t.Run(test.name, func(t *testing.T) {
			_, err := Parse("f", test.text, noEnv)
			if err == nil {
				t.Fatalf("no error, want %q", test.want)
			}
			if !strings.HasPrefix(err.Error(), test.want) {
				t.Errorf("got  %q\nwant %q…", err, test.want)
			}
			if strings.Contains(err.Error(), "pw@") {
				t.Errorf("the error shows a secret: %v", err)
			}
		})
	}
}

// TestAllErrorsAtOnce: one run of check should tell everything.
func TestAllErrorsAtOnce(t *testing.T) {
	_, err := Parse("f", "[show]\nmax_boards = 0\nfoo = 1\n"+minimal+"every = \"1ms\"\n", noEnv)
	if got := strings.Count(err.Error(), "\n") + 1; got != 3 {
		t.Errorf("%d errors, want 3:\n%v", got, err)
	}
	var key *KeyError
	if !errors.As(err, &key) || key.Line == 0 {
		t.Errorf("no KeyError with a line in %v", err)
	}
}

func TestSecretsComeFromTheEnvironment(t *testing.T) {
	env := func(name string) (string, bool) { return "value of " + name, true }
	c, err := Parse("f", minimal+"token_env = \"T\"\nuser_env = \"U\"\npassword_env = \"P\"\n", env)
	if err != nil {
		t.Fatal(err)
	}
	if f := c.Feeds[0]; f.Token != "value of T" || f.User != "value of U" || f.Password != "value of P" {
		t.Errorf("secrets = %q %q %q", f.Token, f.User, f.Password)
	}
}

func TestMissingFile(t *testing.T) {
	_, err := Load("no/such.toml", noEnv)
	if err == nil || !strings.Contains(err.Error(), "no/such.toml") || !strings.Contains(err.Error(), "--config") {
		t.Errorf("err = %v, want the file and the way out", err)
	}
}

// TestQuietFeeds: what speaks only when a move is made is not stale in between, and a
// slow rhythm is not slower than its idle one.
func TestQuietFeeds(t *testing.T) {
	env := func(string) (string, bool) { return "secret", true }
	c, err := Parse("f", "[[feed]]\nname = \"a\"\npush = true\ntoken_env = \"T\"\nstale_after = \"11m\"\n"+
		"[[feed]]\nname = \"b\"\nurl = \"http://h/\"\nevery = \"6s\"\n", env)
	if err != nil {
		t.Fatal(err)
	}
	if a := c.Feeds[0]; a.LateAfter.Duration != quietLate || a.StaleAfter.Duration != 11*time.Minute || a.Kind() != KindPush {
		t.Errorf("push: kind %q, late %v, stale %v", a.Kind(), a.LateAfter, a.StaleAfter)
	}
	if b := c.Feeds[1]; b.EveryIdle.Duration != 6*time.Second {
		t.Errorf("idle %v, want no less than every", b.EveryIdle)
	}
}

// TestCounted: which games count, in words for panel and health.
func TestCounted(t *testing.T) {
	for want, r := range map[string]Reference{
		"": {},
		"both players 2400 or more, 2010 to 2020": {MinRating: 2400, FromYear: 2010, ToYear: 2020},
		"since 2010, rapid, over the board":       {FromYear: 2010, TimeClass: "rapid", OverTheBoard: true},
		"up to 1999":                              {ToYear: 1999},
	} {
		if got := r.Counted(); got != want {
			t.Errorf("%+v: got %q, want %q", r, got, want)
		}
	}
}
