package household

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"bowlwright/household/diag"
	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
	"bowlwright/nutrients"
)

// The first line of the weight log, and that of logs written before a score and days
// off the plan could stand in it.
const (
	WeightsHeader    = "date,pet,kg,note,condition,off_plan_days"
	oldWeightsHeader = "date,pet,kg,note"
)

// MaxOffPlanDays bounds the days off the plan of one line (common practice: more is no
// exception any more).
const MaxOffPlanDays = 90

// maxLogLine bounds one line of the weight log.
const maxLogLine = 1000

// BadLine is a line of the weight log that cannot be used. It stays in the file.
type BadLine struct {
	Line int
	// Col and EndCol mark the fault, counted from 1 in characters.
	Col, EndCol int
	Text        string
	Fault       *diag.InputError
}

// ParseWeights reads a weight log. Lines that cannot be used are returned beside
// the others. Empty lines, lines that begin with # and the header are skipped.
func ParseWeights(text string) (log []WeighIn, bad []BadLine) {
	log, _, bad = parseWeights(text)
	return log, bad
}

// parseWeights also returns the number of each entry's line.
func parseWeights(text string) (log []WeighIn, lines []int, bad []BadLine) {
	text = strings.TrimPrefix(text, "\ufeff")
	columns := len(strings.Split(oldWeightsHeader, ","))
	for number, line := range strings.Split(text, "\n") {
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
		entry, field, fault := parseWeighIn(line, columns)
		if fault != nil {
			col, end := fieldColumns(line, field)
			bad = append(bad, BadLine{Line: number + 1, Col: col, EndCol: end, Text: clipLine(line), Fault: fault})
			continue
		}
		log, lines = append(log, entry), append(lines, number+1)
	}
	return log, lines, bad
}

func clipLine(s string) string {
	if len(s) > maxLogLine {
		s = s[:maxLogLine]
	}
	return strings.ToValidUTF8(s, "?")
}

// headerColumns says whether a line is the header, whole or its first columns from the
// note on, and how many columns it names.
func headerColumns(line string) (n int, is bool) {
	names := strings.ToLower(strings.ReplaceAll(line, " ", ""))
	n = strings.Count(names, ",") + 1
	return n, names == oldWeightsHeader || strings.HasPrefix(names, oldWeightsHeader+",") && strings.HasPrefix(WeightsHeader+",", names+",")
}

// parseWeighIn reads one line; field is the number of the faulty one, or -1. A note may
// hold commas. What stands behind it counts from the end: two columns where the line has
// six fields or more that end like that, one where only the header names it.
func parseWeighIn(line string, columns int) (w WeighIn, field int, fault *diag.InputError) {
	const form = "write date,pet,kg,note like 2026-11-25,Marlow,31.5,"
	if len(line) > maxLogLine {
		return w, -1, diag.BadInput("log-line", fmt.Sprintf("the line is longer than %d bytes", maxLogLine), form)
	}
	fields := strings.SplitN(line, ",", 4)
	if len(fields) < 3 {
		return w, -1, diag.BadInput("log-line", "the line has less than three fields", form)
	}
	date, err := ParseDate(strings.TrimSpace(fields[0]))
	if err != nil {
		return w, 0, diag.BadInput("log-date", err.Error(), form)
	}
	w.Date, w.Pet = date, strings.TrimSpace(fields[1])
	if w.Pet == "" {
		return w, 1, diag.BadInput("log-line", "the line names no pet", form)
	}
	number := strings.TrimSpace(fields[2])
	if len(fields) == 4 {
		note, condition, off, fault := lastColumns(fields[3], columns)
		if fault != nil {
			return w, -1, fault
		}
		w.Note, w.Condition, w.OffPlanDays = strings.TrimSpace(note), condition, off
		// "31,5" splits into two fields; a note never begins with digits alone.
		first, _, _ := strings.Cut(w.Note, ",")
		if isDigits(strings.Trim(first, `" `)) && isDigits(strings.Trim(number, `" `)) {
			return w, 2, diag.BadInput("decimal-comma", fmt.Sprintf("%s,%s has a decimal comma", number, first),
				fmt.Sprintf("use a decimal point: %s.%s", strings.Trim(number, `" `), strings.Trim(first, `" `)))
		}
	}
	kg, err := strconv.ParseFloat(number, 64)
	if err != nil || !(kg > 0 && kg <= maxDogKg) {
		return w, 2, diag.BadInput("log-weight", fmt.Sprintf("%q is not a weight in kg", diag.Clip(number)), "write kilograms as a plain number, like 31.5")
	}
	w.Kg = kg
	return w, -1, nil
}

