package optimize

import (
	"context"
	"math/rand"
	"testing"
	"time"
)

// Weighable amounts of drawn households. Reports the median.
func BenchmarkWeigh(b *testing.B) {
	r := rand.New(rand.NewSource(3))
	var times []float64
	for b.Loop() {
		h := randomHousehold(r)
		p, err := formulate(h, &h.Pets[0])
		if err != nil || p.rows[0].a[0] <= 0 {
			continue
		}
		s, err := p.stages(context.Background(), nil)
		if err != nil || s.farkas != nil {
			continue
		}
		at := time.Now()
		if _, err := weigh(p, s); err != nil {
			b.Fatal(err)
		}
		times = append(times, float64(time.Since(at).Nanoseconds()))
	}
	b.ReportMetric(quantile(times, 0.5), "ns/median")
	b.ReportMetric(quantile(times, 0.99), "ns/p99")
	b.ReportMetric(quantile(times, 1), "ns/max")
}
