package nutrients

import "strings"

// Side is the end of a range that a limit holds.
type Side uint8

// The two sides. In records and JSON they are written "lower" and "upper".
const (
	Minimum Side = iota
	Maximum
)

func (s Side) String() string {
	if s == Maximum {
		return "upper"
	}
	return "lower"
}

// LimitKind says what a limit is about.
type LimitKind uint8

// The kinds of limits.
const (
	// OfNutrient is a nutrient's minimum or maximum, OfRatio that of a quotient.
	OfNutrient LimitKind = iota
	OfRatio
	// OfConcentrates is the most that all concentrates together bring of a nutrient for
	// which the standard prints no maximum.
	OfConcentrates
	// OfUnharmed is the most of a nutrient that add-ons may leave a day with where no
	// harm was seen up to an amount; food alone may bring more.
	OfUnharmed
	// OfRisen is a minimum that grows with another nutrient of the day.
	OfRisen
	// OfDay is a limit of the whole day that is no nutrient's: its energy, for example.
	OfDay
)

// LimitID names one limit of a day. It is comparable; its text, which records hold, is
// "calcium lower", "calcium-phosphorus upper", "iodine from concentrates" or "energy".
type LimitID struct {
	Kind LimitKind
	// Nutrient is set for all kinds but these two, Name for OfRatio (its key) and
	// for OfDay.
	Nutrient ID
	Name     string
	Side     Side
}

// The limits of a day that are no nutrient's.
var (
	// EnergyOfDay is the energy from base and add-ons.
	EnergyOfDay = LimitID{Kind: OfDay, Name: "energy"}
	// EnergyOfAddons is the share of it that add-ons may bring.
	EnergyOfAddons = LimitID{Kind: OfDay, Name: "energy from add-ons", Side: Maximum}
	// OneRate holds the dose of a jar to the grams of base, at the rate of all its pets.
	OneRate = LimitID{Kind: OfDay, Name: "one rate for all"}
	// AllMissed sums what is missed, in units of each limit.
	AllMissed = LimitID{Kind: OfDay, Name: "all that is missed", Side: Maximum}
)

// How the text of a limit ends that is no plain minimum or maximum.
const (
	fromConcentrates = " from concentrates"
	withoutHarm      = " without harm"
	risen            = " risen"
)

// MinimumOf names the minimum of a nutrient.
func MinimumOf(id ID) LimitID { return LimitID{Nutrient: id} }

// MaximumOf names the maximum of a nutrient.
func MaximumOf(id ID) LimitID { return LimitID{Nutrient: id, Side: Maximum} }

// MostConcentrated names the most that concentrates bring of a nutrient together.
func MostConcentrated(id ID) LimitID {
	return LimitID{Kind: OfConcentrates, Nutrient: id, Side: Maximum}
}

// MostUnharmed names the most of a nutrient up to which no harm was seen.
func MostUnharmed(id ID) LimitID {
	return LimitID{Kind: OfUnharmed, Nutrient: id, Side: Maximum}
}

// RisenMinimum names a minimum that grows with another nutrient.
func RisenMinimum(id ID) LimitID { return LimitID{Kind: OfRisen, Nutrient: id} }

// RatioLimit names a side of a ratio by its key.
func RatioLimit(key string, side Side) LimitID {
	return LimitID{Kind: OfRatio, Name: key, Side: side}
}

// IsOf says whether a limit is about a nutrient, alone or from concentrates.
func (l LimitID) IsOf(id ID) bool {
	return l.Kind != OfRatio && l.Kind != OfDay && l.Nutrient == id
}

func (l LimitID) String() string {
	switch l.Kind {
	case OfNutrient:
		return l.Nutrient.String() + " " + l.Side.String()
	case OfRatio:
		return l.Name + " " + l.Side.String()
	case OfConcentrates:
		return l.Nutrient.String() + fromConcentrates
	case OfUnharmed:
		return l.Nutrient.String() + withoutHarm
	case OfRisen:
		return l.Nutrient.String() + risen
	}
	return l.Name
}

// ParseLimitID reads the text of a limit. Text that is none of a nutrient's or a ratio's
// is a limit of the day by that name, so that a record of a newer program can be read.
func ParseLimitID(text string) LimitID {
	for _, known := range []LimitID{EnergyOfDay, EnergyOfAddons, OneRate, AllMissed} {
		if text == known.Name {
			return known
		}
	}
	for end, name := range map[string]func(ID) LimitID{fromConcentrates: MostConcentrated, withoutHarm: MostUnharmed, risen: RisenMinimum} {
		if key, ok := strings.CutSuffix(text, end); ok {
			if id, ok := ParseID(key); ok {
				return name(id)
			}
		}
	}
	for _, side := range []Side{Minimum, Maximum} {
		key, ok := strings.CutSuffix(text, " "+side.String())
		if !ok {
			continue
		}
		if id, ok := ParseID(key); ok {
			return LimitID{Nutrient: id, Side: side}
		}
		if !strings.Contains(key, " ") {
			return RatioLimit(key, side)
		}
	}
	return LimitID{Kind: OfDay, Name: text}
}

// MarshalText writes the text of a limit.
func (l LimitID) MarshalText() ([]byte, error) { return []byte(l.String()), nil }

// UnmarshalText reads the text of a limit; it never fails.
func (l *LimitID) UnmarshalText(text []byte) error {
	*l = ParseLimitID(string(text))
	return nil
}