// lastColumns takes the score and the days off the plan from the end of a note. In a log
// with the old header they stand only in lines that this program added, which have both.
func lastColumns(text string, columns int) (note string, condition, off int, fault *diag.InputError) {
	parts := strings.Split(text, ",")
	named := columns > len(strings.Split(oldWeightsHeader, ","))
	at := len(parts) - 2
	if named && len(parts) == 2 || named && columns == 5 {
		at = len(parts) - 1
	}
	if at < 1 {
		return text, 0, 0, nil
	}
	behind := parts[at:]
	for _, s := range behind {
		// A note with commas whose line ends there.
		if s = strings.TrimSpace(s); s != "" && !isDigits(s) {
			return text, 0, 0, nil
		}
	}
	number := func(s string) int { n, _ := strconv.Atoi(strings.TrimSpace(s)); return n }
	condition = number(behind[0])
	if len(behind) == 2 {
		off = number(behind[1])
	}
	if condition > 9 || off > MaxOffPlanDays {
		return "", 0, 0, diag.BadInput("log-condition", fmt.Sprintf("a condition of %d or %d days off the plan cannot be", condition, off),
			fmt.Sprintf("the body condition score runs from 1 to 9; at most %d days off the plan", MaxOffPlanDays))
	}
	return strings.Join(parts[:at], ","), condition, off, nil
}

func isDigits(s string) bool {
	return s != "" && strings.Trim(s, "0123456789") == ""
}

// fieldColumns finds a comma-separated field; -1 is the whole line.
func fieldColumns(line string, field int) (col, end int) {
	line = clipLine(line)
	if field < 0 {
		return 1, len([]rune(line)) + 1
	}
	col = 1
	for i, f := range strings.Split(line, ",") {
		n := len([]rune(f))
		if i == field {
			return col, max(col+1, col+n)
		}
		col += n + 1
	}
	return 1, col
}

const (
	// jumpAdult and jumpYoung are by how much of itself a weight can hardly move
	// within jumpDays: more is a slip or an illness (common practice).
	jumpAdult, jumpYoung = 0.15, 0.60
	jumpDays             = 31
)

// WeightJump says whether a weighing is hard to believe after the weight in force:
// by what share it differs, and whether that is too much for the days between. A
// weight of household.toml has no day and counts as today's.
func WeightJump(p *Pet, w WeighIn) (share float64, jump bool) {
	was := p.Animal.WeightKg
	if was <= 0 {
		return 0, false
	}
	share = w.Kg/was - 1
	most := jumpAdult
	if p.Animal.Stage != nutrients.Adult {
		most = jumpYoung
	}
	soon := p.WeightDate.IsZero() || w.Date.DaysSince(p.WeightDate) <= jumpDays
	return share, soon && math.Abs(share) > most
}

// readWeights reads weights.csv, reports what cannot be used, and puts the weight
// in force on the loader's day into each pet.
func (l *loader) readWeights() {
	if _, err := os.Stat(filepath.Join(l.dir, WeightsFile)); errors.Is(err, os.ErrNotExist) {
		return
	}
	d, text, ok := tomldoc.OpenText(l.dir, WeightsFile)
	if !ok {
		l.collect(d)
		return
	}
	log, lines, bad := parseWeights(text)
	for _, b := range bad {
		d.Report(diag.Diagnostic{Severity: diag.Warning, Code: b.Fault.Code, Summary: b.Fault.Summary, Hint: b.Fault.Advice,
			At: diag.Span{File: WeightsFile, Line: b.Line, Col: b.Col, EndCol: b.EndCol, Excerpt: b.Text}})
	}
	l.home.Weights = log
	// Where lines of household.toml could not be read, a pet may stand in them.
	if len(l.home.Pets) > 0 && !l.broken {
		l.applyWeights(d, lines)
	}
	l.collect(d)
}

