package report

// Notice stands across the top of a document: why it must not be used as it is.
type Notice struct {
	// Title is one or two words: "OUT OF DATE".
	Title string
	// Reasons are sentences.
	Reasons []string
	// Advice says what to do, and Command what to type for it, if anything.
	Advice, Command string
	// Void says that the amounts are not to be fed: they are drawn as void. Without it
	// they are right, but something has to be done first.
	Void bool
}

// Titles of notices.
const (
	OutOfDateTitle = "OUT OF DATE"
	NotMixedTitle  = "JAR NOT MIXED YET"
)

// Void says whether one of the notices makes the amounts void.
func Void(notices []Notice) bool {
	for _, n := range notices {
		if n.Void {
			return true
		}
	}
	return false
}
