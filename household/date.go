package household

import (
	"fmt"
	"time"
)

// dateLayout is the ISO 8601 calendar date.
const dateLayout = "2006-01-02"

// Date is a calendar day without a time or a zone. The zero Date is no date.
type Date struct{ t time.Time }

// NewDate returns a calendar day.
func NewDate(year int, month time.Month, day int) Date {
	return Date{time.Date(year, month, day, 0, 0, 0, 0, time.UTC)}
}

// DateOf returns the calendar day of a time in its own zone.
func DateOf(t time.Time) Date {
	y, m, d := t.Date()
	return NewDate(y, m, d)
}

// ParseDate reads "2026-11-25".
func ParseDate(s string) (Date, error) {
	t, err := time.Parse(dateLayout, s)
	if err != nil {
		return Date{}, fmt.Errorf("%q is not a date like 2026-11-25", s)
	}
	return DateOf(t), nil
}

// IsZero says whether there is no date.
func (d Date) IsZero() bool { return d.t.IsZero() }

// DaysSince counts the days from e to d.
func (d Date) DaysSince(e Date) int { return int(d.t.Sub(e.t).Hours() / 24) }

// dayOne is the day from which number counts.
var DayOne = NewDate(2000, time.January, 1)

// number is the day as a whole number.
func (d Date) Number() int { return d.DaysSince(DayOne) }

// AddDays returns the day n days later.
func (d Date) AddDays(n int) Date { return Date{d.t.AddDate(0, 0, n)} }

// Before says whether d is earlier than e.
func (d Date) Before(e Date) bool { return d.t.Before(e.t) }

// Time returns midnight UTC of the day.
func (d Date) Time() time.Time { return d.t }

func (d Date) String() string {
	if d.IsZero() {
		return ""
	}
	return d.t.Format(dateLayout)
}

// MarshalText writes the ISO date, or nothing for no date.
func (d Date) MarshalText() ([]byte, error) { return []byte(d.String()), nil }

// UnmarshalText reads what MarshalText wrote.
func (d *Date) UnmarshalText(b []byte) error {
	if len(b) == 0 {
		*d = Date{}
		return nil
	}
	got, err := ParseDate(string(b))
	if err != nil {
		return err
	}
	*d = got
	return nil
}
