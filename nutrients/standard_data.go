package nutrients

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"
)

//go:embed data/nrc2006.txt
var nrcText string

//go:embed data/fediaf2021.txt
var fediafText string

//go:embed data/aafco2016.txt
var aafcoText string

var standardTables = sync.OnceValue(func() map[StandardID][]Row {
	tables := map[StandardID][]Row{}
	for id, text := range map[StandardID]string{NRC2006: nrcText, FEDIAF2021: fediafText, AAFCO2016: aafcoText} {
		rows, err := parseStandard(id, text)
		if err != nil {
			panic("nutrients: the embedded standard " + string(id) + " is broken: " + err.Error())
		}
		tables[id] = rows
	}
	return tables
})

// Rows returns all rows of a standard in the order of the table, nil for a
// standard that is not known.
func Rows(id StandardID) []Row { return standardTables()[id] }

// Standards lists the standards that are known.
func Standards() []StandardID { return []StandardID{NRC2006, FEDIAF2021, AAFCO2016} }

// parseStandard reads the form that the head of the data files describes.
func parseStandard(id StandardID, text string) ([]Row, error) {
	var rows []Row
	var species Species
	var stage string
	for number, line := range strings.Split(text, "\n") {
		if line == "" || line[0] == '#' {
			continue
		}
		if rest, ok := strings.CutPrefix(line, "for "); ok {
			sp, st, _ := strings.Cut(rest, " ")
			species, stage = Species(sp), st
			continue
		}
		fields := strings.Split(line, " | ")
		words := strings.Fields(fields[0])
		if len(fields) != 3 || len(words) != 5 || stage == "" {
			return nil, fmt.Errorf("line %d: want NUTRIENT BASIS BOUND VALUE UNIT | source | where", number+1)
		}
		value, err := strconv.ParseFloat(words[3], 64)
		if err != nil {
			return nil, fmt.Errorf("line %d: %w", number+1, err)
		}
		src := Source{Text: fields[1], Recalled: fields[2] == recalledMark}
		if !src.Recalled {
			src.Note = "read in: " + fields[2]
		}
		rows = append(rows, Row{Standard: id, Species: species, Stage: stage, Nutrient: words[0],
			Basis: Basis(words[1]), Bound: Bound(words[2]), Value: value, Unit: words[4], Source: src})
	}
	return rows, nil
}

// OwnStandard is a standard that a household wrote down: a table of its own, or another
// edition of a published one.
type OwnStandard struct {
	ID StandardID
	// Rows hold figures per 1000 kcal and per kg metabolic weight, with a life stage as
	// their stage and "min" or "sul" as their bound, and ratios.
	Rows []Row
	// Reference is the energy per kg metabolic weight for which the densities of adults
	// were set, by species.
	Reference map[Species]float64
	// Digest covers every figure: a changed cell is another standard.
	Digest string
}

// rows are those of the standard that an animal is planned by.
func (a Animal) rows() []Row {
	if a.Own != nil {
		return a.Own.Rows
	}
	return Rows(a.Standard)
}

// StandardDigest is that of a standard of the household's own, "" for the others, whose
// name says all.
func (a Animal) StandardDigest() string {
	if a.Own == nil {
		return ""
	}
	return a.Own.Digest
}
