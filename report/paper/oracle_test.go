package paper

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/report/internal/sample"
)

func TestCardReadsBack(t *testing.T) {
	base := sample.Base(t)
	p := sample.Pair(t, sample.Short(sample.Plan("Žofie Łuczak", base)), base)
	for _, paper := range []string{"a4", "letter"} {
		var b bytes.Buffer
		if err := Cards(&b, []household.Paired{p}, Options{Paper: paper}); err != nil {
			t.Fatal(err)
		}
		text := sample.PdfText(t, b.Bytes())
		for _, want := range []string{"Žofie Łuczak", p.Plan().Base.Code, "together 813 g a day", "407 g", "406 g", "Morning", "Evening", "4 g Premix",
			"2 capsules Vitamin E", "24 g Sardine, canned in water (about 2 tbsp)", "84.56 g Eggshell powder", "NOT ALL TARGETS ARE MET",
			"Iodine: 300 of 394 µg, 24 % missing", "20 g Carrot, raw", "Weigh again by 2026-12-25", "Fridge at 4 °C", "UNKNOWN (at least 718)"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is not in what pdftotext reads:\n%s", paper, want, text)
			}
		}
	}
}

// TestHalfCardsReadBack looks for both cards of a sheet on their own half of it.
func TestHalfCardsReadBack(t *testing.T) {
	program := sample.NeedProgram(t, "pdftotext")
	base := sample.Base(t)
	ps := []household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base), sample.Pair(t, sample.Plan("Tansy", base), base)}
	var b bytes.Buffer
	if err := Cards(&b, ps, Options{Paper: "a4", TwoUp: true}); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "half.pdf")
	if err := os.WriteFile(file, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	// A4 on its side is 842 by 595 points.
	for half, name := range []string{"Marlow", "Tansy"} {
		out, err := exec.Command(program, "-x", fmt.Sprint(421*half), "-y", "0", "-W", "421", "-H", "595", "-layout", file, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		text := strings.Join(strings.Fields(string(out)), " ")
		for _, want := range []string{name, base.Identity().Code, "813 g", "407 g", "Morning", "2 capsules", "40 of 41 nutrients", "Vitamin K: UNKNOWN", "Sun", "Weigh again by 2026-12-25"} {
			if !strings.Contains(text, want) {
				t.Errorf("half %d: no %q in:\n%s", half+1, want, text)
			}
		}
	}
}

func TestBatchReadsBack(t *testing.T) {
	base := sample.Base(t)
	ps := []household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}
	b, err := household.NewBatchSheet(base, ps, household.BatchOrder{Days: 4, Date: household.NewDate(2026, 11, 25)})
	if err != nil {
		t.Fatal(err)
	}
	var sheet, labels bytes.Buffer
	if err := Batch(&sheet, b, Options{Paper: "a4"}); err != nil {
		t.Fatal(err)
	}
	if err := Labels(&labels, b, DefaultLabels, true, Options{Paper: "a4"}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{b.Code, "3252 g cooked", "Marlow: 1 × 2439 g for 3 days", "Shopping list", "Weight of the cooked pot"} {
		if text := sample.PdfText(t, sheet.Bytes()); !strings.Contains(text, want) {
			t.Errorf("batch sheet: no %q in:\n%s", want, text)
		}
	}
	for _, want := range []string{"Marlow", b.Code, "2439 g of base for 3 days", "813 g of base for 1 day", "morning: 407 g, evening: 406 g", "Fridge until 2026-11-28", "freezer until 2027-01-24"} {
		if text := sample.PdfText(t, labels.Bytes()); !strings.Contains(text, want) {
			t.Errorf("labels: no %q in:\n%s", want, text)
		}
	}
}
