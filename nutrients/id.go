package nutrients

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Unit is a canonical unit of measure.
type Unit string

// The canonical units.
const (
	Gram      Unit = "g"
	Milligram Unit = "mg"
	Microgram Unit = "ug"
	Kilocal   Unit = "kcal"
)

// ID names a nutrient. Its text form is kebab-case and stable.
type ID uint8

// The nutrients, in the order of reports. Ids from VitaminA to Energy in the
// derived block are computed for a species by Profile.For and are never stored.
const (
	Water ID = iota
	Protein
	Arginine
	Histidine
	Isoleucine
	Leucine
	Lysine
	Methionine
	Cystine
	Phenylalanine
	Tyrosine
	Threonine
	Tryptophan
	Valine
	Taurine
	Fat
	LinoleicAcid
	AlphaLinolenicAcid
	ArachidonicAcid
	EPA
	DHA
	DPA
	Saturated
	Monounsaturated
	Polyunsaturated
	Cholesterol
	Carbohydrate
	DigestibleCarbohydrate
	Fiber
	Sugars
	Ash
	Calcium
	Phosphorus
	Magnesium
	Sodium
	Potassium
	Chloride
	Iron
	Copper
	Zinc
	Manganese
	Selenium
	Iodine
	VitaminARAE
	Retinol
	BetaCarotene
	AlphaCarotene
	Cryptoxanthin
	VitaminD
	VitaminE
	Phylloquinone
	Menaquinone4
	Thiamin
	Riboflavin
	VitaminB6
	Niacin
	PantothenicAcid
	VitaminB12
	Folate
	Biotin
	Choline
	VitaminC
	Carnitine

	MethionineCystine
	PhenylalanineTyrosine
	EPADHA
	VitaminA
	VitaminK
	Energy

	// Count is the number of nutrients.
	Count
)

// firstDerived is the first nutrient that is computed and never stored.
const firstDerived = MethionineCystine

// Nutrient says what an id means.
type Nutrient struct {
	// Key is the stable kebab-case id; Name is for people.
	Key, Name string
	// Unit is the canonical unit of every figure of this nutrient.
	Unit Unit
}

