package tomldoc

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"sort"
	"strings"
	"unicode/utf8"

	"bowlwright/household/diag"
	"bowlwright/household/safefile"

	"github.com/BurntSushi/toml"
)

const (
	// MaxFile bounds a file of the household: several thousand animals fit.
	MaxFile = 2 << 20
	// MaxBrackets bounds the brackets of a file for the sake of parsers that
	// recurse.
	MaxBrackets = 200_000
	// MaxFaults is how many faults of one file are reported at a time.
	MaxFaults = 100
	// maxSyntaxErrors is how many faulty lines of one file are reported before
	// the rest is left for the next run.
	maxSyntaxErrors = 20
)

// Document is one text file of a household, TOML as a rule, with what is wrong in it.
type Document struct {
	// File is the path from the household folder, as people would type it.
	File string
	// Root holds the values; it is nil when nothing of the file can be used.
	Root map[string]any
	// Broken is true when lines were skipped because they are no TOML: what is
	// missing then may stand in them.
	Broken bool
	// Diags are the faults found so far, in the order of finding.
	Diags diag.List

	text  string
	lines []int
	index *index
	// meant holds the paths of keys that a misspelt key probably meant.
	meant map[string]bool
	// more counts the faults beyond MaxFaults.
	more int
}

// Open reads and parses dir/file. Its root is nil when nothing of it can be used;
// why stands in Diags.
func Open(dir, file string) *Document {
	d := &Document{File: filepath.ToSlash(file)}
	if text, ok := d.read(filepath.Join(dir, file)); ok {
		d.parse(text)
	}
	return d
}

// Parse parses a text that is known by the name of a file.
func Parse(file, text string) *Document {
	d := &Document{File: file}
	d.parse(text)
	return d
}

// Stem is the name of the file without folder and ending.
func (d *Document) Stem() string { return strings.TrimSuffix(filepath.Base(d.File), ".toml") }

// OpenText reads the last limit bytes of dir/file as lines of text that are no TOML,
// beginning with a whole line; left says that earlier lines were left out. ok is false
// when it cannot be read; why stands in Diags.
func OpenText(dir, file string, limit int64) (d *Document, text string, left, ok bool) {
	d = &Document{File: filepath.ToSlash(file)}
	data, before, err := safefile.ReadEnd(filepath.Join(dir, file), limit)
	if err != nil {
		d.cannotRead(err)
		return d, "", false, false
	}
	if text = string(data); before > 0 {
		_, text, _ = strings.Cut(text, "\n")
	}
	text = strings.TrimPrefix(text, "\ufeff")
	d.setText(text)
	return d, text, before > 0, true
}

// read returns the text without a byte order mark.
func (d *Document) read(path string) (string, bool) {
	b, err := safefile.Read(path, MaxFile)
	if err != nil {
		d.cannotRead(err)
		return "", false
	}
	return strings.TrimPrefix(string(b), "\ufeff"), true
}

// cannotRead says why a file cannot be read.
func (d *Document) cannotRead(err error) {
	var (
		other *safefile.NotRegularError
		large *safefile.TooLargeError
	)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		d.FaultOfFile("file-missing", d.File+" is missing", "write the file, or start a household with", "init")
	case errors.As(err, &other):
		d.FaultOfFile("file-unreadable", fmt.Sprintf("%s is %s, not a file", d.File, other.Kind), "move it away and write a text file in its place")
	case errors.As(err, &large):
		d.FaultOfFile("file-too-large", fmt.Sprintf("%s is larger than %d MB", d.File, MaxFile>>20), "keep one household or one batch in a file")
	default:
		d.FaultOfFile("file-unreadable", fmt.Sprintf("%s cannot be read: %v", d.File, diag.Cause(err)), "check the file's permissions")
	}
}

