package serve

import (
	"net/http"
	"slices"
	"sync/atomic"
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/collectors"

	"latewood/api/internal/refuse"
	"latewood/woodphys/method"
)

// tally counts what the service does. It belongs to one service, so that two in
// one process do not mix.
type tally struct {
	registry *prometheus.Registry
	requests *prometheus.CounterVec
	seconds  *prometheus.HistogramVec
	byPath   map[string]*pathTally
	other    pathTally // of paths that do not exist
	inFlight prometheus.Gauge
	refused  *prometheus.CounterVec
	warnings map[string]prometheus.Counter // by method
	items    *prometheus.CounterVec
	heavy    prometheus.Histogram
	waited   prometheus.Histogram
	steps    prometheus.Counter

	simulated prometheus.Counter
}

// countedMethods are told apart; all others are counted as "other", so that a
// caller cannot make new series.
var countedMethods = []string{http.MethodGet, http.MethodHead, http.MethodPost, http.MethodOptions, MethodQuery}

// pathTally are the series of one route by method and class of status, made
// when they are first needed.
type pathTally struct {
	route  string
	series [6][6]atomic.Pointer[series]
}

type series struct {
	requests prometheus.Counter
	seconds  prometheus.Observer
}

// The buckets span a look-up (20 microseconds) and the longest search (10 s).
var (
	requestBuckets = []float64{0.00002, 0.00005, 0.0001, 0.0002, 0.0005, 0.001, 0.002, 0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10}
	heavyBuckets   = []float64{0.005, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10}
)

// build says what is running.
type build struct{ version, data string }

// newTally counts what is asked of the paths. methods are those that may warn; the turns
// and the memory of d are watched.
func newTally(running build, methods []*method.Method, paths []string, d *Desk) *tally {
	m := &tally{
		registry:  prometheus.NewRegistry(),
		requests:  prometheus.NewCounterVec(prometheus.CounterOpts{Name: "latewood_requests_total", Help: "Requests answered, by route pattern, method and class of status."}, []string{"route", "method", "status"}),
		seconds:   prometheus.NewHistogramVec(prometheus.HistogramOpts{Name: "latewood_request_seconds", Help: "Time to answer a request.", Buckets: requestBuckets}, []string{"route", "method", "status"}),
		inFlight:  prometheus.NewGauge(prometheus.GaugeOpts{Name: "latewood_requests_in_flight", Help: "Requests under way."}),
		refused:   prometheus.NewCounterVec(prometheus.CounterOpts{Name: "latewood_refused_total", Help: "Requests and items of batches sent away unread or undone, by kind of problem."}, []string{"reason"}),
		items:     prometheus.NewCounterVec(prometheus.CounterOpts{Name: "latewood_batch_items_total", Help: "Items of batches and streams, by class of status."}, []string{"status"}),
		heavy:     prometheus.NewHistogram(prometheus.HistogramOpts{Name: "latewood_heavy_seconds", Help: "Processor time of work that had a turn.", Buckets: heavyBuckets}),
		waited:    prometheus.NewHistogram(prometheus.HistogramOpts{Name: "latewood_turn_wait_seconds", Help: "Time that work waited for its turn.", Buckets: heavyBuckets}),
		steps:     prometheus.NewCounter(prometheus.CounterOpts{Name: "latewood_plan_steps_total", Help: "Steps of the searches for a plan."}),
		simulated: prometheus.NewCounter(prometheus.CounterOpts{Name: "latewood_drying_steps_total", Help: "Time steps of the simulations of drying and of the year in a room, of those refused too."}),
		byPath:    map[string]*pathTally{},
		warnings:  map[string]prometheus.Counter{},
	}
	warnings := prometheus.NewCounterVec(prometheus.CounterOpts{Name: "latewood_warnings_total", Help: "Warnings in answers, by the method that warns; without a method the service itself does."}, []string{"method"})
	m.warnings[""] = warnings.WithLabelValues("")
	for _, row := range methods {
		m.warnings[row.ID] = warnings.WithLabelValues(row.ID)
	}
	m.other.route = "none"
	for _, path := range paths {
		m.byPath[path] = &pathTally{route: path}
	}
	about := prometheus.NewGauge(prometheus.GaugeOpts{Name: "latewood_build_info", Help: "Always 1; the labels say what is running.",
		ConstLabels: prometheus.Labels{"version": running.version, "contract": ContractVersion, "data": running.data}})
	about.Set(1)
	turnsTaken := prometheus.NewGaugeFunc(prometheus.GaugeOpts{Name: "latewood_turns_taken", Help: "Turns taken by heavy work."}, func() float64 { return float64(d.seats.turns.Working()) })
	m.registry.MustRegister(m.requests, m.seconds, m.inFlight, m.refused, warnings, m.items, m.heavy, m.waited, m.steps, m.simulated, about, turnsTaken,
		collectors.NewGoCollector(), collectors.NewProcessCollector(collectors.ProcessCollectorOpts{}))
	return m
}

// answered counts one request.
func (m *tally) answered(path, method string, status int, took time.Duration) {
	p := m.byPath[path]
	if p == nil {
		p = &m.other
	}
	kind := slices.Index(countedMethods, method)
	if kind < 0 {
		kind, method = len(countedMethods), "other"
	}
	class := max(0, min(status/100, 5))
	one := p.series[kind][class].Load()
	if one == nil {
		label := statusClass(status)
		one = &series{m.requests.WithLabelValues(p.route, method, label), m.seconds.WithLabelValues(p.route, method, label)}
		p.series[kind][class].Store(one)
	}
	one.requests.Inc()
	one.seconds.Observe(took.Seconds())
}

func statusClass(status int) string { return string(rune('0'+max(0, min(status/100, 5)))) + "xx" }

// refuse counts a problem that says nothing about the question itself.
func (m *tally) refuse(p *refuse.Problem) {
	switch p.Status {
	case http.StatusUnauthorized, http.StatusRequestTimeout, http.StatusRequestEntityTooLarge, http.StatusTooManyRequests, http.StatusServiceUnavailable:
		m.refused.WithLabelValues(p.Kind()).Inc()
	}
}

// laborious is a result that tells how many steps the work took.
type laborious interface{ Steps() int64 }

// done counts the warnings of an answer, and the work where it tells.
func (m *tally) done(result any, warnings []method.Warning) {
	if l, ok := result.(laborious); ok {
		m.steps.Add(float64(l.Steps()))
	}
	for i := range warnings {
		if counter := m.warnings[warnings[i].Method]; counter != nil {
			counter.Inc()
		}
	}
}
