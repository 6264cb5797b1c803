package metrics

import "github.com/prometheus/client_golang/prometheus"

// EngineFigures is what is known of the engine, since the start.
type EngineFigures struct {
	Searches, Restarts uint64
	Faults             map[string]uint64 // by reason, from a fixed list whose every word is present
	Queue              int               // searches that wait, now
	Running            bool              // a process that answers is there, now
}

var (
	engineSearches = desc("engine_searches_total", "Searches that the engine was given.")
	engineRestarts = desc("engine_restarts_total", "Times that the engine had to be started again.")
	engineFaults   = desc("engine_faults_total", "Faults of the engine.", "reason")
	engineQueue    = desc("engine_queue_length", "Searches that wait for the engine.")
	engineRunning  = desc("engine_running", "1 while the engine runs and answers; without an engine there is no such series.")
)

func (m *Metrics) collectEngine(out chan<- prometheus.Metric) {
	if m.Engine == nil {
		return
	}
	e := m.Engine()
	out <- counter(engineSearches, e.Searches)
	out <- counter(engineRestarts, e.Restarts)
	for reason, n := range e.Faults {
		out <- counter(engineFaults, n, reason)
	}
	out <- gauge(engineQueue, float64(e.Queue))
	out <- gauge(engineRunning, truth(e.Running))
}
