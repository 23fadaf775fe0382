package records

import (
	"bytes"
	"encoding/json"
	"testing"
)

// FuzzIndented holds the layout against the library's.
func FuzzIndented(f *testing.F) {
	for _, text := range []string{
		`{}`, `[]`, `[[],{}]`, `{"a":{},"b":[]}`, `{"a":[1,-2.5e-7,null,true],"b":{"c":"d"}}`,
		`"a\"b\\"`, `{"x,y":"{[:]}","\\":"\\\"",  "é\u0000":"\\\\"}`, `[[[["deep"]]]]`, `7`, "\"\\\\\"",
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		var compact, want bytes.Buffer
		if json.Compact(&compact, text) != nil {
			return
		}
		if err := json.Indent(&want, compact.Bytes(), "", "  "); err != nil {
			t.Fatal(err)
		}
		if got := indented(compact.Bytes()); !bytes.Equal(got, want.Bytes()) {
			t.Errorf("%s\nwant\n%s", got, want.Bytes())
		}
	})
}
