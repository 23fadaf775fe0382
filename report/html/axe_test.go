package html

import (
	"encoding/json"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"bowlwright/report/internal/sample"
)

// axeVersion is the checker of accessibility that the pages are held against
// (the npm package axe-core).
const axeVersion = "4.10.3"

// axeScript installs the checker and returns its text. It needs npm and its
// registry, so it runs only where everything must.
func axeScript(t *testing.T) string {
	t.Helper()
	if os.Getenv("BOWLWRIGHT_ORACLES") != "1" {
		t.Skip("the checker of accessibility is installed only where BOWLWRIGHT_ORACLES=1")
	}
	dir := t.TempDir()
	cmd := exec.Command(sample.NeedProgram(t, "npm"), "install", "--no-audit", "--no-fund", "--ignore-scripts", "--prefix", dir, "axe-core@"+axeVersion)
	cmd.Dir = dir
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("npm: %v: %s", err, out)
	}
	script, err := os.ReadFile(filepath.Join(dir, "node_modules", "axe-core", "axe.min.js"))
	if err != nil {
		t.Fatal(err)
	}
	return string(script)
}

type axeResult struct {
	Passes     int
	Dark       bool
	Violations []struct {
		ID, Impact, Help string
		Nodes            []string
	}
}

var policy = regexp.MustCompile(`<meta http-equiv="Content-Security-Policy"[^>]*>`)

var axeOutput = regexp.MustCompile(`(?s)<pre id="axe-result">(.*?)</pre>`)

// runAxe puts the checker into a page and reads what it found.
func runAxe(t *testing.T, script, page string, flags ...string) axeResult {
	t.Helper()
	// The page forbids every script, the checker's too.
	page = policy.ReplaceAllString(page, "")
	page = strings.Replace(page, "</body>", `<script>`+script+`</script><script>
axe.run(document, {resultTypes: ["violations", "passes"]}).then(r => {
  const e = document.createElement("pre"); e.id = "axe-result";
  e.textContent = JSON.stringify({Dark: matchMedia("(prefers-color-scheme: dark)").matches, Passes: r.passes.length, Violations: r.violations.map(v => ({ID: v.id, Impact: v.impact, Help: v.help, Nodes: v.nodes.map(n => n.html)}))});
  document.body.append(e);
});</script></body>`, 1)
	file := filepath.Join(t.TempDir(), "page.html")
	if err := os.WriteFile(file, []byte(page), 0o644); err != nil {
		t.Fatal(err)
	}
	out := chromium(t, append(flags, "--virtual-time-budget=20000", "--dump-dom", "file://"+file)...)
	found := axeOutput.FindStringSubmatch(out)
	if found == nil {
		t.Fatal("the checker did not end")
	}
	var r axeResult
	if err := json.Unmarshal([]byte(html.UnescapeString(found[1])), &r); err != nil {
		t.Fatal(err)
	}
	return r
}

// TestPagesAreAccessible: the checker finds nothing on any page, light on a phone and
// dark on a desk, and finds the faults of a page that has some.
func TestPagesAreAccessible(t *testing.T) {
	script := axeScript(t)
	for name, page := range testPages(t) {
		page = unfolded(page)
		for _, dark := range []bool{false, true} {
			flags := []string{"--window-size=390,800", "--blink-settings=preferredColorScheme=1"}
			if dark {
				flags = []string{"--window-size=1280,900", "--blink-settings=preferredColorScheme=0"}
			}
			r := runAxe(t, script, page, flags...)
			if r.Passes < 10 || r.Dark != dark {
				t.Errorf("%s: %d rules applied, dark is %v", name, r.Passes, r.Dark)
			}
			for _, v := range r.Violations {
				t.Errorf("%s %v: %s (%s): %s: %s", name, flags, v.ID, v.Impact, v.Help, v.Nodes[0])
			}
		}
	}
	bad := `<!DOCTYPE html><html><head><title>x</title></head><body><p style="color:#ccc">pale<img src="data:,"></p></body></html>`
	if r := runAxe(t, script, bad); len(r.Violations) < 3 {
		t.Errorf("of a page without language and alternative text and with pale print the checker said %+v", r)
	}
}
