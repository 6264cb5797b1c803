package main

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"net/http"
	"os"
	"strconv"
	"strings"
	"time"
)

// sample is what a relay costs at one time.
type sample struct {
	at time.Time
	usage
	heap       float64 // bytes
	goroutines float64
	edges      []edgeSample
	done       done
}

// usage is what a process takes of the machine.
type usage struct {
	cpu time.Duration // since it started
	rss float64       // bytes
}

// The unit of /proc/PID/stat on all Linux that Go runs on (proc(5), sysconf(_SC_CLK_TCK)).
const tick = time.Second / 100

// gauge reads what a relay costs.
type gauge struct {
	address string
	pid     int // 0: somewhere else; its metrics tell all
	now     func() time.Time
}

// read takes a sample: of a child from /proc, else, and for what only it knows, from its metrics.
func (g gauge) read(ctx context.Context) (sample, error) {
	s := sample{at: g.now()}
	if g.pid != 0 {
		if err := s.fromProc(g.pid); err != nil {
			return s, err
		}
	}
	figures, err := scrape(ctx, g.address)
	if err != nil {
		return s, err
	}
	s.heap, s.goroutines = figures["go_memstats_heap_inuse_bytes"], figures["go_goroutines"]
	if g.pid == 0 {
		s.rss = figures["process_resident_memory_bytes"]
		s.cpu = time.Duration(figures["process_cpu_seconds_total"] * float64(time.Second))
	}
	return s, nil
}

func (s *usage) fromProc(pid int) error { return s.fromStat(fmt.Sprintf("/proc/%d/stat", pid)) }

func (s *usage) fromStat(file string) error {
	stat, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	_, rest, _ := strings.Cut(string(stat), ") ")
	fields := strings.Fields(rest) // from the third, the state
	if len(fields) < 22 {
		return errors.New("/proc/PID/stat has too few fields")
	}
	user, err1 := strconv.ParseInt(fields[11], 10, 64)
	system, err2 := strconv.ParseInt(fields[12], 10, 64)
	pages, err3 := strconv.ParseInt(fields[21], 10, 64)
	s.cpu = time.Duration(user+system) * tick
	s.rss = float64(pages) * float64(os.Getpagesize())
	return errors.Join(err1, err2, err3)
}

// scrape reads the metrics that have no labels.
func scrape(ctx context.Context, address string) (map[string]float64, error) {
	ctx, cancel := context.WithTimeout(ctx, dialWait)
	defer cancel()
	request, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+address+"/metrics", nil)
	if err != nil {
		return nil, err
	}
	request.Header.Set("Accept-Encoding", "identity") // compressing would cost the relay more than the figures
	resp, err := http.DefaultClient.Do(request)
	if err != nil {
		return nil, err
	}
	defer resp.Body.Close()
	if resp.StatusCode != http.StatusOK {
		return nil, fmt.Errorf("metrics: %s", resp.Status)
	}
	figures := make(map[string]float64)
	lines := bufio.NewScanner(resp.Body)
	for lines.Scan() {
		if name, text, ok := strings.Cut(lines.Text(), " "); ok && name != "#" {
			if value, err := strconv.ParseFloat(text, 64); err == nil {
				figures[name] = value
			}
		}
	}
	return figures, lines.Err()
}

// share is how much of one core was used between two samples.
func share(from, to sample) float64 {
	if wall := to.at.Sub(from.at); wall > 0 {
		return float64(to.cpu-from.cpu) / float64(wall)
	}
	return 0
}

// slope is by how much a figure grows in an hour, by the line that fits best.
func slope(samples []sample, of func(sample) float64) float64 {
	var n, sx, sy, sxx, sxy float64
	for _, s := range samples {
		x, y := s.at.Sub(samples[0].at).Hours(), of(s)
		n, sx, sy, sxx, sxy = n+1, sx+x, sy+y, sxx+x*x, sxy+x*y
	}
	if d := n*sxx - sx*sx; d != 0 {
		return (n*sxy - sx*sy) / d
	}
	return 0
}