// parse fills the index and the root.
func (d *Document) parse(text string) {
	d.setText(text)
	if len(text) > MaxFile {
		d.FaultOfFile("file-too-large", fmt.Sprintf("%s is larger than %d MB", d.File, MaxFile>>20), "keep one household or one batch in a file")
		return
	}
	if at := firstBadByte(text); at >= 0 {
		d.setText(strings.ToValidUTF8(text, "?"))
		d.Add("not-utf8", Stretch{at, at + 1}, "this is not UTF-8 text", "save the file as UTF-8")
		return
	}
	x := newIndex(text)
	if x.tooDeep || strings.Count(text, "[")+strings.Count(text, "{") > MaxBrackets {
		d.FaultOfFile("too-deep", d.File+" nests brackets too deep", fmt.Sprintf("at most %d brackets may be open at a time", maxNesting))
		return
	}
	for range maxSyntaxErrors {
		root := map[string]any{}
		_, err := toml.Decode(text, &root)
		if err == nil {
			d.index = newIndex(text)
			d.Root = root
			return
		}
		d.Broken = true
		line, ok := d.syntaxError(text, err)
		if !ok {
			return
		}
		text = text[:line.from] + strings.Repeat(" ", line.to-line.from) + text[line.to:]
	}
}

func (d *Document) setText(text string) {
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

// Line returns the range of a line, counted from 0, without its end.
func (d *Document) Line(row int) Stretch {
	row = max(0, min(row, len(d.lines)-1))
	from, to := d.lines[row], len(d.text)
	if row+1 < len(d.lines) {
		to = d.lines[row+1] - 1
	}
	if to > from && d.text[to-1] == '\r' {
		to--
	}
	return Stretch{from, to}
}

// maxExcerpt bounds the excerpt of a line, in bytes.
const maxExcerpt = 2000

// Span turns a range of bytes into line and columns.
func (d *Document) Span(s Stretch) diag.Span {
	row := max(0, sort.SearchInts(d.lines, s.from+1)-1)
	line := d.Line(row)
	from := max(line.from, min(s.from, line.to))
	to := max(from, min(s.to, line.to))
	excerpt := d.text[line.from:min(line.to, line.from+maxExcerpt)]
	return diag.Span{
		File: d.File, Line: row + 1, Excerpt: strings.ToValidUTF8(excerpt, "?"),
		Col:    utf8.RuneCountInString(d.text[line.from:from]) + 1,
		EndCol: utf8.RuneCountInString(d.text[line.from:to]) + 1,
	}
}

// Add reports an error at a place in the file, with what to do about it in words
// and, where one helps, as a command.
func (d *Document) Add(code string, at Stretch, summary, hint string, command ...string) {
	d.Report(diag.Diagnostic{Code: code, Summary: summary, Hint: diag.Command(hint, command...), At: d.Span(at)})
}

// Report takes over a diagnostic. A value that is read for two purposes is wrong
// once, and beyond MaxFaults faults are only counted.
func (d *Document) Report(fault diag.Diagnostic) {
	same := func(o diag.Diagnostic) bool {
		return o.Code == fault.Code && o.Summary == fault.Summary && o.At == fault.At
	}
	if !d.full() && !slices.ContainsFunc(d.Diags, same) {
		d.Diags = append(d.Diags, fault)
	}
}

func (d *Document) means(path string) {
	if d.meant == nil {
		d.meant = map[string]bool{}
	}
	d.meant[path] = true
}

// full counts a fault that is not reported any more.
func (d *Document) full() bool {
	if len(d.Diags) < MaxFaults {
		return false
	}
	d.more++
	return true
}

// FaultOfFile reports a fault of the file as such.
func (d *Document) FaultOfFile(code, summary, hint string, command ...string) {
	d.Diags = append(d.Diags, diag.Diagnostic{Code: code, Summary: summary, Hint: diag.Command(hint, command...), At: diag.Span{File: d.File}})
}

// Sorted returns the diagnostics in the order of lines, faults of the whole file
// first.
func (d *Document) Sorted() diag.List {
	sort.SliceStable(d.Diags, func(i, j int) bool {
		a, b := d.Diags[i].At, d.Diags[j].At
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		return a.Col < b.Col
	})
	if d.more > 0 {
		severity := diag.Warning
		if d.Diags.HasErrors() {
			severity = diag.Error
		}
		d.Diags = append(d.Diags, diag.Diagnostic{Severity: severity, Code: "more-faults", Summary: fmt.Sprintf("%s has %d more faults", d.File, d.more), Hint: diag.Hint{Text: "correct these first"}, At: diag.Span{File: d.File}})
		d.more = 0
	}
	return d.Diags
}
