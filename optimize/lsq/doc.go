// Package lsq solves inequality-constrained least squares,
//
//	minimise |E x - f|²  subject to  G x >= h,
//
// by the QR factors of E, which turn it into a least-distance problem (Lawson and
// Hanson, Solving Least Squares Problems, 1974, ch. 23), and the dual active-set
// method of Goldfarb and Idnani (Mathematical Programming 27, 1983) for that. It
// knows no food.
//
// # Decisions
//
// One method: non-negative least squares would suffice only where there are no limits
// but signs, and every household has minimums; the dual active-set method takes all.
package lsq
