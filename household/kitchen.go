package household

import (
	"fmt"
	"strings"
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

// Limits of what a kitchen can be (common practice): outside them lies a slip.
const (
	maxMeals      = 12
	maxPremixDays = 120
	maxScaleG     = 50
	maxSlack      = 0.10
	maxMoved      = 0.20
)

// readKitchen reads [kitchen].
func readKitchen(t table) Kitchen {
	k := Kitchen{Meals: defaultMeals, ScaleG: defaultScaleG, PremixDays: defaultPremixDays,
		EnergySlack: defaultSlack, AddonEnergyShare: defaultAddonEnergy, WeightMoved: defaultWeightMoved}
	kt, ok := t.one("kitchen")
	if !ok {
		return k
	}
	kt.only("meals", "scale", "fine_scale", "premix_days", "energy_slack", "addon_energy", "weight_moved")
	if n, ok := kt.whole("meals", 1, maxMeals, "write how many meals a day are fed"); ok {
		k.Meals = n
	}
	if n, ok := kt.whole("premix_days", 1, maxPremixDays, "write for how many days a premix is weighed"); ok {
		k.PremixDays = n
	}
	k.ScaleG = kt.step("scale", k.ScaleG)
	k.FineScaleG = kt.step("fine_scale", 0)
	if k.FineScaleG >= k.ScaleG && k.FineScaleG > 0 {
		kt.fault("fine_scale", "scales-swapped", "the fine scale is not finer than the kitchen scale", "write the smaller step here, or leave fine_scale out")
	}
	k.EnergySlack = kt.share("energy_slack", k.EnergySlack, maxSlack)
	k.AddonEnergyShare = kt.share("addon_energy", k.AddonEnergyShare, 1)
	k.WeightMoved = kt.share("weight_moved", k.WeightMoved, maxMoved)
	return k
}

// step reads the smallest step of a scale.
func (t table) step(key string, otherwise float64) float64 {
	g, ok := t.positive(key, "1 g", parseMass)
	if !ok {
		return otherwise
	}
	if g > maxScaleG {
		t.fault(key, "absurd-amount", fmt.Sprintf("a scale with steps of %s g is of no use here", trim(g)), "write the smallest step that the scale shows, like \"1 g\"")
	}
	return g
}

// share reads "1 %" up to a limit.
func (t table) share(key string, otherwise, most float64) float64 {
	x, ok := t.positive(key, "1 %", parsePercent)
	if !ok {
		return otherwise
	}
	if x > most {
		t.fault(key, "out-of-range", fmt.Sprintf("%s is more than %s %%", key, trim(100*most)), fmt.Sprintf("write at most \"%s %%\"", trim(100*most)))
	}
	return x
}

// maxListed is how many names a hint lists.
const maxListed = 12

// joinSome lists names, not more than fit in a hint.
func joinSome(names []string) string {
	if len(names) > maxListed {
		return strings.Join(names[:maxListed], ", ") + ", …"
	}
	return strings.Join(names, ", ")
}
