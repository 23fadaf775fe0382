// Package paper draws cards, the veterinarian's page, batch sheets and labels as PDF
// with an embedded font.
//
// # Decisions
//
// A card that is too full goes on on the next page or half, with name and base code on
// top. A line with a figure shrinks and is never cut, nor broken between a number and
// its unit. Every box is remembered: the tests look for overlaps and overruns in
// those, not in pictures, and read the card's numbers back from them.
//
// Read at two metres: name, code, meals and their amounts are at least 22.6 points,
// ten minutes of arc for a capital, which half the usual sharpness of sight still
// reads. A name that is too long stands on two lines instead.
//
// A card is a front and a back. The front answers which bowl gets how much, which bowl
// gets the add-ons, when the jar was mixed and for which days the card is good; rows
// close up before the notes move to the back. The accent means the bowl that gets the
// add-ons and nothing else; a base stands in a square frame, a jar in a reversed round
// one; no sign is by colour alone. The back has every nutrient on one scale, so that
// the minimums are one line down the page. Half a page has no back: its notes stand on
// the other half. Large print is the same front, 1.75 times as large, on several pages.
//
// What is out of date says so in a black band, its amounts are grey and nothing is
// there to tick; where only the jar is not mixed yet the amounts stay black, because
// they are right. Only maximums that were fully checked count in the verdict.
//
// Labels are described by the size of one; rows, columns and margins follow from the
// paper, because sheets as sold are full and centred. A label that does not hold its
// text is refused. The head of a jar's label is reversed, so that it is never taken for
// food. All labels of a sheet are set in one size; what is left over gets
// one too, so that no container goes without a code.
//
// Names on paper: Arabic is joined by the letters' presentation forms; a name with
// letters that the font lacks is printed with boxes, and with species and weight
// beside it; card and cook name those characters once on the error output.
//
// gofpdf is archived; its traps are worked around: embedded TrueType only, characters
// beyond the basic plane become boxes, panics become errors, dates and catalogue order
// are fixed.
package paper
