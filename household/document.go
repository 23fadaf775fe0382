package household

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strings"
	"unicode/utf8"

	"bowlwright/household/diag"

	"github.com/BurntSushi/toml"
)

const (
	// maxFile bounds a file of the household: several thousand animals fit.
	maxFile = 2 << 20
	// maxBrackets bounds the brackets of a file for the sake of parsers that
	// recurse.
	maxBrackets = 200_000
	// maxFaults is how many faults of one file are reported at a time.
	maxFaults = 100
	// maxSyntaxErrors is how many faulty lines of one file are reported before
	// the rest is left for the next run.
	maxSyntaxErrors = 20
)

// document is one TOML file with what is wrong in it.
type document struct {
	// file is the path from the household folder, as people would type it.
	file  string
	text  string
	lines []int
	index *index
	root  map[string]any
	// broken is true when lines were skipped because they are no TOML: what is
	// missing then may stand in them.
	broken bool
	diags  diag.List
	// meant holds the paths of keys that a misspelt key probably meant.
	meant map[string]bool
	// more counts the faults beyond maxFaults.
	more int
}

// openDocument reads and parses dir/file. Its root is nil when nothing of it can
// be used; why stands in diags.
func openDocument(dir, file string) *document {
	d := &document{file: filepath.ToSlash(file)}
	text, ok := d.read(filepath.Join(dir, file))
	if ok {
		d.parse(text)
	}
	return d
}

// read returns the text without a byte order mark.
func (d *document) read(path string) (string, bool) {
	info, err := os.Stat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		d.whole("file-missing", d.file+" is missing", "write the file, or start a household with", "init")
		return "", false
	case err != nil:
		d.whole("file-unreadable", fmt.Sprintf("%s cannot be read: %v", d.file, withoutPath(err)), "check the rights of the file")
		return "", false
	case !info.Mode().IsRegular():
		d.whole("file-unreadable", d.file+" is not a file", "move it away and write a text file in its place")
		return "", false
	case info.Size() > maxFile:
		d.whole("file-too-large", fmt.Sprintf("%s is larger than %d MB", d.file, maxFile>>20), "keep one household or one batch in a file")
		return "", false
	}
	b, err := os.ReadFile(path)
	if err != nil {
		d.whole("file-unreadable", fmt.Sprintf("%s cannot be read: %v", d.file, withoutPath(err)), "check the rights of the file")
		return "", false
	}
	return strings.TrimPrefix(string(b), "\ufeff"), true
}

func withoutPath(err error) error {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err
	}
	return err
}

// parse fills the index and the root.
func (d *document) parse(text string) {
	d.setText(text)
	if len(text) > maxFile {
		d.whole("file-too-large", fmt.Sprintf("%s is larger than %d MB", d.file, maxFile>>20), "keep one household or one batch in a file")
		return
	}
	if at := firstBadByte(text); at >= 0 {
		d.setText(strings.ToValidUTF8(text, "?"))
		d.add("not-utf8", stretch{at, at + 1}, "this is not UTF-8 text", "save the file as UTF-8")
		return
	}
	x := newIndex(text)
	if x.tooDeep || strings.Count(text, "[")+strings.Count(text, "{") > maxBrackets {
		d.whole("too-deep", d.file+" nests brackets too deep", fmt.Sprintf("at most %d brackets may be open at a time", maxNesting))
		return
	}
	for range maxSyntaxErrors {
		root := map[string]any{}
		_, err := toml.Decode(text, &root)
		if err == nil {
			d.index = newIndex(text)
			d.root = root
			return
		}
		d.broken = true
		line, ok := d.syntaxError(text, err)
		if !ok {
			return
		}
		text = text[:line.from] + strings.Repeat(" ", line.to-line.from) + text[line.to:]
	}
}

func (d *document) setText(text string) {
	d.text, d.lines = text, []int{0}
	for i := range len(text) {
		if text[i] == '\n' {
			d.lines = append(d.lines, i+1)
		}
	}
}

func firstBadByte(s string) int {
	for i := 0; i < len(s); {
		r, n := utf8.DecodeRuneInString(s[i:])
		if r == utf8.RuneError && n == 1 {
			return i
		}
		i += n
	}
	return -1
}

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
func (d *document) singleHeader(key string) (stretch, bool) {
	for row := range d.lines {
		line := d.line(row)
		if text := d.text[line.from:line.to]; strings.HasPrefix(strings.ReplaceAll(text, " ", ""), "["+key+"]") {
			return line, true
		}
	}
	return stretch{}, false
}

