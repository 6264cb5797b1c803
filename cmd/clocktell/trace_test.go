package main

import (
	"context"
	"encoding/json"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/tracing"
	"github.com/chromedp/chromedp"
)

// traceEvent is an event of the browser's trace: times are microseconds.
type traceEvent struct {
	Name, Ph string
	Pid, Tid int
	Dur      float64
	TDur     float64 `json:"tdur"` // CPU time of its thread
	Args     struct{ Name string }
}

// traced returns the CPU time of each task of the page's main thread while f runs.
func traced(t *testing.T, ctx context.Context, f func()) []time.Duration {
	t.Helper()
	var mu sync.Mutex // protects events
	var events []traceEvent
	complete := make(chan struct{})
	err := chromedp.Listen(ctx, func(event any) {
		switch e := event.(type) {
		case *tracing.EventDataCollected:
			text, _ := json.Marshal(e.Value)
			var some []traceEvent
			if err := json.Unmarshal(text, &some); err != nil {
				t.Error(err)
			}
			mu.Lock()
			events = append(events, some...)
			mu.Unlock()
		case *tracing.EventTracingComplete:
			close(complete)
		}
	})
	if err != nil {
		t.Fatal(err)
	}
	config := tracing.TraceConfig{IncludedCategories: []string{"toplevel", "devtools.timeline", "__metadata"}, ExcludedCategories: []string{"*"}}
	page(t, ctx, "starting the trace", command(tracing.Start, tracing.StartParams{TraceConfig: &config}))
	f()
	page(t, ctx, "ending the trace", command(tracing.End, cdp.Empty{}))
	select {
	case <-complete:
	case <-ctx.Done():
		t.Fatal("the trace did not come")
	}
	mu.Lock()
	defer mu.Unlock()
	return mainTasks(events)
}

// mainTasks are the tasks of the one thread that runs the scripts of a page and has most of them.
func mainTasks(events []traceEvent) []time.Duration {
	type thread struct{ pid, tid int }
	main := make(map[thread]bool)
	for _, e := range events {
		if e.Name == "thread_name" && e.Args.Name == "CrRendererMain" {
			main[thread{e.Pid, e.Tid}] = true
		}
	}
	tasks := make(map[thread][]time.Duration)
	var most []time.Duration
	for _, e := range events {
		at := thread{e.Pid, e.Tid}
		if e.Ph == "X" && main[at] && (e.Name == "RunTask" || e.Name == "ThreadControllerImpl::RunTask") {
			tasks[at] = append(tasks[at], time.Duration(e.TDur*float64(time.Microsecond)))
			if len(tasks[at]) > len(most) {
				most = tasks[at]
			}
		}
	}
	return most
}
