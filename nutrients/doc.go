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
//
// # Decisions
//
// Minimum is NRC's recommended allowance, else the adequate intake, else the minimal
// requirement. The reference energy is 130 kcal/kg^0.75 for dogs and 100 kcal/kg^0.67
// for cats at ideal weight; for growth, pregnancy and nursing the equation's own
// energy. Total fat follows the energy fed where a standard prints it per energy only.
//
// Maximum is density x energy really given, and the amount per kg metabolic weight
// where the standard prints one, whichever is stricter. A figure printed with ">" (no
// harm seen up to there) refuses no base; add-ons may not push past the larger of it
// and what base and extras bring.
//
// No maximum is no licence. Of a nutrient for which the standard prints no maximum,
// one supplement, seaweed or product of the household's own brings at most five times
// the minimum (minerals, amino acids, choline), twenty times of vitamin E, K and the B
// vitamins; a helping for several days holds at most twice that, of vitamins a week's.
// Else iodide would be a source of potassium, and a kitchen without a fine scale would
// get twenty grams of iron. It is a cap of the item in every stage, and a row of the
// program ("iodine from concentrates") for all concentrates of the shelf together:
// without it iron came to fifteen times from three of them. It is no limit of the day:
// base and extras may bring more. Where a whole day, food and all, is over five times
// for iron, copper, zinc, iodine or selenium, the plan carries a caution with the
// number of times and is not refused.
//
// Vitamin K of food is counted weight for weight against menadione (common practice).
//
// Vitamin A of dogs counts beta-carotene at 833 IU/mg (recalled) toward the minimum;
// the maximum counts preformed retinol.
//
// Calcium to phosphorus for NRC, which prints no range: 1:1 to 2:1, common practice.
//
// Assumed zeros of SR28 (source code 7) are unknown for vitamin D, vitamin K, EPA, DHA
// and retinol of animal foods; plants hold none of these by nature.
//
// Cooking takes off published losses with the liquid poured away; a nutrient that the
// table does not cover is counted as kept, and the notes say so. Retentions over one
// are the noise of unmatched pairs and are taken for one.
//
// AAFCO names no energy for its densities. Its 18 % of protein for adult dogs is what
// FEDIAF asks at 110 kcal per kg^0.75, its 26 % for cats about FEDIAF's 25 % at 100 per
// kg^0.67, so these are its reference energies; NRC's 130 asked a dieting dog for 84 g of
// protein per 1000 kcal.
//
// Where a source that was looked up gives another figure than the table, both rows stand
// and the careful one counts, also where the other is of an older edition. FEDIAF's maxima
// for growth bind growth; a pregnant or nursing bitch has the adult's.
//
// Taurine of cats is at least what FEDIAF asks of canned food, in every standard. Arginine
// rises with protein (NRC, FEDIAF), a cat's vitamin E with EPA + DHA over their minimum:
// the standards say so of fish oil, of which 0.3 g in a gram are EPA and DHA.
//
// Energy: up to 2 % over the ideal weight an animal is held at it, from 20 % over the
// published factor for loss counts, between them a straight line. Young dogs (under two
// years), older ones (over seven) and neutered cats have published coefficients of their
// own. Young under four weeks are not planned.
//
// A kitchen gives so much of a food (data/kitchen.txt) and no more, unless less would miss
// more; max on the shelf says otherwise. A vitamin of which no scale weighs a day is
// diluted in starch at home only where no standard prints a maximum of it.
//
// FEDIAF's legal maxima (per dry matter, for additives in feed for sale) are in the
// table and are not limits of a home-cooked day.
package nutrients
