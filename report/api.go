package report

// PaperOptions say what the printer can do.
type PaperOptions struct {
	// Paper is "a4" or "letter".
	Paper string
}
