package html

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
	"bowlwright/report/internal/sample"
)

// chromium runs a headless browser without a network of its own.
func chromium(t *testing.T, args ...string) string {
	t.Helper()
	flags := append([]string{"--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
		"--disable-component-update", "--disable-sync", "--user-data-dir=" + t.TempDir()}, args...)
	out, err := exec.Command(sample.NeedProgram(t, "chromium"), flags...).Output()
	if err != nil {
		t.Fatalf("chromium: %v", err)
	}
	return string(out)
}

// TestPagesFitScreens lays every page out in frames as wide as a phone and as a
// desk screen: nothing may scroll sideways but the tables in their own boxes.
func TestPagesFitScreens(t *testing.T) {
	sample.NeedProgram(t, "chromium")
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
	sample.NeedProgram(t, "chromium")
	sample.NeedProgram(t, "pdftotext")
	base := sample.Base(t)
	pages, err := Pages([]household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}, Options{})
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
	text := sample.PdfText(t, data)
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
	sample.NeedProgram(t, "chromium")
	const count = `<script>onload = () => { document.title = "asked for " + performance.getEntriesByType("resource").length; }</script></body>`
	base := sample.Base(t)
	pages, err := Pages([]household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}, Options{Weights: sample.Weights("Marlow")})
	if err != nil {
		t.Fatal(err)
	}
	pages = append(pages, Page{"picture.html", bytes.Replace(pages[1].Data, []byte("<main>"), []byte(`<main><img alt="x" src="picture.png">`), 1)})
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
	sample.NeedProgram(t, "chromium")
	base := sample.Base(t)
	pages, err := Pages([]household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}, Options{})
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
