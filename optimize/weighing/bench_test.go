package weighing

import (
	"context"
	"math/rand"
	"testing"
	"time"

	"bowlwright/fixtures/sample"
	"bowlwright/optimize/diet"
)

// Weighable amounts of drawn households. Reports the median.
//
// Measured on two cores in November 2026: 0.75 to 0.83 ms at the median, 7.5 ms at the
// 99th percentile, 9 ms at worst; budgets 2 ms and 50 ms.
func BenchmarkWeigh(b *testing.B) {
	r := rand.New(rand.NewSource(3))
	var times []float64
	for b.Loop() {
		h := sample.Draw(r)
		p, err := diet.Formulate(h, &h.Pets[0])
		if err != nil || p.Rows[0].A[0] <= 0 {
			continue
		}
		s, err := p.Solve(context.Background(), nil)
		if err != nil || s.Farkas != nil {
			continue
		}
		at := time.Now()
		if _, err := Weigh(p, s); err != nil {
			b.Fatal(err)
		}
		times = append(times, float64(time.Since(at).Nanoseconds()))
	}
	b.ReportMetric(sample.Quantile(times, 0.5), "ns/median")
	b.ReportMetric(sample.Quantile(times, 0.99), "ns/p99")
	b.ReportMetric(sample.Quantile(times, 1), "ns/max")
}
