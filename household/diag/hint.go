package diag

import "strings"

// Hint says what to do about something. It is data: only the program knows how the
// household was named on the command line and which words a shell would split.
type Hint struct {
	// Text is a phrase in lower case without an end mark, such as "did you mean kg?".
	Text string
	// Command is what to type after the name of the program, one word an element and
	// nothing quoted; nil when there is nothing to type.
	Command []string
}

// Command is a hint that is something to type, after a phrase that says what for.
func Command(text string, words ...string) Hint { return Hint{text, words} }

// IsZero says that there is no hint.
func (h Hint) IsZero() bool { return h.Text == "" && h.Command == nil }

// Render joins the phrase and the command line, which write makes of the words.
func (h Hint) Render(write func(words []string) string) string {
	switch {
	case h.Command == nil:
		return h.Text
	case h.Text == "":
		return write(h.Command)
	}
	return h.Text + ": " + write(h.Command)
}

// Plain writes a command line without quotes, for logs and tests.
func Plain(words []string) string { return "bowlwright " + strings.Join(words, " ") }
