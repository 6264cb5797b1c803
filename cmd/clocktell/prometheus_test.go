package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"maps"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

// program returns where a program of Debian's package prometheus is. Without it the test
// is skipped, but where CLOCKTELL_TESTS=all (as in .ci/run) it fails. CLOCKTELL_TESTS=relay
// leaves these programs out: there are no threads of ours in them.
func program(t *testing.T, name string) string {
	t.Helper()
	mode := os.Getenv("CLOCKTELL_TESTS")
	if mode == "relay" {
		t.Skip("CLOCKTELL_TESTS=relay leaves Prometheus out")
	}
	path, err := exec.LookPath(name)
	if err != nil && mode == "all" {
		t.Fatalf("%s is missing; install Debian's package prometheus", name)
	}
	if err != nil {
		t.Skipf("%s is missing; install Prometheus to run this test", name)
	}
	return path
}

// promtool runs promtool in the folder of the rules, and returns what it says.
func promtool(t *testing.T, stdin string, args ...string) string {
	t.Helper()
	c := exec.Command(program(t, "promtool"), args...)
	c.Dir, c.Stdin = "../../configs", strings.NewReader(stdin)
	out, err := c.CombinedOutput()
	if err != nil {
		t.Errorf("promtool %s: %v\n%s", strings.Join(args, " "), err, out)
	}
	return string(out)
}

// scrapeEvery is how often a test's Prometheus scrapes, and looks at its rules.
const scrapeEvery = "1s"

var forLine = regexp.MustCompile(`(?m)^( +for:) \S+$`)

// impatientFor is how long a condition must hold in tests: through one scrape that a busy
// machine was too slow for.
const impatientFor = "2s"

// impatientRules writes the shipped rules so that each fires soon after it holds.
func impatientRules(t *testing.T, dir string) {
	t.Helper()
	text, err := os.ReadFile("../../configs/clocktell.rules.yml")
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "rules.yml"), forLine.ReplaceAll(text, []byte("$1 "+impatientFor)), 0o600); err != nil {
		t.Fatal(err)
	}
}

// watcher is Debian's Prometheus that runs.
type watcher struct {
	t      *testing.T
	url    string
	client *http.Client
	log    *bytes.Buffer // read only once it has ended
}

// newWatcher starts Prometheus, which scrapes these addresses.
func newWatcher(t *testing.T, targets []string) *watcher {
	t.Helper()
	dir := t.TempDir()
	impatientRules(t, dir)
	quoted, err := json.Marshal(targets)
	if err != nil {
		t.Fatal(err)
	}
	text := fmt.Sprintf("global: {scrape_interval: %s, scrape_timeout: %s, evaluation_interval: %s}\nrule_files: [rules.yml]\nscrape_configs:\n  - job_name: clocktell\n    static_configs: [{targets: %s}]\n",
		scrapeEvery, scrapeEvery, scrapeEvery, quoted)
	if err := os.WriteFile(filepath.Join(dir, "prometheus.yml"), []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	address := freeAddress(t)
	w := &watcher{t: t, url: "http://" + address, client: &http.Client{Transport: &http.Transport{}, Timeout: rowPatience}, log: new(bytes.Buffer)}
	c := exec.Command(program(t, "prometheus"), "--config.file="+filepath.Join(dir, "prometheus.yml"), "--storage.tsdb.path="+filepath.Join(dir, "data"),
		"--web.listen-address="+address, "--log.level=warn")
	c.Stdout, c.Stderr = w.log, w.log
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		w.client.CloseIdleConnections()
		c.Process.Kill() // nothing of it is to be kept
		c.Wait()
		if t.Failed() {
			t.Logf("Prometheus: %s", w.log)
		}
	})
	return w
}

