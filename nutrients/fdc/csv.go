package fdc

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"bowlwright/nutrients"
)

// Files are the tables of a FoodData Central download in CSV. Food, Nutrient and
// FoodNutrient are needed; the others may be nil.
type Files struct {
	Food, Nutrient, FoodNutrient               io.Reader
	Category, Portion, MeasureUnit, Derivation io.Reader
}

// foodKinds are the data types that are read; branded and survey foods are left
// out, because their figures are rounded labels or mixtures.
var foodKinds = map[string]string{"sr_legacy_food": "SR Legacy", "foundation_food": "Foundation"}

// ReadCSV reads a download in CSV. The tables are streamed; beside the result
// only the small ones are held, so that a download of several hundred MB fits.
func ReadCSV(in Files) (Result, error) {
	if in.Food == nil || in.Nutrient == nil || in.FoodNutrient == nil {
		return Result{}, errors.New("food.csv, nutrient.csv and food_nutrient.csv are all needed")
	}
	c := newCollector()
	categories, err := pairs("food_category.csv", in.Category, "id", "description")
	if err != nil {
		return Result{}, err
	}
	derivations, err := pairs("food_nutrient_derivation.csv", in.Derivation, "id", "code")
	if err != nil {
		return Result{}, err
	}
	units, err := pairs("measure_unit.csv", in.MeasureUnit, "id", "name")
	if err != nil {
		return Result{}, err
	}
	type meaning struct{ number, name, unit string }
	nutrient := map[string]meaning{}
	err = rows("nutrient.csv", in.Nutrient, []string{"id", "name", "unit_name", "nutrient_nbr"}, func(v []string) error {
		nutrient[v[0]] = meaning{number: v[3], name: v[1], unit: v[2]}
		return nil
	})
	if err != nil {
		return Result{}, err
	}
	type entry struct {
		food    *nutrients.Food
		rank    [nutrients.Count]int
		ordinal int
	}
	foods := map[string]*entry{}
	err = rows("food.csv", in.Food, []string{"fdc_id", "data_type", "description", "food_category_id"}, func(v []string) error {
		kind, wanted := foodKinds[v[1]]
		if !wanted {
			c.result.Skipped[v[1]]++
			return nil
		}
		group := v[3]
		if name, ok := categories[group]; ok {
			group = name
		}
		foods[v[0]] = &entry{food: newFood(v[2], group, kind, v[0]), ordinal: len(foods)}
		return nil
	})
	if err != nil {
		return Result{}, err
	}
	err = rows("food_nutrient.csv", in.FoodNutrient, []string{"fdc_id", "nutrient_id", "amount", "derivation_id"}, func(v []string) error {
		e, ok := foods[v[0]]
		if !ok {
			return nil
		}
		n, ok := nutrient[v[1]]
		if !ok {
			c.note("nutrient id "+v[1], "not in nutrient.csv")
			return nil
		}
		amount, err := strconv.ParseFloat(v[2], 64)
		if err != nil {
			c.note(n.number+" "+n.name, "no amount given")
			return nil
		}
		c.rank = e.rank
		c.set(e.food, figure{strings.TrimSuffix(n.number, ".0"), n.name, n.unit, derivations[v[3]], amount})
		e.rank = c.rank
		return nil
	})
	if err != nil {
		return Result{}, err
	}
	err = rows("food_portion.csv", in.Portion, []string{"fdc_id", "amount", "measure_unit_id", "portion_description", "modifier", "gram_weight"}, func(v []string) error {
		if e, ok := foods[v[0]]; ok {
			amount, _ := strconv.ParseFloat(v[1], 64)
			grams, _ := strconv.ParseFloat(v[5], 64)
			c.portion(e.food, amount, units[v[2]], v[4], v[3], grams)
		}
		return nil
	})
	if err != nil {
		return Result{}, err
	}
	ids := make([]string, 0, len(foods))
	for id := range foods {
		ids = append(ids, id)
	}
	slices.SortFunc(ids, func(a, b string) int { return foods[a].ordinal - foods[b].ordinal })
	for _, id := range ids {
		c.add(foods[id].food, id)
	}
	return c.finish(), nil
}

// pairs reads a small table into a map; a nil reader gives an empty one.
func pairs(file string, r io.Reader, key, value string) (map[string]string, error) {
	m := map[string]string{}
	err := rows(file, r, []string{key, value}, func(v []string) error {
		m[v[0]] = v[1]
		return nil
	})
	return m, err
}

// rows calls f with the named columns of each line. The values are valid until
// the next line is read. A nil reader has no lines.
func rows(file string, r io.Reader, columns []string, f func([]string) error) error {
	if r == nil {
		return nil
	}
	in := csv.NewReader(r)
	in.ReuseRecord = true
	in.FieldsPerRecord = -1
	head, err := in.Read()
	if err != nil {
		return fmt.Errorf("%s: no header line: %w", file, err)
	}
	at := make([]int, len(columns))
	for i, name := range columns {
		at[i] = slices.IndexFunc(head, func(h string) bool { return strings.TrimPrefix(h, "\ufeff") == name })
		if at[i] < 0 {
			return fmt.Errorf("%s: no column %q in the header", file, name)
		}
	}
	values := make([]string, len(columns))
	for {
		record, err := in.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: %w", file, err)
		}
		for i, j := range at {
			if values[i] = ""; j < len(record) {
				// A copy: the reader's buffer is reused, and ids are kept.
				values[i] = strings.Clone(record[j])
			}
		}
		if err := f(values); err != nil {
			line, _ := in.FieldPos(0)
			return fmt.Errorf("%s:%d: %w", file, line, err)
		}
	}
}
