package text

import (
	"bytes"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/household/supplies"
	"bowlwright/report"
	"bowlwright/report/internal/sample"
)

// TestBatchWords: one container is no "containers", shelves are headed as heads are.
func TestBatchWords(t *testing.T) {
	base := sample.Base(t)
	b, err := supplies.NewBatchSheet(base, []household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}, supplies.BatchOrder{Days: 1, Date: household.NewDate(2026, 11, 25)})
	if err != nil {
		t.Fatal(err)
	}
	var text bytes.Buffer
	if err := Batch(&text, b, Options{}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"  1 container in all, ", "\n  Vegetables\n", "g waste)"} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("%q is not in:\n%s", want, &text)
		}
	}
	for _, group := range []string{"egg", "supplement", "to have ready", "beef"} {
		if name := report.ShelfName(group); name[0] < 'A' || name[0] > 'Z' {
			t.Errorf("the shelf of %s is headed %q", group, name)
		}
	}
}
