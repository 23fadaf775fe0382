package tomldoc

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/google/go-cmp/cmp"
)

// oddTOML are texts in which keys are hard to find.
var oddTOML = []string{
	"",
	"a = 1",
	"\r\n# c\r\na = 1\r\n",
	"a.b.c = 1\na.b.d = 2\n[t.u]\nx = {y=1, z={w=2}, q.r=3}\narr=[{k=1},{k=2}]\n",
	"[[p]]\nn=1\n[[p.e]]\nf=1\n[[p.e]]\nf=2\n[p.s]\nq=1\n[[p]]\nn=2\n\"we.ird\"=3\n[[p.e]]\nd=2020-01-02\n",
	"\"a\\u0062\" = 'x'\n'c d' = \"#no comment\"\n\"\" = 1\n",
	"a = \"\"\"\n[x]\nb = 1\n\"\"\"\"\"\nc = '''\n'' [[y]]\n'''\n",
	"a = \"\"\"\\\"\"\" x\"\"\"\n",
	"a = [ # one\n  [1, 2], # two\n  [\"]\", '[' ],\n]\nb = 2 # [c]\n",
	"[ a . \"b.c\" . 'd' ]\n x . y = 1\n",
	"d = 1979-05-27 07:32:00Z\ne = 1e-3\nf = -inf\ng = nan\nh = 0x1F\n",
	"[a.b]\nx=1\n[a]\ny=2\n",
	"[[a]]\n[[a.b]]\n[[a.b.c]]\nx=1\n[[a.b.c]]\nx=2\n[[a.b]]\n[[a]]\n[a.b]\nz = 1\n",
	"x = {}\ny = []\nz = [{}, {}]\n",
	"ü = 1\n", "\"ü\" = 1\nk = \"日本\"\n",
}

// checkIndex holds the scan against the list of keys that the library gives.
func checkIndex(t *testing.T, text string) {
	t.Helper()
	x := newIndex(text)
	if x.tooDeep {
		return
	}
	root := map[string]any{}
	md, err := toml.Decode(text, &root)
	if err != nil {
		return
	}
	var got, want []string
	for _, e := range x.entries {
		if e.keys != nil {
			got = append(got, strings.Join(e.keys, "\x00"))
		}
		for _, s := range []Stretch{e.key, e.value} {
			if s.from < 0 || s.to > len(text) || s.from > s.to {
				t.Fatalf("%q: %q stands at %v of %d bytes", text, e.keys, s, len(text))
			}
		}
	}
	for _, k := range md.Keys() {
		want = append(want, strings.Join(k, "\x00"))
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Fatalf("keys of %q (-library +index):\n%s", text, diff)
	}
	everyValue(t, x, "", root)
}

// everyValue finds a position for every value of the decoded text.
func everyValue(t *testing.T, x *index, path string, v any) {
	t.Helper()
	switch v := v.(type) {
	case map[string]any:
		for key, inner := range v {
			everyValue(t, x, sub(path, key), inner)
		}
	case []map[string]any:
		for i, inner := range v {
			everyValue(t, x, element(path, i), inner)
		}
	case []any:
		for i, inner := range v {
			everyValue(t, x, element(path, i), inner)
		}
	default:
		if _, ok := x.byPath[path]; !ok {
			t.Fatalf("no position for %q in %q", path, x.text)
		}
	}
}

func realTOML(t testing.TB) []string {
	t.Helper()
	var texts []string
	for _, pattern := range []string{"../../fixtures/quince-lane/*.toml", "../../fixtures/quince-lane/*/*.toml", "../testdata/bad/*.toml"} {
		files, err := filepath.Glob(pattern)
		if err != nil {
			t.Fatal(err)
		}
		for _, f := range files {
			b, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			texts = append(texts, string(b))
		}
	}
	if len(texts) < 2 {
		t.Fatal("the example household's files were not found")
	}
	return texts
}

func TestIndexAgreesWithTheLibrary(t *testing.T) {
	for _, text := range append(realTOML(t), oddTOML...) {
		root := map[string]any{}
		if _, err := toml.Decode(text, &root); err != nil && !strings.Contains(text, "#!") {
			t.Logf("not TOML, so not compared: %q: %v", text, err)
		}
		checkIndex(t, text)
	}
}

func TestIndexPointsAtEachElement(t *testing.T) {
	text := "[[pet]]\nweight = \"1 kg\"\n[[pet]]\nname = \"x\"\nweight = \"2 kg\"\n[[pet.extra]]\nfood = 'a'\n[[pet.extra]]\nfood = 'b'\nl = [\"p\", 'q']\n"
	x := newIndex(text)
	for path, want := range map[string]string{
		"pet\x00#0\x00weight":                 `"1 kg"`,
		"pet\x00#1\x00weight":                 `"2 kg"`,
		"pet\x00#1\x00extra\x00#1\x00food":    `'b'`,
		"pet\x00#1\x00extra\x00#1\x00l\x00#1": `'q'`,
		"pet\x00#1":                           `[[pet]]`,
	} {
		n, ok := x.byPath[path]
		if !ok {
			t.Errorf("no position for %q", path)
			continue
		}
		if s := x.entries[n].value; text[s.from:s.to] != want {
			t.Errorf("%q stands at %q, want %q", path, text[s.from:s.to], want)
		}
	}
}

func FuzzIndex(f *testing.F) {
	for _, text := range append(realTOML(f), oddTOML...) {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if len(text) < 1<<14 {
			checkIndex(t, text)
		}
	})
}

// TestIndexEndsLongTexts: up to two quotes may stand before the closing three.
func TestIndexEndsLongTexts(t *testing.T) {
	text := "a = \"\"\"x\"\"\"\"\" # rest\nb = '''y'''''\n"
	x := newIndex(text)
	for path, want := range map[string]string{"a": `"""x"""""`, "b": `'''y'''''`} {
		if s := x.entries[x.byPath[path]].value; text[s.from:s.to] != want {
			t.Errorf("%s is %s, want %s", path, text[s.from:s.to], want)
		}
	}
}
