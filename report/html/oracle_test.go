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
	"strconv"
	"strings"
	"testing"

	"bowlwright/household"
	"bowlwright/report"
	"bowlwright/report/internal/sample"
)

// needBrowser skips where the pages are not opened in a browser: each takes it seconds.
func needBrowser(t *testing.T) {
	t.Helper()
	if os.Getenv("BOWLWRIGHT_ORACLES") != "1" {
		t.Skip("pages are opened in a browser where BOWLWRIGHT_ORACLES=1")
	}
	sample.NeedProgram(t, "chromium")
}

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
	needBrowser(t)
	var b strings.Builder
	b.WriteString("<!DOCTYPE html><body>")
	n := 0
	for name, page := range testPages(t) {
		page = unfolded(page)
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

// TestPagePrints: all that the page says is on paper, what is folded on the screen too.
func TestPagePrints(t *testing.T) {
	needBrowser(t)
	sample.NeedProgram(t, "pdftotext")
	base := sample.Base(t)
	page, err := Page([]household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	dir := t.TempDir()
	file, pdf := filepath.Join(dir, "page.html"), filepath.Join(dir, "page.pdf")
	if err := os.WriteFile(file, page, 0o644); err != nil {
		t.Fatal(err)
	}
	chromium(t, "--no-pdf-header-footer", "--print-to-pdf="+pdf, "file://"+file)
	data, err := os.ReadFile(pdf)
	if err != nil {
		t.Fatal(err)
	}
	text := sample.PdfText(t, data)
	for _, want := range []string{"Marlow", base.Identity().Code, "813 g a day in total", "407 g", "Morning", "2 capsules", "84.56 g", "Calcium 1804 mg at least 1801", "unknown", "Fri 25 Dec"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not on the printed page:\n%s", want, text)
		}
	}
	// Lines may be broken elsewhere, so that single words are looked for.
	for _, word := range strings.Fields(pageText(page[bytes.Index(page, []byte("<body>")):])) {
		if !strings.Contains(text, word) {
			t.Errorf("%q is on the screen and not on paper", word)
		}
	}
}

// mostPhonePx is how long the folded page of forty animals may be on a phone.
const mostPhonePx = 4000

// TestFortyAnimalsOnAPhone measures the folded page of a kennel.
func TestFortyAnimalsOnAPhone(t *testing.T) {
	needBrowser(t)
	base := sample.Base(t)
	var ps []household.Paired
	for i := range 40 {
		ps = append(ps, sample.Pair(t, sample.Plan(fmt.Sprintf("Animal %d", i+1), base), base))
	}
	page, err := Page(ps, Options{})
	if err != nil {
		t.Fatal(err)
	}
	text := fmt.Sprintf(`<!DOCTYPE html><body><iframe width="390" height="800" style="border:0" srcdoc="%s"></iframe><script>onload = () => { document.title = "high " + document.querySelector("iframe").contentDocument.documentElement.scrollHeight; }</script>`, html.EscapeString(string(page)))
	file := filepath.Join(t.TempDir(), "forty.html")
	if err := os.WriteFile(file, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
	found := regexp.MustCompile(`<title>high (\d+)</title>`).FindStringSubmatch(chromium(t, "--virtual-time-budget=10000", "--dump-dom", "file://"+file))
	if found == nil {
		t.Fatal("the browser did not measure the page")
	}
	if high, err := strconv.Atoi(found[1]); err != nil || high > mostPhonePx || high < 40*30 {
		t.Errorf("forty animals take %s px (%v)", found[1], err)
	}
}

// TestPagesAskForNothing counts what the browser fetches for a page beside the page
// itself, with the policy taken off; of a page with a picture it must count one.
func TestPagesAskForNothing(t *testing.T) {
	needBrowser(t)
	const count = `<script>onload = () => { document.title = "asked for " + performance.getEntriesByType("resource").length; }</script></body>`
	base := sample.Base(t)
	page, err := Page([]household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}, Options{Setting: report.Setting{Weights: sample.Weights("Marlow")}})
	if err != nil {
		t.Fatal(err)
	}
	pages := map[string][]byte{"page.html": page, "picture.html": bytes.Replace(page, []byte("<main>"), []byte(`<main><img alt="x" src="picture.png">`), 1)}
	served := map[string]string{}
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		io.WriteString(w, served[strings.TrimPrefix(r.URL.Path, "/")])
	}))
	defer server.Close()
	for name, page := range pages {
		served[name] = strings.Replace(policy.ReplaceAllString(string(page), ""), "</body>", count, 1)
	}
	for name := range pages {
		want := "asked for 0"
		if name == "picture.html" {
			want = "asked for 1"
		}
		if got := titleElement.FindString(chromium(t, "--virtual-time-budget=5000", "--dump-dom", server.URL+"/"+name)); !strings.Contains(got, want) {
			t.Errorf("%s: %s, want %q", name, got, want)
		}
	}
}

// TestBrowserRefusesWhatIsOutside puts a script and a picture into a page: neither
// runs, so a slip in the texts of a household cannot reach the network.
func TestBrowserRefusesWhatIsOutside(t *testing.T) {
	needBrowser(t)
	base := sample.Base(t)
	whole, err := Page([]household.Paired{sample.Pair(t, sample.Plan("Marlow", base), base)}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	const slip = `<script>document.title = "ran"</script><img alt="x" src="data:image/gif;base64,R0lGODlhAQABAAAAACw=" onerror="document.title = 'refused'" onload="document.title = 'ran'"></body>`
	for _, guarded := range []bool{true, false} {
		page := strings.Replace(string(whole), "</body>", slip, 1)
		if !guarded {
			page = policy.ReplaceAllString(page, "")
		}
		file := filepath.Join(t.TempDir(), "page.html")
		if err := os.WriteFile(file, []byte(page), 0o644); err != nil {
			t.Fatal(err)
		}
		title := titleElement.FindString(chromium(t, "--virtual-time-budget=5000", "--dump-dom", "file://"+file))
		if untouched := strings.Contains(title, "Quince Lane"); untouched != guarded {
			t.Errorf("with the policy %v the title is %q", guarded, title)
		}
	}
}

var titleElement = regexp.MustCompile(`<title>[^<]*</title>`)