// get asks the HTTP API, and reports whether it answered.
func (w *watcher) get(path string, data any) bool {
	w.t.Helper()
	resp, err := w.client.Get(w.url + "/api/v1/" + path)
	if err != nil {
		return false // it is still starting
	}
	defer resp.Body.Close()
	body, err := io.ReadAll(resp.Body)
	if err != nil || resp.StatusCode != http.StatusOK {
		return false
	}
	if err := json.Unmarshal(body, &struct{ Data any }{data}); err != nil {
		w.t.Fatalf("%s: %v in %s", path, err, body)
	}
	return true
}

// until asks again and again until something holds; what says what is missing.
func (w *watcher) until(what func() string, holds func() bool) {
	w.t.Helper()
	again := time.NewTicker(100 * time.Millisecond)
	defer again.Stop()
	limit := time.After(2 * rowPatience)
	for !holds() {
		select {
		case <-again.C:
		case <-limit:
			w.t.Fatalf("waited in vain for %s", what())
		}
	}
}

// up waits until all targets but one have been scraped and every rule has been looked at.
func (w *watcher) up(down string) {
	w.t.Helper()
	var targets struct {
		ActiveTargets []struct {
			Labels    map[string]string
			Health    string
			LastError string
		}
	}
	var rules struct {
		Groups []struct {
			Rules []struct{ Name, Health, LastError string }
		}
	}
	w.until(func() string { return fmt.Sprintf("targets and rules: %+v %+v", targets, rules) }, func() bool {
		if !w.get("targets", &targets) || !w.get("rules", &rules) || len(targets.ActiveTargets) == 0 || len(rules.Groups) == 0 {
			return false
		}
		for _, target := range targets.ActiveTargets {
			if target.Health != "up" && target.Labels["instance"] != down {
				return false
			}
		}
		for _, rule := range rules.Groups[0].Rules {
			if rule.Health != "ok" {
				return false
			}
		}
		return true
	})
}

// raised is an alert that stood, at least for a moment.
type raised struct{ instance, alert string }

// raisedEver returns every alert that there was since the start.
func (w *watcher) raisedEver() map[raised]bool {
	w.t.Helper()
	var found struct {
		Result []struct{ Metric map[string]string }
	}
	out := make(map[raised]bool)
	if w.get("query?query="+url.QueryEscape(`count by (instance, alertname) (count_over_time(ALERTS{alertstate="firing"}[1h]))`), &found) {
		for _, r := range found.Result {
			out[raised{r.Metric["instance"], r.Metric["alertname"]}] = true
		}
	}
	return out
}

// words returns the annotations of alerts that stand, by the alert's name.
func (w *watcher) words() map[string]map[string]string {
	w.t.Helper()
	var found struct {
		Alerts []struct{ Labels, Annotations map[string]string }
	}
	out := make(map[string]map[string]string)
	if w.get("alerts", &found) {
		for _, a := range found.Alerts {
			out[a.Labels["alertname"]] = a.Annotations
		}
	}
	return out
}

// dashboardEmptyMost is how many queries of the dashboard may find nothing: those of the
// engine, which these relays have not, and of what did not happen.
const dashboardEmptyMost = 8

// draws looks whether the queries of the dashboard can be answered, and find something.
func (w *watcher) draws(queries []string) {
	w.t.Helper()
	var empty []string
	for _, query := range queries {
		var found struct{ Result []any }
		if !w.get("query?query="+url.QueryEscape(query), &found) {
			w.t.Errorf("the dashboard asks what cannot be answered: %s", query)
		}
		if len(found.Result) == 0 {
			empty = append(empty, query)
		}
	}
	if len(empty) > dashboardEmptyMost {
		w.t.Errorf("the dashboard asks in vain for\n%s", strings.Join(empty, "\n"))
	}
}

func namesOf(alerts map[raised]bool, instance string) []string {
	var out []string
	for a := range maps.Keys(alerts) {
		if a.instance == instance {
			out = append(out, a.alert)
		}
	}
	slices.Sort(out)
	return out
}
