package household

import (
	"encoding/hex"
	"fmt"
	"strings"

	"bowlwright/household/diag"
)

// crockford is the alphabet of Crockford's base32: no I, L, O or U, so that
// nothing on a label is mistaken for something else.
const crockford = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"

// codeData is the number of data symbols, five bits each, of a base code.
const codeData = 6

// gfTimesX multiplies by x in the field of 32 elements, x^5 = x^2 + 1.
func gfTimesX(a byte) byte {
	a <<= 1
	if a&0x20 != 0 {
		a ^= 0x25
	}
	return a
}

// checkSymbol returns the symbol that makes the code's weighted sum zero. Symbol i
// from the right has the weight x^i in the field of 32 elements: all weights are
// different and none is zero, so that no single slip and no swap of two symbols
// keeps the sum.
func checkSymbol(data [codeData]byte) byte {
	var sum byte
	for _, d := range data {
		sum = gfTimesX(sum ^ d)
	}
	return sum
}

// codeOf returns the base code of a recipe digest: its first 30 bits and a check
// symbol, written K7Q-2MX-4.
func codeOf(digest string) string {
	raw, err := hex.DecodeString(strings.TrimPrefix(digest, digestPrefix))
	if err != nil || len(raw) < 4 {
		panic("household: not a digest: " + digest)
	}
	bits := uint32(raw[0])<<24 | uint32(raw[1])<<16 | uint32(raw[2])<<8 | uint32(raw[3])
	var data [codeData]byte
	for i := range data {
		data[i] = byte(bits >> (27 - 5*i) & 31)
	}
	return formatCode(data)
}

func formatCode(data [codeData]byte) string {
	b := make([]byte, 0, codeData+3)
	for i, d := range data {
		if i == codeData/2 {
			b = append(b, '-')
		}
		b = append(b, crockford[d])
	}
	return string(append(b, '-', crockford[checkSymbol(data)]))
}

// ParseCode reads a base code as a person types it: any case, with or without
// dashes and spaces, o for 0, i and l for 1. It returns the code as it is printed,
// or an error when a symbol is missing, not of the alphabet, or mistyped.
func ParseCode(s string) (string, error) {
	var symbols []byte
	for _, r := range s {
		switch r {
		case ' ', '-', '–', '\u00a0', '\t':
			continue
		case 'o', 'O':
			r = '0'
		case 'i', 'I', 'l', 'L':
			r = '1'
		}
		at := -1
		if r < 0x80 {
			at = strings.IndexByte(crockford, strings.ToUpper(string(r))[0])
		}
		if at < 0 {
			return "", fmt.Errorf("%q is not used in base codes, which look like K7Q-2MX-4", r)
		}
		if len(symbols) > codeData {
			return "", fmt.Errorf("%q is too long for a base code, which has 7 symbols like K7Q-2MX-4", diag.Clip(s))
		}
		symbols = append(symbols, byte(at))
	}
	if len(symbols) != codeData+1 {
		return "", fmt.Errorf("%q has %d of the 7 symbols of a base code like K7Q-2MX-4", diag.Clip(s), len(symbols))
	}
	data := [codeData]byte(symbols[:codeData])
	if checkSymbol(data) != symbols[codeData] {
		return "", fmt.Errorf("%q is mistyped: its last symbol does not fit the others; read the label again", diag.Clip(s))
	}
	return formatCode(data), nil
}

// ParseJarCode reads the code of a jar as a person types it: J, then the symbols that
// ParseCode reads. It returns the code as it is printed.
func ParseJarCode(s string) (string, error) {
	rest, ok := strings.CutPrefix(strings.ToUpper(strings.TrimLeft(s, " -\t")), "J")
	if !ok {
		return "", fmt.Errorf("%q does not begin with J, as the code of a jar does", diag.Clip(s))
	}
	code, err := ParseCode(rest)
	if err != nil {
		return "", fmt.Errorf("%q is mistyped, or no code of a jar: J, six symbols and one that checks them; read the label again", diag.Clip(s))
	}
	return JarMark + code, nil
}

// CheckCode compares a code read from a container with the base in use. Match says
// that they are the same; File names the file in bases/ that holds the code, if
// any does.
func (h *Household) CheckCode(typed string) (CodeCheck, error) {
	code, err := ParseCode(typed)
	if err != nil {
		return CodeCheck{}, diag.BadInput("bad-code", err.Error(), "a base code looks like "+codeOf(h.Base.RecipeDigest()))
	}
	c := CodeCheck{Code: code, InUse: codeOf(h.Base.RecipeDigest())}
	c.Match = c.Code == c.InUse
	c.File, _ = h.BaseWithCode(code)
	for _, name := range h.BatchNames() {
		if b := h.Batches[name]; c.File == "" && codeOf(b.recipeDigestByName()) == code {
			c.Earlier = name
		}
	}
	return c, nil
}

// CodeCheck is what a code on a container says.
type CodeCheck struct {
	Code  string `json:"code"`
	InUse string `json:"base_in_use"`
	Match bool   `json:"match"`
	File  string `json:"file,omitempty"`
	// Earlier names the file whose batch had the code before own foods counted by what
	// is in them: the label does not say with which figures it was cooked.
	Earlier string `json:"earlier,omitempty"`
}
