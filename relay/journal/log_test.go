package journal

import (
	"context"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"
)

func entry(n int) LogEntry {
	return LogEntry{
		Seq: int64(n), At: start.Add(time.Duration(n) * time.Second), Board: n % 3, Kind: []string{"move", "alert"}[n%2], Ply: n,
		Was: "well", Is: "short", Text: fmt.Sprintf("entry %d", n),
	}
}

func entriesOf(ns ...int) []LogEntry {
	var entries []LogEntry
	for _, n := range ns {
		entries = append(entries, entry(n))
	}
	return entries
}

// TestLog asks for entries, while they wait and when they are written.
func TestLog(t *testing.T) {
	dir := t.TempDir()
	j := mustOpen(t, options(dir))
	write := func(entries []LogEntry) {
		t.Helper()
		if err := j.WriteLog(entries); err != nil {
			t.Fatal(err)
		}
	}
	write(entriesOf(1, 2, 3, 4, 5, 6))
	through(t, j, failure(1)) // they ride on its commit
	if s := j.Stats(); s.Commits != 1 {
		t.Errorf("%d commits", s.Commits)
	}
	write(entriesOf(7, 8, 9, 10))
	changed := entry(4)
	changed.Text = "another text"
	write([]LogEntry{changed, entry(9)}) // they are there already
	at := func(n int) time.Time { return entry(n).At }
	check := func() {
		t.Helper()
		for _, c := range []struct {
			LogQuery
			want []int
		}{
			{LogQuery{}, []int{1, 2, 3, 4, 5, 6, 7, 8, 9, 10}},
			{LogQuery{Board: 1}, []int{1, 4, 7, 10}},
			{LogQuery{Kind: "alert"}, []int{1, 3, 5, 7, 9}},
			{LogQuery{Board: 2, Kind: "move"}, []int{2, 8}},
			{LogQuery{Since: at(5), Until: at(8)}, []int{5, 6, 7, 8}},
			{LogQuery{Limit: 3}, []int{8, 9, 10}},
			{LogQuery{Kind: "move", Until: at(8), Limit: 2}, []int{6, 8}},
			{LogQuery{Kind: "nothing"}, nil},
		} {
			got, err := j.Log(c.LogQuery)
			if want := entriesOf(c.want...); err != nil || len(got)+len(want) > 0 && !reflect.DeepEqual(got, want) {
				t.Errorf("%+v gives %v, %v; want %v", c.LogQuery, got, err, c.want)
			}
		}
	}
	check()
	mustClose(t, j) // writes what waits
	j = mustOpen(t, options(dir))
	check()
	r, err := Read(context.Background(), dir)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	if got, err := r.Log(LogQuery{Limit: -1}); err != nil || !reflect.DeepEqual(got, entriesOf(1, 2, 3, 4, 5, 6, 7, 8, 9, 10)) {
		t.Errorf("the recording gives %v, %v", got, err)
	}
}

// TestLogLimit writes more than Log returns unless asked.
func TestLogLimit(t *testing.T) {
	j := mustOpen(t, options(t.TempDir()))
	for n := range logLimit + 10 {
		if err := j.WriteLog(entriesOf(n)); err != nil {
			t.Fatal(err)
		}
	}
	j.commit(nil)
	for limit, want := range map[int]int{0: logLimit, -1: logLimit + 10, 7: 7} {
		if got, err := j.Log(LogQuery{Limit: limit}); err != nil || len(got) != want || got[len(got)-1].Seq != logLimit+9 {
			t.Errorf("limit %d gives %d entries, %v", limit, len(got), err)
		}
	}
}

// TestLogWaitsWithinLimits fills the queue while nothing is written.
func TestLogWaitsWithinLimits(t *testing.T) {
	j := mustOpen(t, options(t.TempDir()))
	if err := j.WriteLog(make([]LogEntry, logWaitingMost)); err != nil {
		t.Fatal(err)
	}
	if err := j.WriteLog(entriesOf(1)); err == nil || !strings.Contains(err.Error(), "10001 log entries") {
		t.Errorf("one more: %v", err)
	}
	j.commit(nil)
	if err := j.WriteLog(entriesOf(1)); err != nil {
		t.Error(err)
	}
}

// TestLogUsesItsIndices asks SQLite how it would look for entries.
func TestLogUsesItsIndices(t *testing.T) {
	j := mustOpen(t, options(t.TempDir()))
	for where, index := range map[string]string{"board = 1": "log_board", "kind = 'move'": "log_kind", "at < 5": "log_at"} {
		var a, b, c int
		var plan string
		row := j.readers.QueryRow("EXPLAIN QUERY PLAN SELECT * FROM log WHERE " + where)
		if err := row.Scan(&a, &b, &c, &plan); err != nil || !strings.Contains(plan, index) {
			t.Errorf("%s: %s, %v", where, plan, err)
		}
	}
}