var nutrientTable = [Count]Nutrient{
	Water: {"water", "Water", Gram}, Protein: {"protein", "Protein", Gram},
	Arginine: {"arginine", "Arginine", Gram}, Histidine: {"histidine", "Histidine", Gram},
	Isoleucine: {"isoleucine", "Isoleucine", Gram}, Leucine: {"leucine", "Leucine", Gram},
	Lysine: {"lysine", "Lysine", Gram}, Methionine: {"methionine", "Methionine", Gram},
	Cystine: {"cystine", "Cystine", Gram}, Phenylalanine: {"phenylalanine", "Phenylalanine", Gram},
	Tyrosine: {"tyrosine", "Tyrosine", Gram}, Threonine: {"threonine", "Threonine", Gram},
	Tryptophan: {"tryptophan", "Tryptophan", Gram}, Valine: {"valine", "Valine", Gram},
	Taurine: {"taurine", "Taurine", Milligram}, Fat: {"fat", "Fat", Gram},
	LinoleicAcid:       {"linoleic-acid", "Linoleic acid", Gram},
	AlphaLinolenicAcid: {"alpha-linolenic-acid", "Alpha-linolenic acid", Gram},
	ArachidonicAcid:    {"arachidonic-acid", "Arachidonic acid", Gram},
	EPA:                {"epa", "EPA", Gram}, DHA: {"dha", "DHA", Gram}, DPA: {"dpa", "DPA", Gram},
	Saturated:       {"saturated", "Saturated fat", Gram},
	Monounsaturated: {"monounsaturated", "Monounsaturated fat", Gram},
	Polyunsaturated: {"polyunsaturated", "Polyunsaturated fat", Gram},
	Cholesterol:     {"cholesterol", "Cholesterol", Milligram},
	// Carbohydrate is as the source publishes it; some sources count fibre in it.
	Carbohydrate:           {"carbohydrate", "Carbohydrate", Gram},
	DigestibleCarbohydrate: {"digestible-carbohydrate", "Carbohydrate without fibre", Gram},
	Fiber:                  {"fiber", "Dietary fibre", Gram}, Sugars: {"sugars", "Sugars", Gram},
	Ash: {"ash", "Ash", Gram}, Calcium: {"calcium", "Calcium", Milligram},
	Phosphorus: {"phosphorus", "Phosphorus", Milligram}, Magnesium: {"magnesium", "Magnesium", Milligram},
	Sodium: {"sodium", "Sodium", Milligram}, Potassium: {"potassium", "Potassium", Milligram},
	Chloride: {"chloride", "Chloride", Milligram}, Iron: {"iron", "Iron", Milligram},
	Copper: {"copper", "Copper", Milligram}, Zinc: {"zinc", "Zinc", Milligram},
	Manganese: {"manganese", "Manganese", Milligram}, Selenium: {"selenium", "Selenium", Microgram},
	Iodine: {"iodine", "Iodine", Microgram}, VitaminARAE: {"vitamin-a-rae", "Vitamin A, RAE", Microgram},
	Retinol:       {"retinol", "Retinol", Microgram},
	BetaCarotene:  {"beta-carotene", "Beta-carotene", Microgram},
	AlphaCarotene: {"alpha-carotene", "Alpha-carotene", Microgram},
	Cryptoxanthin: {"cryptoxanthin", "Cryptoxanthin", Microgram},
	VitaminD:      {"vitamin-d", "Vitamin D", Microgram}, VitaminE: {"vitamin-e", "Vitamin E", Milligram},
	Phylloquinone: {"phylloquinone", "Vitamin K1", Microgram},
	Menaquinone4:  {"menaquinone-4", "Menaquinone-4", Microgram},
	Thiamin:       {"thiamin", "Thiamin", Milligram}, Riboflavin: {"riboflavin", "Riboflavin", Milligram},
	VitaminB6: {"vitamin-b6", "Vitamin B6", Milligram}, Niacin: {"niacin", "Niacin", Milligram},
	PantothenicAcid: {"pantothenic-acid", "Pantothenic acid", Milligram},
	VitaminB12:      {"vitamin-b12", "Vitamin B12", Microgram}, Folate: {"folate", "Folate", Microgram},
	Biotin: {"biotin", "Biotin", Microgram}, Choline: {"choline", "Choline", Milligram},
	VitaminC: {"vitamin-c", "Vitamin C", Milligram}, Carnitine: {"carnitine", "Carnitine", Milligram},
	MethionineCystine:     {"methionine-cystine", "Methionine + cystine", Gram},
	PhenylalanineTyrosine: {"phenylalanine-tyrosine", "Phenylalanine + tyrosine", Gram},
	EPADHA:                {"epa-dha", "EPA + DHA", Gram}, VitaminA: {"vitamin-a", "Vitamin A", Microgram},
	VitaminK: {"vitamin-k", "Vitamin K", Microgram}, Energy: {"energy", "Energy", Kilocal},
}

var idByKey = func() map[string]ID {
	m := make(map[string]ID, Count)
	for i, n := range nutrientTable {
		m[n.Key] = ID(i)
	}
	return m
}()

// ParseID finds a nutrient by its kebab-case id.
func ParseID(key string) (ID, bool) {
	id, ok := idByKey[key]
	return id, ok
}

// Info returns what the id means. It panics on an id that does not exist.
func (id ID) Info() Nutrient { return nutrientTable[id] }

// Derived says whether the nutrient is computed from others and never stored.
func (id ID) Derived() bool { return id >= firstDerived }

func (id ID) String() string { return nutrientTable[id].Key }

// MarshalText writes the kebab-case id.
func (id ID) MarshalText() ([]byte, error) { return []byte(id.String()), nil }

// UnmarshalText reads the kebab-case id.
func (id *ID) UnmarshalText(b []byte) error {
	got, ok := ParseID(string(b))
	if !ok {
		return fmt.Errorf("unknown nutrient %q", b)
	}
	*id = got
	return nil
}

// InSentence writes a nutrient's name as it stands within a sentence: "vitamin D",
// but names that begin with initials stay, as "EPA + DHA".
func InSentence(name string) string {
	if len(name) > 1 && name[1] >= 'A' && name[1] <= 'Z' {
		return name
	}
	return strings.ToLower(name[:1]) + name[1:]
}

// Capital begins a text as a sentence begins.
func Capital(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	if size == 0 {
		return text
	}
	return string(unicode.ToUpper(first)) + text[size:]
}
