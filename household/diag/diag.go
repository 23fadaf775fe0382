// Package diag holds diagnostics as data: where, what, and what to type instead.
package diag

// Severity of a diagnostic.
type Severity int

// The severities.
const (
	Error Severity = iota
	Warning
)

// Span is a range of one line of a file. Line and columns count from one; the
// end column is exclusive. A zero line means the whole file.
type Span struct {
	File    string
	Line    int
	Col     int
	EndCol  int
	Excerpt string
}

// Diagnostic is one fault in a user's file.
type Diagnostic struct {
	Severity Severity
	// Code is stable and kebab-case.
	Code string
	// Summary says what is wrong, Hint what to type instead.
	Summary string
	Hint    Hint
	At      Span
	Related []Span
}

// List is the diagnostics of one run, in the order of files and lines.
type List []Diagnostic

// HasErrors says whether anything in the list stops the work.
func (l List) HasErrors() bool {
	for _, d := range l {
		if d.Severity == Error {
			return true
		}
	}
	return false
}
