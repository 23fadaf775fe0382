// Package text writes plans, cards and batch sheets for a terminal.
package text
