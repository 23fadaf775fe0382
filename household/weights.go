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

// WeightsHeader is the first line of the weight log.
const WeightsHeader = "date,pet,kg,note"

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
	for number, line := range strings.Split(text, "\n") {
		line = strings.TrimSuffix(line, "\r")
		trimmed := strings.TrimSpace(line)
		if trimmed == "" || trimmed[0] == '#' || number == 0 && strings.EqualFold(strings.ReplaceAll(trimmed, " ", ""), WeightsHeader) {
			continue
		}
		entry, field, fault := parseWeighIn(line)
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

// parseWeighIn reads one line; field is the number of the faulty one, or -1.
func parseWeighIn(line string) (w WeighIn, field int, fault *diag.InputError) {
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
		w.Note = strings.TrimSpace(fields[3])
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
	for i := range l.home.Weights {
		w := &l.home.Weights[i]
		p, ok := l.home.Pet(w.Pet)
		if !ok {
			d.Add("unknown-pet", d.Field(lines[i], 1), fmt.Sprintf("no pet is named %q", diag.Clip(w.Pet)),
				strings.TrimSuffix(diag.NearHint(w.Pet, l.home.PetNames()), "?")+"; for a pet that is gone, put # in front of the line")
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
		if warning, ok := jumps[&l.home.Pets[i]]; ok {
			d.Report(warning)
		}
	}
}
