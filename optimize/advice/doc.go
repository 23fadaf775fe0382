// Package advice looks for what would make plans better: additions to the shelf of one
// pet (Suggest), and changes of the base that everybody eats of (Improve).
//
// # Decisions
//
// improve holds every change to all pets of the household, because they eat from one
// pot, and changes nothing itself. Foods that need a warning (seaweed) are not
// proposed, supplements only from the shelf and no more of them than the pet gets that
// wants most: not every nutrient has a maximum, and of iron, copper, zinc, iodine and
// selenium without one no change brings a day over five times the minimum, nor the
// concentrates of pot and shelf together over what those of a shelf may bring. A
// concentrate new to the pot brings no bowl more than an add-on may. Single changes
// are searched exactly; two or three together come from one program that joins the
// pets' programs by the shares of a pot of unchanged energy, and are then worked out
// anew from the changed recipe. With a declared yield the new code is not foretold,
// and the yield keeps its share of what the tables expect. Entries of one food by one
// method are one ingredient. Every advice is planned for everybody with whole steps of
// the scales, and dropped where somebody would miss more, or a plan would be called
// worse than now: who was met stays met, on exact amounts as on weighed ones. Changes
// together are shrunk and rounded within the 15 % of the raw weight that a change may
// add; amounts are printed in full, so that the pot as written has the code that is
// promised. The search lets add-ons go as far over what a kitchen gives as plans for the
// base in use do, and no further; what is promised, ranked and called a ceiling is worked
// out as plans on the changed base are, with what goes over found anew.
//
// suggest proposes no food that is cooked before it is fed: figures and amounts are
// those of the food as fed. A bare shelf (fewer than five add-ons for the pet) gets
// the common supplements proposed by the command, not the smallest addition of foods,
// which would be half a kilogram of spinach.
package advice
