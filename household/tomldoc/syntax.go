package tomldoc

import (
	"errors"
	"fmt"
	"regexp"
	"sort"
	"strings"

	"github.com/BurntSushi/toml"
)

// bareComma finds a number with a decimal comma outside quotes.
var bareComma = regexp.MustCompile(`=\s*([+-]?\d+),(\d+)\s*(#.*)?\r?$`)

// noQuotes finds an amount without quotes, such as 4.2 kg.
var noQuotes = regexp.MustCompile(`=\s*([+-]?[\d.]+\s*(?:kg|g|mg|lb|oz|kcal|%)(?:\s+per\s+\w+)?)\s*(#.*)?\r?$`)

// lineSlips are lines that are nearly TOML, and what to type instead; $1, $2 stand
// for what was found.
var lineSlips = []struct {
	form *regexp.Regexp
	hint string
}{
	{regexp.MustCompile(`^\s*(\w+)\s*:\s*(\S.*?)\s*$`), "write = in place of the colon: $1 = $2"},
	{regexp.MustCompile(`^\s*(\w+)\s*=\s*(?i:yes|y|on)\s*(?:#.*)?$`), "write $1 = true"},
	{regexp.MustCompile(`^\s*(\w+)\s*=\s*(?i:no|n|off)\s*(?:#.*)?$`), "write $1 = false"},
	{regexp.MustCompile(`^\s*(\w+)\s*=\s*\d{1,2}[./]\d{1,2}[./]\d{2,4}\s*(?:#.*)?$`), "write the date as year-month-day without quotes: $1 = 2019-05-12"},
	{regexp.MustCompile(`^\s*(\w+)\s*=\s*([\pL][\pL\d_ .-]*?)\s*(?:#.*)?$`), `put it in quotes: $1 = "$2"`},
}

// lineHint says what to type in place of a line that is not TOML.
func lineHint(line string) string {
	line = strings.TrimSuffix(line, "\r")
	for _, slip := range lineSlips {
		if m := slip.form.FindStringSubmatchIndex(line); m != nil {
			return string(slip.form.ExpandString(nil, slip.hint, line, m))
		}
	}
	return "a line is a [header], a [[header]] or key = value, with text in quotes"
}

// curlyQuotes are what word processors make of the quotes that TOML needs.
var curlyQuotes = regexp.MustCompile(`[“”„‟]`)

// arrayAlready is what the library says of [[pet]] below a [pet].
var arrayAlready = regexp.MustCompile(`[Kk]ey '([A-Za-z.]+)' was already created and cannot be used as an array`)

// singleHeader finds the line [key] of a table that should be a list.
func (d *Document) singleHeader(key string) (Stretch, bool) {
	for row := range d.lines {
		line := d.Line(row)
		if text := d.text[line.from:line.to]; strings.HasPrefix(strings.ReplaceAll(text, " ", ""), "["+key+"]") {
			return line, true
		}
	}
	return Stretch{}, false
}

// syntaxError reports what the TOML library refuses and returns the line to skip,
// or false when skipping would not help.
func (d *Document) syntaxError(text string, err error) (Stretch, bool) {
	var p toml.ParseError
	if !errors.As(err, &p) {
		d.FaultOfFile("broken-toml", fmt.Sprintf("%s cannot be read: %v", d.File, err), "")
		return Stretch{}, false
	}
	at := max(0, min(p.Position.Start, len(text)))
	// The library points behind the fault when it lies at the end of a line.
	if at > 0 && at == len(text) || at < len(text) && text[at] == '\n' && at > 0 && text[at-1] != '\n' {
		at--
	}
	for _, quotes := range []string{`"""`, `'''`} {
		if open := strings.LastIndex(text, quotes); open >= 0 && strings.Contains(p.Message, "EOF") && strings.Contains(p.Message, quotes) {
			at = open
		}
	}
	row := sort.SearchInts(d.lines, at+1) - 1
	// A fault noticed at the start of the next line belongs to the one before.
	if p.Position.Line > 0 && p.Position.Line <= len(d.lines) && strings.Contains(p.Message, "newline") && row > p.Position.Line-1 {
		row = p.Position.Line - 1
		at = d.lines[row]
	}
	line := d.Line(row)
	content := text[line.from:line.to]
	if strings.TrimSpace(content) == "" {
		d.Add("broken-toml", line, "this is not TOML: "+tidy(p.Message), "look at the lines above: a quote or bracket is not closed")
		return Stretch{}, false
	}
	if m := bareComma.FindStringSubmatchIndex(content); m != nil {
		d.Add("decimal-comma", Stretch{line.from + m[2], line.from + m[5]}, "a number with a decimal comma",
			fmt.Sprintf("use a decimal point: %s.%s", content[m[2]:m[3]], content[m[4]:m[5]]))
		return line, true
	}
	if m := noQuotes.FindStringSubmatchIndex(content); m != nil {
		d.Add("amount-without-quotes", Stretch{line.from + m[2], line.from + m[3]}, "an amount without quotes",
			fmt.Sprintf("put it in quotes: %q", content[m[2]:m[3]]))
		return line, true
	}
	code, hint := "broken-toml", lineHint(content)
	if strings.Contains(p.Message, "already been defined") {
		code, hint = "key-twice", "keep one of the two"
	}
	if m := curlyQuotes.FindStringIndex(content); m != nil && line.from+m[0] <= at {
		d.Add("curly-quotes", Stretch{line.from + m[0], line.from + m[1]}, "quotes that an editor made curly",
			fmt.Sprintf("type straight quotes: %s", curlyQuotes.ReplaceAllString(strings.TrimSpace(content), `"`)))
		return line, true
	}
	if m := arrayAlready.FindStringSubmatch(p.Message); m != nil {
		if head, ok := d.singleHeader(m[1]); ok {
			d.Add("wrong-type", head, fmt.Sprintf("[%[1]s] stands for one %[1]s only, and there are more", m[1]), fmt.Sprintf("double the brackets: [[%s]]", m[1]))
			return Stretch{}, false
		}
	}
	d.Add(code, Stretch{at, min(at+max(1, p.Position.Len), line.to)}, "this is not TOML: "+tidy(p.Message), hint)
	return line, true
}

// tidy turns the library's message into one of ours: lower case, no full stop.
func tidy(s string) string {
	s = strings.TrimSuffix(strings.TrimSpace(s), ".")
	if s == "" {
		return "it cannot be read"
	}
	return strings.ToLower(s[:1]) + s[1:]
}
