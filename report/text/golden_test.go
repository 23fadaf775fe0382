package text

import (
	"bytes"
	"testing"

	"bowlwright/household"
	"bowlwright/household/supplies"
	"bowlwright/report/internal/sample"
)

func TestBatchTextGolden(t *testing.T) {
	base := sample.Base(t)
	both := []household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base), sample.Pair(t, sample.Short(sample.Plan("Tansy", base)), base)}
	whole, err := supplies.NewBatchSheet(base, both, supplies.BatchOrder{Date: household.NewDate(2026, 11, 25)})
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := Batch(&text, whole, Options{}); err != nil {
		t.Fatal(err)
	}
	sample.Golden(t, "batch.txt", text.String())
}
