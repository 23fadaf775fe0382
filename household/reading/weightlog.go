package reading

import (
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"bowlwright/household"
	"bowlwright/household/diag"
)

// The first line of the weight log, and that of logs written before a score and days
// off the plan could stand in it.
const (
	WeightsHeader    = "date,pet,kg,note,condition,off_plan_days"
	oldWeightsHeader = "date,pet,kg,note"
)

// The fields of a line by their places; wholeLine is no field.
const (
	wholeLine = iota - 1
	dateField
	petField
	kgField
	noteField
)

// MaxOffPlanDays bounds the days off the plan of one line (common practice: more is no
// exception any more).
const MaxOffPlanDays = 90

const (
	// maxLogLine bounds one line of the weight log, in bytes.
	maxLogLine = 1000
	// maxLog bounds what is read of the weight log, from its end: some fifty thousand
	// weighings, ten years of a hundred animals weighed weekly.
	maxLog = 2 << 20
	// maxBadLines bounds how many faulty lines are remembered.
	maxBadLines = 10_000
)

// FitsLog says whether a line, without its end, is short enough for the weight log.
func FitsLog(line string) bool { return len(line) <= maxLogLine }

// BadLine is a line of the weight log that cannot be used. It stays in the file.
type BadLine struct {
	Line int
	// Col and EndCol mark the fault, counted from 1 in characters.
	Col, EndCol int
	Text        string
	Fault       *diag.InputError
}

// Span is where the fault stands.
func (b BadLine) Span() diag.Span {
	return diag.Span{File: WeightsFile, Line: b.Line, Col: b.Col, EndCol: b.EndCol, Excerpt: b.Text}
}

// ParseWeights reads a weight log, comma-separated values by RFC 4180 with one entry a
// line. Lines that cannot be used are returned beside the others. Empty lines, lines
// that begin with # and the header are skipped.
func ParseWeights(text string) (log []household.WeighIn, bad []BadLine) {
	log, _, bad = parseWeights(text)
	return log, bad
}

// parseWeights also returns the line of each entry.
func parseWeights(text string) (log []household.WeighIn, lines []logLine, bad []BadLine) {
	text = strings.TrimPrefix(text, "\ufeff")
	columns := len(strings.Split(oldWeightsHeader, ","))
	number := -1
	for line := range strings.SplitSeq(text, "\n") {
		number++
		line = strings.TrimSuffix(line, "\r")
		trimmed := strings.TrimSpace(line)
		if trimmed == "" || trimmed[0] == '#' {
			continue
		}
		if number == 0 {
			if n, is := headerColumns(trimmed); is {
				columns = n
				continue
			}
		}
		if len(bad) >= maxBadLines && strings.Count(line, ",") < kgField {
			continue
		}
		l := newLogLine(number+1, line)
		entry, field, fault := l.weighIn(columns)
		if fault != nil && len(bad) >= maxBadLines {
			continue
		}
		if fault != nil {
			at := l.span(field)
			bad = append(bad, BadLine{Line: at.Line, Col: at.Col, EndCol: at.EndCol, Text: at.Excerpt, Fault: fault})
			continue
		}
		log, lines = append(log, entry), append(lines, logLine{number: l.number, text: l.text})
	}
	return log, lines, bad
}

// logLine is one line of the log, taken apart; of lines that can be used only number and
// text are kept, for there may be a hundred thousand.
type logLine struct {
	number int
	text   string
	fields []string
	// starts are the bytes at which the fields begin.
	starts []int
	err    error
}

func newLogLine(number int, text string) logLine {
	l := logLine{number: number, text: text}
	if len(text) > maxLogLine {
		return l
	}
	r := csv.NewReader(strings.NewReader(text))
	// A note may hold commas without quotes, and a quote in the middle of a word.
	r.FieldsPerRecord, r.LazyQuotes, r.TrimLeadingSpace = -1, true, true
	l.fields, l.err = r.Read()
	for i := range l.fields {
		_, column := r.FieldPos(i)
		l.starts = append(l.starts, column-1)
	}
	return l
}

// span is where a field stands; wholeLine and fields that are not there are the line.
func (l logLine) span(field int) diag.Span {
	if l.starts == nil && field >= 0 {
		l = newLogLine(l.number, l.text)
	}
	text := l.text[:min(len(l.text), maxLogLine)]
	from, to := 0, len(text)
	if field >= 0 && field < len(l.starts) {
		from = l.starts[field]
		if field+1 < len(l.starts) {
			to = strings.LastIndexByte(text[:l.starts[field+1]], ',')
		}
	}
	col := utf8.RuneCountInString(text[:from]) + 1
	return diag.Span{File: WeightsFile, Line: l.number, Col: col, EndCol: max(col+1, col+utf8.RuneCountInString(text[from:max(from, to)])),
		Excerpt: strings.ToValidUTF8(text, "?")}
}

// headerColumns says whether a line is the header, whole or its first columns from the
// note on, and how many columns it names.
func headerColumns(line string) (n int, is bool) {
	names := strings.ToLower(strings.ReplaceAll(line, " ", ""))
	n = strings.Count(names, ",") + 1
	return n, names == oldWeightsHeader || strings.HasPrefix(names, oldWeightsHeader+",") && strings.HasPrefix(WeightsHeader+",", names+",")
}

