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
	"bowlwright/household/supplies"
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
		for _, want := range []string{"Žofie Łuczak", p.Plan().Base.Code, "813 g a day in total", "407 g", "406 g", "Morning", "Evening", "4 g Premix",
			"2 capsules Vitamin E", "Sardine, canned in water", "NOT EVERY MINIMUM IS REACHED",
			"Iodine: 300 of 394 µg, 24 % below minimum", "20 g Carrot, raw", "by Fri 25 Dec", "Fridge at 4 °C", "unknown"} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: %q is not in what pdftotext reads:\n%s", paper, want, text)
			}
		}
	}
}

// TestHalfCardsReadBack looks for each card on the left half of its sheet, and for what to
// mind on the right.
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
	half := func(sheet, side int) string {
		page := fmt.Sprint(sheet + 1)
		out, err := exec.Command(program, "-f", page, "-l", page, "-x", fmt.Sprint(421*side), "-y", "0", "-W", "421", "-H", "595", "-layout", file, "-").Output()
		if err != nil {
			t.Fatal(err)
		}
		return strings.Join(strings.Fields(string(out)), " ")
	}
	for sheet, name := range []string{"Marlow", "Tansy"} {
		if notes := half(sheet, 1); !strings.Contains(notes, name) || !strings.Contains(notes, "Please note") {
			t.Errorf("sheet %d, right: %s", sheet+1, notes)
		}
		text := half(sheet, 0)
		for _, want := range []string{name, base.Identity().Code, "813 g", "407 g", "Morning", "2 capsules", "40 of 41 nutrients", "Mixed on", "by Fri 25 Dec"} {
			if !strings.Contains(text, want) {
				t.Errorf("sheet %d: no %q in:\n%s", sheet+1, want, text)
			}
		}
	}
}

func TestBatchReadsBack(t *testing.T) {
	base := sample.Base(t)
	ps := []household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}
	b, err := supplies.NewBatchSheet(base, ps, supplies.BatchOrder{Days: 4, Date: household.NewDate(2026, 11, 25)})
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
	for _, want := range []string{b.Code, "3.25 kg cooked", "Marlow: 1 × 2439 g for 3 days", "Shopping list", "Weight of the cooked pot"} {
		if text := sample.PdfText(t, sheet.Bytes()); !strings.Contains(text, want) {
			t.Errorf("batch sheet: no %q in:\n%s", want, text)
		}
	}
	for _, want := range []string{"Marlow", b.Code, "2439 g of base for 3 days", "813 g of base for 1 day", "morning: 407 g, evening: 406 g", "Fridge until 28 Nov 2026", "freezer until 24 Jan 2027"} {
		if text := sample.PdfText(t, labels.Bytes()); !strings.Contains(text, want) {
			t.Errorf("labels: no %q in:\n%s", want, text)
		}
	}
}
