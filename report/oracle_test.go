package report

import (
	"bytes"
	"fmt"
	"html"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"bowlwright/household"
)

// needProgram finds a program that reads back what was written. Where it is not
// installed the test is skipped, unless BOWLWRIGHT_ORACLES=1 says that it must be.
func needProgram(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err == nil {
		return path
	}
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		t.Fatalf("%s is not installed", name)
	}
	t.Skipf("%s is not installed", name)
	return ""
}

// pdfText reads a PDF back, each run of spaces as one.
func pdfText(t *testing.T, data []byte) string {
	t.Helper()
	program := needProgram(t, "pdftotext")
	file := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(file, data, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(program, "-layout", file, "-").CombinedOutput()
	if err != nil {
		t.Fatalf("pdftotext: %v: %s", err, out)
	}
	return strings.Join(strings.Fields(string(out)), " ")
}

func TestCardReadsBack(t *testing.T) {
	base := testBase(t)
	p := pair(t, short(testPlan("Žofie Łuczak", base)), base)
	for _, paper := range []string{"a4", "letter"} {
		var b bytes.Buffer
		if err := CardsPDF(&b, []household.Paired{p}, PaperOptions{Paper: paper}); err != nil {
			t.Fatal(err)
		}
		text := pdfText(t, b.Bytes())
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
	program := needProgram(t, "pdftotext")
	base := testBase(t)
	ps := []household.Paired{pair(t, testPlan("Marlow", base), base), pair(t, testPlan("Tansy", base), base)}
	var b bytes.Buffer
	if err := CardsPDF(&b, ps, PaperOptions{Paper: "a4", TwoUp: true}); err != nil {
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
	base := testBase(t)
	ps := []household.Paired{pair(t, testPlan("Marlow", base), base)}
	b, err := household.NewBatchSheet(base, ps, household.BatchOrder{Days: 4, Date: household.NewDate(2026, 11, 25)})
	if err != nil {
		t.Fatal(err)
	}
	var sheet, labels bytes.Buffer
	if err := BatchPDF(&sheet, b, PaperOptions{Paper: "a4"}); err != nil {
		t.Fatal(err)
	}
	if err := LabelsPDF(&labels, b, DefaultLabels, true, PaperOptions{Paper: "a4"}); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{b.Code, "3252 g cooked", "Marlow: 1 × 2439 g for 3 days", "Shopping list", "Weight of the cooked pot"} {
		if text := pdfText(t, sheet.Bytes()); !strings.Contains(text, want) {
			t.Errorf("batch sheet: no %q in:\n%s", want, text)
		}
	}
	for _, want := range []string{"Marlow", b.Code, "2439 g of base for 3 days", "813 g of base for 1 day", "morning: 407 g, evening: 406 g", "Fridge until 2026-11-28", "freezer until 2027-01-24"} {
		if text := pdfText(t, labels.Bytes()); !strings.Contains(text, want) {
			t.Errorf("labels: no %q in:\n%s", want, text)
		}
	}
}

// chromium runs a headless browser without a network of its own.
func chromium(t *testing.T, args ...string) string {
	t.Helper()
	flags := append([]string{"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--user-data-dir=" + t.TempDir()}, args...)
	out, err := exec.Command(needProgram(t, "chromium"), flags...).Output()
	if err != nil {
		t.Fatalf("chromium: %v", err)
	}
	return string(out)
}

// TestPagesFitScreens lays every page out in frames as wide as a phone and as a
// desk screen: nothing may scroll sideways but the tables in their own boxes.
func TestPagesFitScreens(t *testing.T) {
	needProgram(t, "chromium")
	var b strings.Builder
	b.WriteString("<!DOCTYPE html><body>")
	n := 0
	for name, page := range testPages(t) {
		for _, width := range []int{390, 1280} {
			fmt.Fprintf(&b, `<iframe title="%s at %d" width="%d" height="800" style="border:0" srcdoc="%s"></iframe>`, html.EscapeString(name), width, width, html.EscapeString(page))
			n++
		}
	}
	b.WriteString(`<script>onload = () => { let s = ""; for (const f of document.querySelectorAll("iframe")) { const e = f.contentDocument.documentElement;
		s += (e.scrollWidth > e.clientWidth ? "WIDE " : "FITS ") + f.title + "; "; } document.body.textContent = s; }</script>`)
	file := filepath.Join(t.TempDir(), "frames.html")
	if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
	out := chromium(t, "--virtual-time-budget=10000", "--dump-dom", "file://"+file)
	if strings.Count(out, "FITS ") != n || strings.Contains(out, "WIDE ") {
		t.Errorf("%d of %d frames fit: %s", strings.Count(out, "FITS "), n, out)
	}
}

func TestPagePrints(t *testing.T) {
	needProgram(t, "chromium")
	needProgram(t, "pdftotext")
	base := testBase(t)
	pages, err := HTMLPages([]household.Paired{pair(t, testPlan("Marlow", base), base)}, HTMLOptions{})
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file, pdf := filepath.Join(dir, "page.html"), filepath.Join(dir, "page.pdf")
	if err := os.WriteFile(file, pages[1].Data, 0o644); err != nil {
		t.Fatal(err)
	}
	chromium(t, "--no-pdf-header-footer", "--print-to-pdf="+pdf, "file://"+file)
	data, err := os.ReadFile(pdf)
	if err != nil {
		t.Fatal(err)
	}
	text := pdfText(t, data)
	for _, want := range []string{"Marlow", base.Identity().Code, "together 813 g a day", "407 g", "Morning", "2 capsules", "84.56 g", "Calcium 1804 mg at least 1801", "UNKNOWN", "Weigh again by 2026-12-25"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not on the printed page:\n%s", want, text)
		}
	}
	// All that the screen says is on paper, but the way back to the other pages. Lines
	// may be broken elsewhere, so that single words are looked for.
	for _, word := range strings.Fields(pageText(pages[1].Data[bytes.Index(pages[1].Data, []byte("<body>")):])) {
		if !strings.Contains(text, word) && !strings.Contains("All pets of Quince Lane", word) {
			t.Errorf("%q is on the screen and not on paper", word)
		}
	}
}

// TestPagesAskForNothing counts what the browser fetches for a page beside the page
// itself, with the policy taken off; of a page with a picture it must count one.
func TestPagesAskForNothing(t *testing.T) {
	needProgram(t, "chromium")
	const count = `<script>onload = () => { document.title = "asked for " + performance.getEntriesByType("resource").length; }</script></body>`
	base := testBase(t)
	pages, err := HTMLPages([]household.Paired{pair(t, testPlan("Marlow", base), base)}, HTMLOptions{Weights: testWeights("Marlow")})
	if err != nil {
		t.Fatal(err)
	}
	pages = append(pages, HTMLPage{"picture.html", bytes.Replace(pages[1].Data, []byte("<main>"), []byte(`<main><img alt="x" src="picture.png">`), 1)})
	served := map[string]string{}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		io.WriteString(w, served[strings.TrimPrefix(r.URL.Path, "/")])
	}))
	defer server.Close()
	for _, page := range pages {
		served[page.Name] = strings.Replace(policy.ReplaceAllString(string(page.Data), ""), "</body>", count, 1)
	}
	for _, page := range pages {
		want := "asked for 0"
		if page.Name == "picture.html" {
			want = "asked for 1"
		}
		if got := titleElement.FindString(chromium(t, "--virtual-time-budget=5000", "--dump-dom", server.URL+"/"+page.Name)); !strings.Contains(got, want) {
			t.Errorf("%s: %s, want %q", page.Name, got, want)
		}
	}
}

