package household

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// symbols returns the numbers behind a code.
func symbols(code string) []byte {
	var out []byte
	for _, r := range code {
		if r != '-' {
			out = append(out, byte(strings.IndexRune(crockford, r)))
		}
	}
	return out
}

func valid(s []byte) bool {
	return checkSymbol([codeData]byte(s[:codeData])) == s[codeData]
}

// TestCheckSymbolCatchesSlipsAndSwaps goes through every slip and every swap of
// neighbours. The check sum is linear (the next test proves that), so whether a
// change is caught depends on the places and symbols changed and not on the rest:
// all pairs of symbols at all places, on one code, are all cases.
func TestCheckSymbolCatchesSlipsAndSwaps(t *testing.T) {
	base := make([]byte, codeData+1)
	slips, swaps := 0, 0
	for at := range codeData + 1 {
		for a := byte(0); a < 32; a++ {
			for b := byte(0); b < 32; b++ {
				if a == b {
					continue
				}
				code := completed(base, at, a)
				slip := append([]byte{}, code...)
				slip[at] = b
				if slips++; valid(slip) {
					t.Fatalf("slip at %d from %d to %d is not caught", at, a, b)
				}
				if at == codeData {
					continue
				}
				pair := completedPair(at, a, b)
				if !valid(pair) {
					t.Fatal("the test's own code is wrong")
				}
				pair[at], pair[at+1] = pair[at+1], pair[at]
				if swaps++; valid(pair) {
					t.Fatalf("swap at %d of %d and %d is not caught", at, a, b)
				}
			}
		}
	}
	if slips != 7*32*31 || swaps != 6*32*31 {
		t.Fatalf("%d slips and %d swaps tried", slips, swaps)
	}
}

// completed returns a valid code with symbol a at a place: some other symbol
// takes up what is needed.
func completed(base []byte, at int, a byte) []byte {
	s := append([]byte{}, base...)
	s[at] = a
	other := 0
	if at == 0 {
		other = 1
	}
	for x := byte(0); x < 32; x++ {
		s[other] = x
		if valid(s) {
			return s
		}
	}
	panic("no symbol completes the code")
}

// completedPair returns a valid code with a and b at two neighbouring places.
func completedPair(at int, a, b byte) []byte {
	s := make([]byte, codeData+1)
	s[at], s[at+1] = a, b
	other := 0
	for other == at || other == at+1 {
		other++
	}
	for x := byte(0); x < 32; x++ {
		s[other] = x
		if valid(s) {
			return s
		}
	}
	panic("no symbol completes the code")
}

// TestCheckSymbolIsLinear adds random codes.
func TestCheckSymbolIsLinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var a, b, sum [codeData]byte
		for i := range a {
			a[i], b[i] = rapid.ByteMax(31).Draw(t, "a"), rapid.ByteMax(31).Draw(t, "b")
			sum[i] = a[i] ^ b[i]
		}
		if checkSymbol(a)^checkSymbol(b) != checkSymbol(sum) {
			t.Fatalf("check symbols of %v and %v do not add up", a, b)
		}
	})
}

func TestParseCodeReadsWhatPeopleType(t *testing.T) {
	code := formatCode([codeData]byte{19, 0, 23, 1, 20, 29})
	if !strings.Contains(code, "0") || !strings.Contains(code, "1") {
		t.Fatalf("the code %s does not show what this test is for", code)
	}
	for _, typed := range []string{
		code, strings.ToLower(code), strings.ReplaceAll(code, "-", ""), strings.ReplaceAll(code, "-", " "),
		strings.ReplaceAll(code, "0", "o"), strings.ReplaceAll(code, "0", "O"), strings.ReplaceAll(code, "1", "l"),
		strings.ReplaceAll(code, "1", "I"), "  " + code + "\t",
	} {
		if got, err := ParseCode(typed); err != nil || got != code {
			t.Errorf("ParseCode(%q) = %q, %v; want %s", typed, got, err, code)
		}
	}
	for _, typed := range []string{"", "K7Q", code + "0", "U" + code[1:], strings.Repeat("0", 1000), "K7Q-2MX-É"} {
		if got, err := ParseCode(typed); err == nil {
			t.Errorf("ParseCode(%q) = %q", typed, got)
		}
	}
}

func FuzzParseCode(f *testing.F) {
	f.Add("K7Q-2MX-4")
	f.Add("k7q2mxo")
	f.Fuzz(func(t *testing.T, s string) {
		code, err := ParseCode(s)
		if err != nil {
			return
		}
		if again, err := ParseCode(code); err != nil || again != code {
			t.Fatalf("%q reads as %s, which reads as %q, %v", s, code, again, err)
		}
		if len(symbols(code)) != codeData+1 || !valid(symbols(code)) {
			t.Fatalf("%q reads as %s, which does not check", s, code)
		}
	})
}
