package household

import (
	"regexp"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Slug turns a name into a part of a file name: lower case, accents taken off,
// dashes for spaces. Names that lose more than that get a few digits of their
// digest, so that two names never share a slug.
func Slug(name string) string {
	var b strings.Builder
	lossy := false
	lower := strings.ToLower(strings.Join(strings.Fields(name), " "))
	for _, r := range norm.NFD.String(lower) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case r == ' ':
			b.WriteByte('-')
		default:
			lossy = true
			if !unicode.Is(unicode.Mn, r) && b.Len() > 0 {
				b.WriteByte('-')
			}
		}
	}
	s := strings.Trim(dashes.ReplaceAllString(b.String(), "-"), "-")
	if lossy || s == "" || slugLikeSuffix.MatchString(s) {
		s = strings.Trim(s+"-"+DigestOf(norm.NFC.String(lower))[len(digestPrefix):][:6], "-")
	}
	return s
}

var (
	dashes         = regexp.MustCompile(`-+`)
	slugLikeSuffix = regexp.MustCompile(`(^|-)[0-9a-f]{6}$`)
)
