// Package nutrients owns the facts: nutrient ids and units, figures that may be
// unknown, the food catalogue, the published standards, the energy equations,
// cooking losses and hazards. It reads nothing but its embedded data.
//
// # Units
//
// Each nutrient has one canonical unit (see Nutrient.Unit); every figure inside
// the program is in that unit. Conversion happens once, at the edge, through
// Convert; a unit that does not fit the nutrient is an error.
//
// # Unknown
//
// A figure is known or unknown, and unknown is never zero. Sums carry coverage,
// the share by weight of the food whose figure is known. A lower limit counts
// only what is known (Figure.Lo); an upper limit counts the high end of what is
// known (Figure.Hi) and is not fully checked while coverage is below one.
package nutrients
