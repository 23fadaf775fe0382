// Package calendar writes what is due as an iCalendar file (RFC 5545) that a calendar
// program can import again and again: an event keeps its id when its day moves.
package calendar

import (
	"crypto/sha256"
	"encoding/hex"
	"io"
	"time"

	"bowlwright/household"
	"bowlwright/household/upkeep"

	ical "github.com/arran4/golang-ical"
)

// Calendar is what one file holds.
type Calendar struct {
	// Household goes into the ids: two households in one calendar do not overwrite each
	// other's events.
	Household string
	Items     []upkeep.DueItem
	// Today numbers the edition: an event of a later day replaces that of an earlier one.
	Today household.Date
	// Advice turns the hint of an item into text.
	Advice func(upkeep.DueItem) string
}

// Write writes the file. Every item is an event of a whole day that does not block time.
func Write(w io.Writer, c Calendar) error {
	cal := ical.NewCalendarFor("bowlwright")
	cal.SetProductId("-//bowlwright//bowlwright//EN")
	cal.SetMethod(ical.MethodPublish)
	cal.SetName(c.Household)
	stamp := c.Today.Time()
	for _, item := range c.Items {
		event := cal.AddEvent(ID(c.Household, item))
		event.SetDtStampTime(stamp)
		event.SetSequence(int(stamp.Unix() / int64((24 * time.Hour).Seconds())))
		event.SetAllDayStartAt(item.Date.Time())
		event.SetAllDayEndAt(item.Date.AddDays(1).Time())
		event.SetSummary(item.Message)
		if text := c.Advice(item); text != "" {
			event.SetDescription(text)
		}
		event.AddCategory(item.What)
		event.SetTimeTransparency(ical.TransparencyTransparent)
	}
	return cal.SerializeTo(w, ical.WithNewLineWindows)
}

// ID is the lasting id of an item: of one kind there is one for each pet.
func ID(home string, item upkeep.DueItem) string {
	sum := sha256.Sum256([]byte(home + "\x00" + item.Pet + "\x00" + item.What + "\x00" + item.Of))
	return hex.EncodeToString(sum[:16]) + "@bowlwright.invalid"
}