// TestBrowserRefusesWhatIsOutside puts a script and a picture into a page: neither
// runs, so a slip in the texts of a household cannot reach the network.
func TestBrowserRefusesWhatIsOutside(t *testing.T) {
	needProgram(t, "chromium")
	base := testBase(t)
	pages, err := HTMLPages([]household.Paired{pair(t, testPlan("Marlow", base), base)}, HTMLOptions{})
	if err != nil {
		t.Fatal(err)
	}
	const slip = `<script>document.title = "ran"</script><img alt="x" src="data:image/gif;base64,R0lGODlhAQABAAAAACw=" onerror="document.title = 'refused'" onload="document.title = 'ran'"></body>`
	for _, guarded := range []bool{true, false} {
		page := strings.Replace(string(pages[1].Data), "</body>", slip, 1)
		if !guarded {
			page = policy.ReplaceAllString(page, "")
		}
		file := filepath.Join(t.TempDir(), "page.html")
		if err := os.WriteFile(file, []byte(page), 0o644); err != nil {
			t.Fatal(err)
		}
		title := titleElement.FindString(chromium(t, "--virtual-time-budget=5000", "--dump-dom", "file://"+file))
		if untouched := strings.Contains(title, "Marlow"); untouched != guarded {
			t.Errorf("with the policy %v the title is %q", guarded, title)
		}
	}
}

var titleElement = regexp.MustCompile(`<title>[^<]*</title>`)
