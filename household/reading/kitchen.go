package reading

import (
	"fmt"
	"strconv"
	"strings"

	"bowlwright/household"
	"bowlwright/household/quantity"
	"bowlwright/household/tomldoc"
)

// What a kitchen is when household.toml does not say (common practice).
const (
	defaultMeals       = 2
	defaultScaleG      = 1.0
	defaultPremixDays  = 28
	defaultSlack       = 0.01
	defaultAddonEnergy = 0.20
	defaultWeightMoved = 0.03
)

// Limits of what plans may spend (common practice): outside them lies a slip.
const (
	maxAims   = 0.25
	maxWithin = 5
)

// readKitchen reads [kitchen].
func readKitchen(t tomldoc.Table) household.Kitchen {
	k := household.Kitchen{Meals: defaultMeals, ScaleG: defaultScaleG, PremixDays: defaultPremixDays,
		EnergySlack: defaultSlack, AddonEnergyShare: defaultAddonEnergy, WeightMoved: defaultWeightMoved,
		AimsShare: household.DefaultAimsShare, FewestWithin: household.DefaultFewestWithin}
	kt, ok := t.One("kitchen")
	if !ok {
		return k
	}
	kt.Only("meals", "scale", "fine_scale", "premix_days", "energy_slack", "addon_energy", "weight_moved", "aims", "fewest_within")
	if n, ok := kt.WholeNumber("meals", 1, household.MaxMeals, "write how many meals a day are fed"); ok {
		k.Meals = n
	}
	if n, ok := kt.WholeNumber("premix_days", 1, household.MaxPremixDays, "write for how many days a premix is weighed"); ok {
		k.PremixDays = n
	}
	k.ScaleG = readStep(kt, "scale", k.ScaleG)
	k.FineScaleG = readStep(kt, "fine_scale", 0)
	if k.FineScaleG >= k.ScaleG && k.FineScaleG > 0 {
		kt.Fault("fine_scale", "scales-swapped", "the fine scale is not finer than the kitchen scale", "write the smaller step here, or leave fine_scale out")
	}
	k.EnergySlack = readShare(kt, "energy_slack", k.EnergySlack, household.MaxSlack)
	k.AddonEnergyShare = readShare(kt, "addon_energy", k.AddonEnergyShare, 1)
	k.WeightMoved = readShare(kt, "weight_moved", k.WeightMoved, household.MaxMoved)
	k.AimsShare = readShare(kt, "aims", k.AimsShare, maxAims)
	k.FewestWithin = readTimes(kt, "fewest_within", k.FewestWithin, maxWithin)
	return k
}

// readStep reads the smallest step of a scale.
func readStep(t tomldoc.Table, key string, otherwise float64) float64 {
	g, ok := t.Positive(key, "1 g", quantity.Mass)
	if !ok {
		return otherwise
	}
	if g > household.MaxScaleG {
		t.Fault(key, "absurd-amount", fmt.Sprintf("a scale with steps of %s g is of no use here", quantity.Text(g)), "write the smallest step that the scale shows, like \"1 g\"")
	}
	return g
}

// readShare reads "1 %" up to a limit.
func readShare(t tomldoc.Table, key string, otherwise, most float64) float64 {
	x, ok := t.Positive(key, "1 %", quantity.Share)
	if !ok {
		return otherwise
	}
	if x > most {
		t.Fault(key, "out-of-range", fmt.Sprintf("%s is more than %s %%", key, quantity.Text(100*most)), fmt.Sprintf("write at most \"%s %%\"", quantity.Text(100*most)))
	}
	return x
}

// readTimes reads "2 x", from one up to a limit.
func readTimes(t tomldoc.Table, key string, otherwise, most float64) float64 {
	text, ok := t.Text(key)
	if !ok {
		return otherwise
	}
	number, found := strings.CutSuffix(text, "x")
	x, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if !found || err != nil || !(x >= 1 && x <= most) {
		t.Fault(key, "not-times", fmt.Sprintf("%q is not a number of times from 1 x to %s x", text, quantity.Text(most)), "write it like \"2 x\"")
		return otherwise
	}
	return x
}
