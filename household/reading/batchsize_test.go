package reading

import (
	"fmt"
	"strings"
	"testing"
)

// TestBatchesThatMultiply: six batches of twenty inner batches each would hold 64
// million foods.
func TestBatchesThatMultiply(t *testing.T) {
	files := map[string]string{"bases/b6.toml": goodBase}
	for i := range 6 {
		files[fmt.Sprintf("bases/b%d.toml", i)] = strings.Repeat(fmt.Sprintf("[[ingredient]]\nbatch = \"b%d\"\namount = \"1 g\"\n", i+1), 20)
	}
	_, list, err := Load(folder(t, files), testDay)
	if err != nil || !strings.Contains(codesOf(list), "batch-size") {
		t.Errorf("%v %s", err, codesOf(list))
	}
}
