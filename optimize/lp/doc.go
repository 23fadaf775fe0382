// Package lp solves small dense linear programs with bounds on rows and columns:
//
//	minimise c·x  subject to  Lower <= x <= Upper,  Row.Lower <= Row.A·x <= Row.Upper.
//
// The solver is a bounded dual simplex on a dense dictionary xB = T xN, with a
// primal simplex that goes on from an optimal dictionary when the costs change.
// Row activities are variables of their own, so there is no right-hand side and
// no phase one: with costs that suit the bounds the first dictionary, all rows
// basic, is dual feasible. (Lemke 1954; bound flipping after Maros 2003; two-pass
// ratio test after Harris 1973; smallest-index rule after Bland 1977.)
//
// The package knows no food. Every answer is checked on the program as it was
// given, unscaled; what fails that check is Imprecise, never Optimal.
package lp
