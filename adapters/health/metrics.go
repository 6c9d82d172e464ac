// Package health is what an operator sees of the running program from outside:
// whether it lives, whether it is ready, and counters for Prometheus.
//
// No label and no value ever holds what a maker typed, nor a token.
package health

import (
	"time"

	"github.com/prometheus/client_golang/prometheus"
	"github.com/prometheus/client_golang/prometheus/promauto"
)

// Metrics are the counters of one adapter. NewMetrics makes one; the zero value
// is useless.
type Metrics struct {
	answers      *prometheus.CounterVec
	refusals     *prometheus.CounterVec
	faults       *prometheus.CounterVec
	duplicates   prometheus.Counter
	late         *prometheus.CounterVec
	latency      *prometheus.HistogramVec
	connected    *prometheus.GaugeVec
	reconnects   prometheus.Counter
	waits        *prometheus.CounterVec
	waitSeconds  prometheus.Counter
	requestError *prometheus.CounterVec
}

// NewMetrics registers the counters of the named platform ("discord") with
// reg. It panics where the same platform is registered twice, as Prometheus
// does.
func NewMetrics(reg prometheus.Registerer, platform string) *Metrics {
	metrics := promauto.With(prometheus.WrapRegistererWith(prometheus.Labels{"platform": platform}, reg))
	counter := func(name, help string, labels ...string) *prometheus.CounterVec {
		return metrics.NewCounterVec(prometheus.CounterOpts{Name: name, Help: help}, labels)
	}
	return &Metrics{
		answers:      counter("guildhand_answers_total", "Answers sent, by request.", "request"),
		refusals:     counter("guildhand_refusals_total", "Refusals sent, by request.", "request"),
		faults:       counter("guildhand_faults_total", "Bugs met while answering, by request.", "request"),
		duplicates:   counter("guildhand_duplicates_total", "Events seen again and not answered again.").WithLabelValues(),
		late:         counter("guildhand_late_total", "Answers found undelivered, by how they ended: found, edited, answered, channel, direct, expired.", "outcome"),
		reconnects:   counter("guildhand_reconnects_total", "Connections opened again after a drop.").WithLabelValues(),
		waits:        counter("guildhand_rate_limit_waits_total", "Waits for a rate limit, by kind: told (429) or ahead (by the headers).", "kind"),
		waitSeconds:  counter("guildhand_rate_limit_wait_seconds_total", "Seconds waited for rate limits.").WithLabelValues(),
		requestError: counter("guildhand_platform_errors_total", "Requests to the platform that failed, by what was wanted.", "call"),
		latency: metrics.NewHistogramVec(prometheus.HistogramOpts{
			Name:    "guildhand_latency_seconds",
			Help:    "From the event to the delivered answer, by request.",
			Buckets: []float64{.01, .025, .05, .1, .25, .5, 1, 2, 3, 5, 10, 30, 60},
		}, []string{"request"}),
		connected: metrics.NewGaugeVec(prometheus.GaugeOpts{
			Name: "guildhand_connected", Help: "1 while the connection (shard) is up.",
		}, []string{"shard"}),
	}
}

// Answered counts an answer that was delivered and the time it took.
func (m *Metrics) Answered(request string, took time.Duration) {
	m.answers.WithLabelValues(request).Inc()
	m.latency.WithLabelValues(request).Observe(took.Seconds())
}

// Refused counts a refusal that was delivered and the time it took. The
// request is empty if the line could not be read.
func (m *Metrics) Refused(request string, took time.Duration) {
	m.refusals.WithLabelValues(request).Inc()
	m.latency.WithLabelValues(request).Observe(took.Seconds())
}

// Fault counts a bug that kept a request from its answer.
func (m *Metrics) Fault(request string) { m.faults.WithLabelValues(request).Inc() }

// Duplicate counts an event that came again.
func (m *Metrics) Duplicate() { m.duplicates.Inc() }

// Late counts how an undelivered answer ended.
func (m *Metrics) Late(outcome string) { m.late.WithLabelValues(outcome).Inc() }

// Connected sets whether the shard is up.
func (m *Metrics) Connected(shard string, up bool) {
	v := 0.0
	if up {
		v = 1
	}
	m.connected.WithLabelValues(shard).Set(v)
}

// Reconnected counts a connection opened again.
func (m *Metrics) Reconnected() { m.reconnects.Inc() }

// Waited counts a wait for a rate limit. Told is true where the platform
// refused with 429, false where its headers said so beforehand.
func (m *Metrics) Waited(told bool, wait time.Duration) {
	kind := "ahead"
	if told {
		kind = "told"
	}
	m.waits.WithLabelValues(kind).Inc()
	m.waitSeconds.Add(wait.Seconds())
}

// PlatformError counts a request to the platform that failed; call is a short
// word such as "edit", never an address.
func (m *Metrics) PlatformError(call string) { m.requestError.WithLabelValues(call).Inc() }
