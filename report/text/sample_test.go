package text

import (
	"bytes"
	"testing"

	"bowlwright/household"
	"bowlwright/report/internal/sample"
)

func cardText(t *testing.T, p *household.Plan, base *household.Batch, o Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := Card(&b, sample.Pair(t, p, base), o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func planText(t *testing.T, p *household.Plan, base *household.Batch, o Options) string {
	t.Helper()
	var b bytes.Buffer
	if err := Plan(&b, sample.Pair(t, p, base), o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}