// syntaxError reports what the TOML library refuses and returns the line to skip,
// or false when skipping would not help.
func (d *document) syntaxError(text string, err error) (stretch, bool) {
	var p toml.ParseError
	if !errors.As(err, &p) {
		d.whole("broken-toml", fmt.Sprintf("%s cannot be read: %v", d.file, err), "")
		return stretch{}, false
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
	line := d.line(row)
	content := text[line.from:line.to]
	if strings.TrimSpace(content) == "" {
		d.add("broken-toml", line, "this is not TOML: "+tidy(p.Message), "look at the lines above: a quote or bracket is not closed")
		return stretch{}, false
	}
	if m := bareComma.FindStringSubmatchIndex(content); m != nil {
		d.add("decimal-comma", stretch{line.from + m[2], line.from + m[5]}, "a number with a decimal comma",
			fmt.Sprintf("use a decimal point: %s.%s", content[m[2]:m[3]], content[m[4]:m[5]]))
		return line, true
	}
	if m := noQuotes.FindStringSubmatchIndex(content); m != nil {
		d.add("amount-without-quotes", stretch{line.from + m[2], line.from + m[3]}, "an amount without quotes",
			fmt.Sprintf("put it in quotes: %q", content[m[2]:m[3]]))
		return line, true
	}
	code, hint := "broken-toml", lineHint(content)
	if strings.Contains(p.Message, "already been defined") {
		code, hint = "key-twice", "keep one of the two"
	}
	if m := curlyQuotes.FindStringIndex(content); m != nil && line.from+m[0] <= at {
		d.add("curly-quotes", stretch{line.from + m[0], line.from + m[1]}, "quotes that an editor made curly",
			fmt.Sprintf("type straight quotes: %s", curlyQuotes.ReplaceAllString(strings.TrimSpace(content), `"`)))
		return line, true
	}
	if m := arrayAlready.FindStringSubmatch(p.Message); m != nil {
		if head, ok := d.singleHeader(m[1]); ok {
			d.add("wrong-type", head, fmt.Sprintf("[%[1]s] stands for one %[1]s only, and there are more", m[1]), fmt.Sprintf("double the brackets: [[%s]]", m[1]))
			return stretch{}, false
		}
	}
	d.add(code, stretch{at, min(at+max(1, p.Position.Len), line.to)}, "this is not TOML: "+tidy(p.Message), hint)
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

// line returns the range of a line, counted from 0, without its end.
func (d *document) line(row int) stretch {
	row = max(0, min(row, len(d.lines)-1))
	from, to := d.lines[row], len(d.text)
	if row+1 < len(d.lines) {
		to = d.lines[row+1] - 1
	}
	if to > from && d.text[to-1] == '\r' {
		to--
	}
	return stretch{from, to}
}

// maxExcerpt bounds the excerpt of a line, in bytes.
const maxExcerpt = 2000

// span turns a range of bytes into line and columns.
func (d *document) span(s stretch) diag.Span {
	row := max(0, sort.SearchInts(d.lines, s.from+1)-1)
	line := d.line(row)
	from := max(line.from, min(s.from, line.to))
	to := max(from, min(s.to, line.to))
	excerpt := d.text[line.from:min(line.to, line.from+maxExcerpt)]
	return diag.Span{
		File: d.file, Line: row + 1, Excerpt: strings.ToValidUTF8(excerpt, "?"),
		Col:    utf8.RuneCountInString(d.text[line.from:from]) + 1,
		EndCol: utf8.RuneCountInString(d.text[line.from:to]) + 1,
	}
}

func (d *document) add(code string, at stretch, summary, hint string, command ...string) {
	if d.full() {
		return
	}
	fault := diag.Diagnostic{Code: code, Summary: summary, Hint: diag.Command(hint, command...), At: d.span(at)}
	// A value that is read for two purposes is wrong once.
	if slices.ContainsFunc(d.diags, func(o diag.Diagnostic) bool { return o.Code == code && o.Summary == summary && o.At == fault.At }) {
		return
	}
	d.diags = append(d.diags, fault)
}

func (d *document) means(path string) {
	if d.meant == nil {
		d.meant = map[string]bool{}
	}
	d.meant[path] = true
}

// full counts a fault that is not reported any more.
func (d *document) full() bool {
	if len(d.diags) < maxFaults {
		return false
	}
	d.more++
	return true
}

// whole reports a fault of the file as such.
func (d *document) whole(code, summary, hint string, command ...string) {
	d.diags = append(d.diags, diag.Diagnostic{Code: code, Summary: summary, Hint: diag.Command(hint, command...), At: diag.Span{File: d.file}})
}

// sorted returns the diagnostics in the order of lines, faults of the whole file
// first.
func (d *document) sorted() diag.List {
	sort.SliceStable(d.diags, func(i, j int) bool {
		a, b := d.diags[i].At, d.diags[j].At
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		return a.Col < b.Col
	})
	if d.more > 0 {
		severity := diag.Warning
		if d.diags.HasErrors() {
			severity = diag.Error
		}
		d.diags = append(d.diags, diag.Diagnostic{Severity: severity, Code: "more-faults", Summary: fmt.Sprintf("%s has %d more faults", d.file, d.more), Hint: diag.Hint{Text: "correct these first"}, At: diag.Span{File: d.file}})
		d.more = 0
	}
	return d.diags
}
