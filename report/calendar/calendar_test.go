package calendar

import (
	"bytes"
	"strings"
	"testing"
	"time"

	"bowlwright/household"
	"bowlwright/household/upkeep"

	second "github.com/emersion/go-ical"
)

func sample(today household.Date, shift int) Calendar {
	return Calendar{Household: "Quince Lane", Today: today,
		Items: []upkeep.DueItem{
			{Date: today.AddDays(shift), Pet: "Pip", What: "weigh", Message: "weigh Pip; then, if he moved, plan"},
			{Date: today.AddDays(shift + 3), Pet: "Señora Mütze", What: "plan", Message: strings.Repeat("a long line with ümläuts, ", 8)},
			{Date: today.AddDays(28), What: "batch", Message: "the batch is eaten"},
		},
		Advice: func(item upkeep.DueItem) string { return "first line\nbowlwright " + item.What + `, with a \ in it` }}
}

// TestReadBySecondLibrary writes with one library and reads with another.
func TestReadBySecondLibrary(t *testing.T) {
	today := household.NewDate(2026, time.November, 25)
	want := sample(today, 7)
	var b bytes.Buffer
	if err := Write(&b, want); err != nil {
		t.Fatal(err)
	}
	cal, err := second.NewDecoder(bytes.NewReader(b.Bytes())).Decode()
	if err != nil {
		t.Fatalf("%v in\n%s", err, b.String())
	}
	events := cal.Events()
	if len(events) != len(want.Items) {
		t.Fatalf("%d events, not %d", len(events), len(want.Items))
	}
	for i, e := range events {
		item := want.Items[i]
		text := func(name string) string {
			s, err := e.Props.Text(name)
			if err != nil {
				t.Errorf("%s: %v", name, err)
			}
			return s
		}
		if got := text(second.PropSummary); got != item.Message {
			t.Errorf("summary %q, not %q", got, item.Message)
		}
		if got := text(second.PropDescription); got != want.Advice(item) {
			t.Errorf("description %q, not %q", got, want.Advice(item))
		}
		start, err := e.DateTimeStart(time.UTC)
		if err != nil || !start.Equal(item.Date.Time()) {
			t.Errorf("begins %v, not %s (%v)", start, item.Date, err)
		}
		end, err := e.DateTimeEnd(time.UTC)
		if err != nil || !end.Equal(item.Date.AddDays(1).Time()) {
			t.Errorf("ends %v (%v)", end, err)
		}
		if got := text(second.PropUID); got != ID("Quince Lane", item) {
			t.Errorf("id %q", got)
		}
	}
}

// TestFormOfTheFile holds what RFC 5545 asks of every file: section 3.1 lines of at most
// 75 octets that end in CRLF, section 3.6 version, product and unique ids with a stamp.
func TestFormOfTheFile(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, sample(household.NewDate(2026, time.November, 25), 0)); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	for _, line := range strings.Split(strings.TrimSuffix(text, "\r\n"), "\r\n") {
		if len(line) > 75 || strings.ContainsAny(line, "\r\n") {
			t.Errorf("line of %d octets: %q", len(line), line)
		}
	}
	unfolded := strings.ReplaceAll(text, "\r\n ", "")
	for what, n := range map[string]int{"BEGIN:VCALENDAR": 1, "VERSION:2.0": 1, "PRODID:": 1, "END:VCALENDAR": 1, "BEGIN:VEVENT": 3, "END:VEVENT": 3,
		"\nUID:": 3, "\nDTSTAMP:": 3, "\nSEQUENCE:": 3, "\nDTSTART;VALUE=DATE:": 3} {
		if got := strings.Count(unfolded, what); got != n {
			t.Errorf("%q stands %d times, not %d", what, got, n)
		}
	}
}

// TestImportedAgain: a later file has the same ids and higher numbers, so that the
// events move instead of standing twice.
func TestImportedAgain(t *testing.T) {
	first, later := household.NewDate(2026, time.November, 25), household.NewDate(2026, time.December, 9)
	ids := map[string]int{}
	for _, c := range []Calendar{sample(first, 7), sample(later, 21)} {
		var b bytes.Buffer
		if err := Write(&b, c); err != nil {
			t.Fatal(err)
		}
		cal, err := second.NewDecoder(&b).Decode()
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range cal.Events() {
			uid, _ := e.Props.Text(second.PropUID)
			sequence, err := e.Props.Get(second.PropSequence).Int()
			if err != nil || sequence <= ids[uid] {
				t.Errorf("%s has the number %d after %d (%v)", uid, sequence, ids[uid], err)
			}
			ids[uid] = sequence
		}
	}
	if len(ids) != 3 {
		t.Errorf("%d ids for 3 things", len(ids))
	}
	other := sample(first, 7)
	if ID("Elsewhere", other.Items[0]) == ID("Quince Lane", other.Items[0]) {
		t.Error("two households share ids")
	}
}
