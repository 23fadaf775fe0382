package diet

import "bowlwright/nutrients"

// addOneRate holds the dose of a jar that goes into every bowl at one rate to the grams of
// base: to half a step of the scale that doses are weighed on.
func (p *Program) addOneRate() {
	for j, x := range p.Items {
		if x.Addon == nil || x.Addon.Jar == nil || x.Addon.Jar.RateG <= 0 {
			continue
		}
		step := p.Kitchen.FineScaleG
		if step <= 0 {
			step = p.Kitchen.ScaleG
		}
		rate := x.Addon.Jar.RateG / 100
		room := step / 2 * (1 + rateTol)
		r := Row{Limit: nutrients.OneRate, A: make([]float64, len(p.Items)), Lower: -room, Upper: room, Size: max(step, rate*p.Items[0].Cap)}
		r.A[0], r.A[j] = -rate, 1
		p.Rows = append(p.Rows, r)
	}
}

// rateTol keeps the rounding of a product from deciding between two steps.
const rateTol = 1e-6
