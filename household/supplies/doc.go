// Package supplies works out what a kitchen needs for the plans in use: what goes into
// the pot and into containers, what to buy, and what a day costs. It changes nothing.
package supplies
