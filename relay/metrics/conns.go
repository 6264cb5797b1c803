package metrics

import "github.com/prometheus/client_golang/prometheus"

var (
	connsOpen    = desc("connections", "Connections open, those of pages included.")
	connsRefused = desc("connections_refused_total", "Connections closed at once because too many were open, in all or from one address.", "limit")
	wrongTokens  = desc("wrong_tokens_total", "Tokens shown that are nobody's, of pages and calls or of pushes.", "of")
)

func (m *Metrics) collectConns(out chan<- prometheus.Metric) {
	if m.Conns == nil {
		return
	}
	c := m.Conns()
	out <- gauge(connsOpen, float64(c.Open))
	out <- counter(connsRefused, c.RefusedAll, "all")
	out <- counter(connsRefused, c.RefusedOfOne, "address")
	out <- counter(wrongTokens, c.WrongTokens, "pages")
	out <- counter(wrongTokens, c.WrongTokensOfPush, "push")
}
