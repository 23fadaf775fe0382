// Package report renders what is in the record and computes nothing: one view
// model, several renderers. Every function takes a household.Paired, so nothing
// can be printed that did not pass the guard. The same record gives the same
// bytes.
package report
