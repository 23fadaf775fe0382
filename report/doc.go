// Package report is the view model of a plan: what its documents show, in words and
// figures, read from the record. It computes nothing and knows no renderer; text, html
// and paper draw it. Every function takes a household.Paired, so nothing can be shown
// that did not pass the guard. The same record gives the same bytes.
//
// # Decisions
//
// What is not given daily stands under a head of its own in every document, with its
// rhythm, never in the list of the day.
//
// A missed limit is written with as many digits as tell it from its amount, up to
// five, then as "under" it.
//
// Dates on paper, pages and screen are written in words, because 12/11 is two days to
// two readers; files and records keep ISO dates. The days of what is not given daily
// are counted from the day of the plan, so that every print names the same.
//
// A decimal comma is put in when a document is written, between digits of its texts;
// records and JSON keep the point. What plan, explain and the others say on screen has
// no --comma: it is typed back into files, which take a point only.
//
// Goldens hold the text of every document in the testdata of text, html and paper:
// terminal, the drawn text of paper with its place in millimetres, the text of the
// pages.
//
// What an add-on is for is read from the program recorded with the plan, not computed
// anew.
package report
