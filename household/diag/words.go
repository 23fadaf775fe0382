package diag

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
)

// clipRunes is how much of a user's text is repeated in a message.
const clipRunes = 40

// Clip shortens a user's text for a message.
func Clip(s string) string {
	r := []rune(s)
	if len(r) <= clipRunes {
		return s
	}
	return string(r[:clipRunes]) + "…"
}

// NearHint names the nearest known word, or all of them.
func NearHint(word string, known []string) string {
	if near, ok := Nearest(word, known); ok {
		return fmt.Sprintf("did you mean %q?", near)
	}
	return "known: " + strings.Join(known, ", ")
}

// MaxListed is how many names a hint lists.
const MaxListed = 12

// JoinSome lists names, not more than fit in a hint.
func JoinSome(names []string) string {
	if len(names) > MaxListed {
		return strings.Join(names[:MaxListed], ", ") + ", …"
	}
	return strings.Join(names, ", ")
}

// Cause returns why the file system refused, without the path: messages name the
// file as people know it.
func Cause(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}
