package fdc

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"strconv"

	"bowlwright/nutrients"
)

// foodArrays are the arrays of the published JSON files that hold foods.
var foodArrays = map[string]string{"SRLegacyFoods": "SR Legacy", "FoundationFoods": "Foundation"}

type jsonFood struct {
	FdcID        int64  `json:"fdcId"`
	NdbNumber    any    `json:"ndbNumber"`
	Description  string `json:"description"`
	FoodCategory struct {
		Description string `json:"description"`
	} `json:"foodCategory"`
	FoodNutrients []struct {
		Amount   *float64 `json:"amount"`
		Nutrient struct {
			Number   string `json:"number"`
			Name     string `json:"name"`
			UnitName string `json:"unitName"`
		} `json:"nutrient"`
		Derivation struct {
			Code string `json:"code"`
		} `json:"foodNutrientDerivation"`
	} `json:"foodNutrients"`
	FoodPortions []struct {
		Amount      float64 `json:"amount"`
		Modifier    string  `json:"modifier"`
		Description string  `json:"portionDescription"`
		GramWeight  float64 `json:"gramWeight"`
		MeasureUnit struct {
			Name string `json:"name"`
		} `json:"measureUnit"`
	} `json:"foodPortions"`
}

// ReadJSON reads a FoodData Central download in JSON (SR Legacy or Foundation).
// It holds one food at a time beside the result. The error names the food at
// which the text stops being JSON of that form.
func ReadJSON(r io.Reader) (Result, error) {
	c := newCollector()
	d := json.NewDecoder(r)
	if err := expect(d, json.Delim('{')); err != nil {
		return Result{}, err
	}
	found := false
	for d.More() {
		key, err := d.Token()
		if err != nil {
			return Result{}, fmt.Errorf("broken json: %w", err)
		}
		kind, isFoods := foodArrays[fmt.Sprint(key)]
		if !isFoods {
			var skip json.RawMessage
			if err := d.Decode(&skip); err != nil {
				return Result{}, fmt.Errorf("broken json in %v: %w", key, err)
			}
			c.note(fmt.Sprint(key), "a part of the file that holds no foods of a known kind")
			continue
		}
		found = true
		if err := c.readArray(d, kind); err != nil {
			return Result{}, err
		}
	}
	if err := expect(d, json.Delim('}')); err != nil {
		return Result{}, err
	}
	if !found {
		return Result{}, errors.New("no SRLegacyFoods or FoundationFoods in this file: is it a FoodData Central download?")
	}
	return c.finish(), nil
}

func expect(d *json.Decoder, want json.Delim) error {
	got, err := d.Token()
	if err != nil {
		return fmt.Errorf("broken json: %w", err)
	}
	if got != want {
		return fmt.Errorf("found %v where %v was expected: is it a FoodData Central download?", got, want)
	}
	return nil
}

func (c *collector) readArray(d *json.Decoder, kind string) error {
	if err := expect(d, json.Delim('[')); err != nil {
		return err
	}
	for d.More() {
		var in jsonFood
		if err := d.Decode(&in); err != nil {
			return fmt.Errorf("food %d of %s: %w", len(c.result.Foods)+1, kind, err)
		}
		c.addJSON(&in, kind)
	}
	return expect(d, json.Delim(']'))
}

func (c *collector) addJSON(in *jsonFood, kind string) {
	if in.Description == "" {
		c.note("food "+strconv.FormatInt(in.FdcID, 10), "no description")
		return
	}
	f := newFood(in.Description, in.FoodCategory.Description, kind, strconv.FormatInt(in.FdcID, 10))
	for _, n := range in.FoodNutrients {
		if n.Amount == nil {
			c.note(n.Nutrient.Number+" "+n.Nutrient.Name, "no amount given")
			continue
		}
		c.set(f, figure{n.Nutrient.Number, n.Nutrient.Name, n.Nutrient.UnitName, n.Derivation.Code, *n.Amount})
	}
	for _, p := range in.FoodPortions {
		unit := p.MeasureUnit.Name
		if unit == "undetermined" {
			unit = ""
		}
		c.portion(f, p.Amount, unit, p.Modifier, p.Description, p.GramWeight)
	}
	c.add(f, strconv.FormatInt(in.FdcID, 10))
}

// newFood starts a food of FoodData Central.
func newFood(name, group, kind, fdcID string) *nutrients.Food {
	f := &nutrients.Food{Name: name, Group: slug(group)}
	if f.Group == "" {
		f.Group = "imported"
	}
	f.Source = nutrients.Source{Text: "USDA FoodData Central, " + kind + ", FDC id " + fdcID}
	return f
}