// weighIn reads the line; field is the faulty one. A note may hold commas. What stands
// behind it counts from the end: two columns where the line has six fields or more that
// end like that, one where only the header names it.
func (l logLine) weighIn(columns int) (w household.WeighIn, field int, fault *diag.InputError) {
	const form = "write date,pet,kg,note like 2026-11-25,Marlow,31.5,"
	if len(l.text) > maxLogLine {
		return w, wholeLine, diag.BadInput("log-line", fmt.Sprintf("the line is longer than %d bytes", maxLogLine), form)
	}
	if l.err != nil {
		return w, wholeLine, diag.BadInput("log-line", "the line is no list of values with commas between", form)
	}
	if len(l.fields) <= kgField {
		return w, wholeLine, diag.BadInput("log-line", "the line has less than three fields", form)
	}
	date, err := household.ParseDate(strings.TrimSpace(l.fields[dateField]))
	if err != nil {
		return w, dateField, diag.BadInput("log-date", err.Error(), form)
	}
	w.Date, w.Pet = date, strings.TrimSpace(l.fields[petField])
	if w.Pet == "" {
		return w, petField, diag.BadInput("log-line", "the line names no pet", form)
	}
	weight := strings.TrimSpace(l.fields[kgField])
	behind := l.fields[noteField:]
	// "31,5" splits into two fields; a note never begins with digits alone.
	decimals := ""
	if len(behind) > 0 {
		decimals, _, _ = strings.Cut(strings.TrimSpace(behind[0]), ",")
	}
	if whole, part, inQuotes := strings.Cut(weight, ","); inQuotes {
		weight, decimals = whole, part
	}
	if isDigits(weight) && isDigits(decimals) {
		return w, kgField, diag.BadInput("decimal-comma", fmt.Sprintf("%s,%s has a decimal comma", weight, decimals),
			fmt.Sprintf("use a decimal point: %s.%s", weight, decimals))
	}
	if len(behind) > 0 {
		last, condition, off, fault := lastColumns(behind, columns)
		if fault != nil {
			return w, wholeLine, fault
		}
		w.Note, w.Condition, w.OffPlanDays = l.note(last), condition, off
	}
	kg, err := strconv.ParseFloat(weight, 64)
	if err != nil || !(kg > 0 && kg <= household.MaxDogKg) {
		return w, kgField, diag.BadInput("log-weight", fmt.Sprintf("%q is not a weight in kg", diag.Clip(weight)), "write kilograms as a plain number, like 31.5")
	}
	w.Kg = kg
	return w, wholeLine, nil
}

// note is the text of so many fields from the note on, as it stands there unless it
// begins in quotes.
func (l logLine) note(fields int) string {
	if strings.HasPrefix(l.text[l.starts[noteField]:], `"`) {
		return strings.TrimSpace(strings.Join(l.fields[noteField:noteField+fields], ","))
	}
	to := len(l.text)
	if next := noteField + fields; next < len(l.starts) {
		to = strings.LastIndexByte(l.text[:l.starts[next]], ',')
	}
	return strings.TrimSpace(l.text[l.starts[noteField]:to])
}

// lastColumns takes the score and the days off the plan from the end of the fields
// behind the weight, and says how many of them are the note. In a log with the old
// header they stand only in lines that this program added, which have both.
func lastColumns(fields []string, columns int) (note, condition, off int, fault *diag.InputError) {
	named := columns > len(strings.Split(oldWeightsHeader, ","))
	at := len(fields) - 2
	if named && len(fields) == 2 || named && columns == 5 {
		at = len(fields) - 1
	}
	if at < 1 {
		return len(fields), 0, 0, nil
	}
	behind := fields[at:]
	for _, s := range behind {
		// A note with commas whose line ends there.
		if s = strings.TrimSpace(s); s != "" && !isDigits(s) {
			return len(fields), 0, 0, nil
		}
	}
	number := func(s string) int { n, _ := strconv.Atoi(strings.TrimSpace(s)); return n }
	condition = number(behind[0])
	if len(behind) == 2 {
		off = number(behind[1])
	}
	if condition > 9 || off > MaxOffPlanDays {
		return 0, 0, 0, diag.BadInput("log-condition", fmt.Sprintf("a condition of %d or %d days off the plan is not plausible", condition, off),
			fmt.Sprintf("the body condition score runs from 1 to 9; at most %d days off the plan", MaxOffPlanDays))
	}
	return at, condition, off, nil
}

func isDigits(s string) bool {
	return s != "" && strings.Trim(s, "0123456789") == ""
}

// kilograms writes a weight with a point in it, always: "31.0" can never be
// taken for the first half of "31,5".
func kilograms(kg float64) string {
	s := strconv.FormatFloat(kg, 'f', 3, 64)
	s = strings.TrimRight(s, "0")
	if strings.HasSuffix(s, ".") {
		s += "0"
	}
	return s
}

// LogLine is a weighing as it is added to a log, in quotes where a comma asks for them.
// In a log with the old header it gets the last two columns only where something stands
// in them.
func LogLine(w household.WeighIn, log string) string {
	number := func(n int) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n)
	}
	fields := []string{w.Date.String(), w.Pet, kilograms(w.Kg), w.Note}
	header, _, _ := strings.Cut(strings.TrimPrefix(log, "\ufeff"), "\n")
	if n, is := headerColumns(strings.TrimSpace(header)); is && n > strings.Count(oldWeightsHeader, ",")+1 || w.Condition+w.OffPlanDays > 0 {
		fields = append(fields, number(w.Condition), number(w.OffPlanDays))
	}
	var b strings.Builder
	out := csv.NewWriter(&b)
	// A strings.Builder takes everything.
	_ = out.Write(fields)
	out.Flush()
	return b.String()
}
