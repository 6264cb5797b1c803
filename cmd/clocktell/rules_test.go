package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"log/slog"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/grafana/grafana-foundation-sdk/go/cog/plugins"
	"github.com/grafana/grafana-foundation-sdk/go/dashboard"

	"clocktell/relay"
	"clocktell/relay/config"
	"clocktell/relay/metrics"
)

// scraped returns the metrics of a relay that has everything there is: two feeds, a
// journal, an engine, a bus.
func scraped(t *testing.T) string {
	t.Helper()
	c := config.Default()
	c.Journal.Dir = t.TempDir()
	for _, name := range []string{"arena", "backup"} {
		f := config.DefaultFeed()
		f.Name, f.URL = name, "http://127.0.0.1:1/"
		c.Feeds = append(c.Feeds, f)
	}
	st, err := newStation(context.Background(), c, relay.NewTimebase(1), slog.New(slog.DiscardHandler))
	if err != nil {
		t.Fatal(err)
	}
	defer st.close()
	st.figures.Engine = func() metrics.EngineFigures { return metrics.EngineFigures{Faults: map[string]uint64{"crash": 0}} }
	st.figures.Bus = func() metrics.Bus { return metrics.Bus{Show: "show"} }
	w := httptest.NewRecorder()
	st.figures.Handler().ServeHTTP(w, httptest.NewRequest("GET", "/metrics", nil))
	body, err := io.ReadAll(w.Body)
	if err != nil {
		t.Fatal(err)
	}
	return string(body)
}

// TestPromtool lets Prometheus's own tool judge the metrics, the rules, their tests, and
// the configuration.
func TestPromtool(t *testing.T) {
	promtool(t, scraped(t), "check", "metrics")
	promtool(t, "", "check", "config", "prometheus.yml")
	promtool(t, "", "check", "rules", "--lint-fatal", "clocktell.rules.yml")
	if out := promtool(t, "", "test", "rules", "clocktell.rules.test.yml"); !strings.Contains(out, "SUCCESS") {
		t.Errorf("no success in %s", out)
	}
}

// TestEveryAlertIsTested: a rule without a test that it fires, in the file that promtool
// runs, is none that holds.
func TestEveryAlertIsTested(t *testing.T) {
	rules, tests := shipped(t, "clocktell.rules.yml"), shipped(t, "clocktell.rules.test.yml")
	alerts := regexp.MustCompile(`- alert: (\w+)`).FindAllStringSubmatch(rules, -1)
	for _, alert := range alerts {
		if !strings.Contains(tests, `alertname="`+alert[1]+`"`) {
			t.Errorf("no test that %s fires", alert[1])
		}
	}
	for _, word := range []string{"severity:", "summary:", "description:"} {
		if n := strings.Count(rules, word); n != len(alerts) || n < 20 {
			t.Errorf("%d alerts, %d times %s", len(alerts), n, word)
		}
	}
}