// applyWeights finds the pet of each line and the latest line of each pet.
func (l *loader) applyWeights(d *tomldoc.Document, lines []int) {
	jumps := map[*Pet]diag.Diagnostic{}
	// days holds each pet as it was on its last two days with a weighing: one that
	// agrees with either is no jump, for it may correct a slip.
	days := map[*Pet][2]Pet{}
	// strangers are the names that no pet has, each said once.
	strangers := map[string]bool{}
	for i := range l.home.Weights {
		w := &l.home.Weights[i]
		p, ok := l.home.Pet(w.Pet)
		if !ok {
			if _, away := l.home.AwayPet(w.Pet); away || strangers[strings.ToLower(w.Pet)] {
				continue
			}
			strangers[strings.ToLower(w.Pet)] = true
			d.Report(diag.Diagnostic{Severity: diag.Warning, Code: "unknown-pet",
				Summary: fmt.Sprintf("no pet is named %q: its weights are kept and not used", diag.Clip(w.Pet)),
				Hint:    diag.Hint{Text: strings.TrimSuffix(diag.NearHint(w.Pet, l.home.PetNames()), "?") + "; the lines of a pet that is gone may stay"}, At: d.Span(d.Field(lines[i], 1))})
			continue
		}
		w.Pet = p.Name
		if err := CheckWeight(w.Kg, p.Animal.Species); err != nil {
			in := err.(*diag.InputError)
			d.Report(diag.Diagnostic{Severity: diag.Warning, Code: in.Code, Summary: in.Summary, Hint: in.Advice, At: d.Span(d.Field(lines[i], 2))})
			continue
		}
		if l.today.Before(w.Date) || w.Date.Before(p.WeightDate) {
			continue
		}
		delete(jumps, p)
		if last := days[p]; p.WeightDate != w.Date {
			days[p] = [2]Pet{last[1], *p}
		}
		last := days[p]
		share, jump := WeightJump(&last[1], *w)
		if last[0].Name != "" {
			_, again := WeightJump(&last[0], *w)
			jump = jump && again
		}
		if jump && !last[1].WeightDate.IsZero() {
			jumps[p] = diag.Diagnostic{Severity: diag.Warning, Code: "weight-jump",
				Summary: fmt.Sprintf("the weight of %s jumps by %+.0f %%, from %s kg to %s kg", p.Name, 100*share, quantity.Text(last[1].Animal.WeightKg), quantity.Text(w.Kg)),
				Hint:    diag.Hint{Text: "weigh again; a second line of the same day corrects the first"}, At: d.Span(d.Field(lines[i], 2))}
		}
		p.Animal.WeightKg, p.WeightDate = w.Kg, w.Date
	}
	for i := range l.home.Pets {
		l.home.score(&l.home.Pets[i], l.today)
		if warning, ok := jumps[&l.home.Pets[i]]; ok {
			d.Report(warning)
		}
	}
}

// Line is the weighing as it is added to a log. In one with the old header it gets the
// last two columns only where something stands in them.
func (w WeighIn) Line(log string) string {
	number := func(n int) string {
		if n == 0 {
			return ""
		}
		return strconv.Itoa(n)
	}
	line := fmt.Sprintf("%s,%s,%s,%s", w.Date, w.Pet, kilograms(w.Kg), w.Note)
	header, _, _ := strings.Cut(strings.TrimPrefix(log, "\ufeff"), "\n")
	if n, is := headerColumns(strings.TrimSpace(header)); is && n > strings.Count(oldWeightsHeader, ",")+1 || w.Condition+w.OffPlanDays > 0 {
		line += "," + number(w.Condition) + "," + number(w.OffPlanDays)
	}
	return line + "\n"
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
