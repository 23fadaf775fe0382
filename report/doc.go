// Package report is the view model of a plan: what its documents show, in words and
// figures, read from the record. It computes nothing and knows no renderer; text, html
// and paper draw it. Every function takes a household.Paired, so nothing can be shown
// that did not pass the guard. The same record gives the same bytes.
package report