func shipped(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../../configs", name))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

var (
	seriesLine = regexp.MustCompile(`(?m)^(\w+)(?:\{(.*)\})? \S+$`)
	labelPair  = regexp.MustCompile(`(\w+)(=~|!~|!=|=)"([^"]*)"`)
	selector   = regexp.MustCompile(`\b((?:clocktell|process|go)_\w+)(?:\{([^}]*)\})?`)
	familyLine = regexp.MustCompile(`(?m)^# TYPE (\w+) histogram$`)
)

// selects reports whether one of the series, each as its labels are written, has what the
// matchers ask for.
func selects(series []string, matchers string) bool {
	for _, labels := range series {
		has, all := make(map[string]string), true
		for _, pair := range labelPair.FindAllStringSubmatch(labels, -1) {
			has[pair[1]] = pair[3]
		}
		for _, m := range labelPair.FindAllStringSubmatch(matchers, -1) {
			if m[1] == "job" || m[1] == "instance" || m[1] == "show" {
				continue // of the scrape; of a configuration
			}
			value, known := has[m[1]]
			pattern := regexp.QuoteMeta(m[3])
			if strings.HasSuffix(m[2], "~") {
				pattern = m[3]
			}
			equal := regexp.MustCompile("^(?:" + pattern + ")$").MatchString(value)
			all = all && known && equal == strings.HasPrefix(m[2], "=")
		}
		if all {
			return true
		}
	}
	return false
}

// TestRulesNameWhatThereIs: every series that the rules, their tests and the dashboard
// name is one that the relay exports, with those labels and those values.
func TestRulesNameWhatThereIs(t *testing.T) {
	text, series := scraped(t), make(map[string][]string)
	for _, line := range seriesLine.FindAllStringSubmatch(text, -1) {
		series[line[1]] = append(series[line[1]], line[2])
	}
	for _, family := range familyLine.FindAllStringSubmatch(text, -1) {
		series[family[1]] = []string{""} // named in words
	}
	for _, name := range []string{"clocktell.rules.yml", "clocktell.rules.test.yml", "clocktell.dashboard.json"} {
		named := selector.FindAllStringSubmatch(strings.ReplaceAll(shipped(t, name), `\"`, `"`), -1)
		if len(named) < 30 {
			t.Errorf("%s names %d series: not all were found", name, len(named))
		}
		for _, s := range named {
			if found := series[s[1]]; !selects(found, strings.ReplaceAll(s[2], "5.0", "5")) {
				t.Errorf("%s: %s selects nothing of %q", name, s[0], found)
			}
		}
	}
}

// TestDashboardLoads decodes the dashboard with every field known to the types that its
// program publishes for Go, plugins of panels and queries included, and lets promtool
// parse its queries.
func TestDashboardLoads(t *testing.T) {
	plugins.RegisterDefaultPlugins()
	text := shipped(t, "clocktell.dashboard.json")
	if wrong := dashboardFaults(text); wrong != "" {
		t.Error(wrong)
	}
	for _, known := range []string{`"fillOpacity"`, `"legendFormat"`, `"wideLayout"`, `"includeAll"`} {
		if dashboardFaults(strings.Replace(text, known, `"xyz"`, 1)) == "" {
			t.Errorf("a misspelt %s is not found: the check sees nothing", known)
		}
	}
	ids, taken := make(map[int]bool), make(map[[2]int]string)
	for _, p := range panelsOf(t) {
		if ids[p.ID] {
			t.Errorf("%s: another panel has its id", p.Title)
		}
		ids[p.ID] = true
		for x := p.GridPos.X; x < p.GridPos.X+p.GridPos.W; x++ {
			for y := p.GridPos.Y; y < p.GridPos.Y+p.GridPos.H; y++ {
				if x >= 24 || taken[[2]int{x, y}] != "" {
					t.Fatalf("%s lies over %q or beyond the edge", p.Title, taken[[2]int{x, y}])
				}
				taken[[2]int{x, y}] = p.Title
			}
		}
	}
	rules := "groups:\n  - name: queries\n    rules:\n"
	for i, expr := range dashboardQueries(t) {
		rules += fmt.Sprintf("      - {record: 'query:%d', expr: %q}\n", i, expr)
	}
	promtool(t, "", "check", "rules", write(t, "queries.yml", rules))
}

// dashboardFaults tells what is wrong with a dashboard, "" if nothing.
func dashboardFaults(text string) string {
	//lint:ignore SA1019 every version that is in use loads this format; the one that replaces it only new ones
	var d dashboard.Dashboard
	if err := d.UnmarshalJSONStrict([]byte(text)); err != nil && err.Error() != "" { // it returns an empty list as an error
		return err.Error()
	}
	if err := d.Validate(); err != nil && err.Error() != "" {
		return err.Error()
	}
	return ""
}

// dashboardPanel is what these tests read of a panel of the dashboard.
type dashboardPanel struct {
	ID      int
	Title   string
	Targets []struct{ Expr string }
	GridPos struct{ X, Y, W, H int }
}

func panelsOf(t *testing.T) []dashboardPanel {
	t.Helper()
	var d struct{ Panels []dashboardPanel }
	if err := json.Unmarshal([]byte(shipped(t, "clocktell.dashboard.json")), &d); err != nil {
		t.Fatal(err)
	}
	return d.Panels
}

// dashboardQueries returns the queries of the dashboard, its variables filled in.
func dashboardQueries(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, p := range panelsOf(t) {
		for _, target := range p.Targets {
			out = append(out, strings.NewReplacer("$__rate_interval", "1m", "$instance", ".+").Replace(target.Expr))
		}
	}
	if len(out) < 30 {
		t.Errorf("%d queries: not all were found", len(out))
	}
	return out
}
