package lp

// The tolerances. All but verifyTol are relative to the limits and the largest
// coefficients, because they act on the scaled program.
const (
	// feasTol is how far a variable may be outside a bound.
	feasTol = 1e-9
	// dualTol is how far a reduced cost may have the wrong sign.
	dualTol = 1e-9
	// pivotTol is the least pivot; smaller ones are rounding.
	pivotTol = 1e-9
	// pivotRelief lowers the least pivot after a round without a verified answer.
	pivotRelief = 0.1
	// harrisSlack lets the ratio test prefer a larger pivot among near ties.
	harrisSlack = 1e-12
	// singularTol is the least pivot of a rebuild; below it the basis is mended.
	singularTol = 1e-11
	// limitNoise is the limit, relative to the row's largest entry, that counts as
	// zero when a row is scaled.
	limitNoise = 1e-12
	// snapTol moves a column that is nearer to a bound than this onto it.
	snapTol = 1e-13
	// verifyTol is how far, relative to its terms, a row of the unscaled program
	// may be outside its bounds, and primal and dual objective may differ.
	verifyTol = 1e-7
	// boundTol is how far, relative to the terms, the bound that the duals of a search's
	// node prove may lie from the objective before the node is solved from scratch.
	boundTol = 1e-6
	// farkasDrop is the multiplier, relative to the largest, that a proof of
	// infeasibility does without.
	farkasDrop = 1e-9
	// proofNoise is the column sum, relative to its largest term, that is rounding
	// in a proof; farkasGap is how far apart, relative to their largest terms, the
	// two ranges of a proof must lie.
	proofNoise = 1e-13
	farkasGap  = 1e-10
	// rebuildEvery bounds the pivots between two rebuilds from the original rows.
	rebuildEvery = 60
	// trustedPivots is how many pivots an answer may be away from the last rebuild
	// and still go to the check on the unscaled program as it is; what fails the
	// check is rebuilt. A rebuild costs a third of a solve.
	trustedPivots = 60
	// blandAfter is the number of iterations after which the smallest index decides.
	blandAfter = 400
	// maxIterations ends a solve that does not end by itself.
	maxIterations = 20000
	// finishRounds bounds how often a finished dictionary is rebuilt and mended.
	finishRounds = 6
)
