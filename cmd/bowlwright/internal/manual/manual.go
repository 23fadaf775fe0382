// Package manual holds the pages of `help` that are about no single command, and
// writes the manual page. The pages are text files, set by hand for a terminal of 80
// columns; the first line of each says what it is about.
//
// Facts in them: weight loss of 0.5 to 2 % a week and rechecks every two weeks are
// from Small Animal Clinical Nutrition, 5th ed., p.522-540; ten per cent a point of
// condition is from the Missouri VMA 2023 proceedings; what a page marks as recalled
// is common practice, quoted from memory.
package manual

import (
	"embed"
	"fmt"
	"strings"

	"bowlwright/nutrients"
)

//go:embed topics/*.txt
var pages embed.FS

// Man is the word for the manual page: bowlwright help man > bowlwright.1
const Man = "man"

// names are the topics in the order in which they are listed.
var names = []string{"tour", "files", "units", "base-code", "standards", "sources", "veterinarian", "body-condition", "labels", "exit-codes", "security", "changes"}

// ExitCodes say what each exit code means.
var ExitCodes = []string{
	"0  done",
	"1  the program failed",
	"2  bad input: a file or an option",
	"3  a plan does not meet its targets",
	"4  refused: add-on and base do not belong together",
	"5  locked by another run",
	"6  something in use is out of date",
}

// Topic is a page of help.
type Topic struct{ Name, About, Text string }

// Topics returns the pages in order.
func Topics() []Topic {
	all := make([]Topic, len(names))
	for i, name := range names {
		all[i], _ = Find(name)
	}
	return all
}

// Names lists the topics.
func Names() []string { return append([]string(nil), names...) }

// Find returns the page of a name.
func Find(name string) (Topic, bool) {
	page, err := pages.ReadFile("topics/" + name + ".txt")
	if err != nil {
		return Topic{}, false
	}
	about, text, _ := strings.Cut(string(page), "\n\n")
	text = strings.Replace(text, "{{exit codes}}\n", strings.Join(ExitCodes, "\n")+"\n", 1)
	text = strings.Replace(text, "{{standards}}\n", standards(), 1)
	return Topic{name, about, text}, true
}

// standards lists the standards that a household may name.
func standards() string {
	var b strings.Builder
	about := map[nutrients.StandardID]string{
		nutrients.NRC2006:    "National Research Council, Nutrient Requirements of Dogs\n              and Cats, 2006",
		nutrients.FEDIAF2021: "FEDIAF, Nutritional Guidelines for Complete and Complementary\n              Pet Food, 2021",
		nutrients.AAFCO2016:  "AAFCO, Dog and Cat Food Nutrient Profiles, 2016",
	}
	for _, id := range nutrients.Standards() {
		fmt.Fprintf(&b, "  %-11s %s\n", id, about[id])
	}
	return b.String()
}
