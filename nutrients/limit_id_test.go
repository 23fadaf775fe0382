package nutrients

import "testing"

// Records hold limits as text: each is read back as it was written, and text of a newer
// program is kept.
func TestLimitIDText(t *testing.T) {
	for text, want := range map[string]LimitID{
		"calcium lower":                {OfNutrient, Calcium, "", Minimum},
		"vitamin-d upper":              {OfNutrient, VitaminD, "", Maximum},
		"calcium-phosphorus lower":     {OfRatio, 0, "calcium-phosphorus", Minimum},
		"omega6-omega3 upper":          {OfRatio, 0, "omega6-omega3", Maximum},
		"iodine from concentrates":     {OfConcentrates, Iodine, "", Maximum},
		"lysine without harm":          {OfUnharmed, Lysine, "", Maximum},
		"arginine risen":               {OfRisen, Arginine, "", Minimum},
		"energy":                       EnergyOfDay,
		"energy from add-ons":          EnergyOfAddons,
		"all that is missed":           AllMissed,
		"another calcium lower":        {OfDay, 0, "another calcium lower", Minimum},
		"something from concentrates":  {OfDay, 0, "something from concentrates", Minimum},
		"herbs of a day over the most": {OfDay, 0, "herbs of a day over the most", Minimum},
	} {
		got := ParseLimitID(text)
		if got != want || got.String() != text {
			t.Errorf("%q: %+v, written %q", text, got, got.String())
		}
	}
}
