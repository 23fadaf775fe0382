// Package paper draws cards, the veterinarian's page, batch sheets and labels as PDF
// with an embedded font.
package paper
