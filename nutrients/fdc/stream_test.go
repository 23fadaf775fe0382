package fdc

import (
	"fmt"
	"io"
	"runtime"
	"testing"
)

// repeat is an endless download in small: it writes n generated lines or foods
// and never holds them.
type repeat struct {
	n, i       int
	head, tail string
	line       func(i int) string
	buffer     []byte
	done       bool
}

func (r *repeat) Read(p []byte) (int, error) {
	for len(r.buffer) == 0 {
		switch {
		case r.done:
			return 0, io.EOF
		case r.i == 0 && r.head != "":
			r.buffer, r.head = []byte(r.head), ""
		case r.i < r.n:
			r.buffer = append(r.buffer[:0], r.line(r.i)...)
			r.i++
		default:
			r.buffer, r.done = []byte(r.tail), true
		}
	}
	n := copy(p, r.buffer)
	r.buffer = r.buffer[n:]
	return n, nil
}

// heapBudget is what an import may hold: the issue of the project allows 200 MB
// for a process; the half of it leaves room for the rest and the collector.
const heapBudget = 100 << 20

// TestBigDownloadStaysSmall reads about 180 MB of figures of foods that are not
// kept and 8,000 foods that are, the size of SR Legacy.
func TestBigDownloadStaysSmall(t *testing.T) {
	if testing.Short() {
		t.Skip("reads 180 MB")
	}
	const kept, lines = 8000, 4_000_000
	in := sampleFiles()
	in.Food = &repeat{n: kept, head: "fdc_id,data_type,description,food_category_id\n", line: func(i int) string {
		return fmt.Sprintf("%d,sr_legacy_food,\"Food, number %d\",7\n", i, i)
	}}
	var peak uint64
	in.FoodNutrient = &repeat{n: lines, head: "id,fdc_id,nutrient_id,amount,data_points,derivation_id,note\n", line: func(i int) string {
		if i%(lines/8) == 0 {
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			peak = max(peak, m.HeapAlloc)
		}
		return fmt.Sprintf("%d,%d,1003,20.5,,1,and some padding here\n", i, i)
	}}
	r, err := ReadCSV(in)
	if err != nil {
		t.Fatal(err)
	}
	if len(r.Foods) != kept {
		t.Errorf("%d foods", len(r.Foods))
	}
	if peak > heapBudget {
		t.Errorf("%d MB on the heap", peak>>20)
	}
	t.Logf("%d MB on the heap", peak>>20)
}
