// Package shell writes command lines as a POSIX shell reads them.
package shell

import (
	"strings"
	"unicode"
)

// plain are the signs besides letters and digits that no shell gives a meaning.
const plain = "-_./:,+@%"

// Quote writes a word so that a shell reads it back unchanged: as it is when nothing
// in it could be read otherwise, and else in single quotes.
func Quote(word string) string {
	if word != "" && strings.IndexFunc(word, special) < 0 {
		return word
	}
	return "'" + strings.ReplaceAll(word, "'", `'\''`) + "'"
}

// Line writes the words of a command.
func Line(words []string) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = Quote(w)
	}
	return strings.Join(quoted, " ")
}

// special says whether a character may mean something to a shell. Letters of every
// alphabet mean themselves.
func special(r rune) bool {
	return !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.IsMark(r) && r != '…' && !strings.ContainsRune(plain, r)
}
