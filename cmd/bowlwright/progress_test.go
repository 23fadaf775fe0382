package main

import (
	"bytes"
	"strings"
	"testing"
	"time"
)

// TestProgress: only on a terminal, only when it takes long, and nothing is left of
// it in the end.
func TestProgress(t *testing.T) {
	for _, c := range []struct {
		terminal bool
		delay    time.Duration
		shown    bool
	}{{true, time.Millisecond, true}, {true, time.Hour, false}, {false, time.Millisecond, false}} {
		var out bytes.Buffer
		p := &program{env: environment{stderr: &out, progress: c.terminal}}
		done := p.progress("planning 9 pets", c.delay)
		time.Sleep(50 * time.Millisecond)
		done()
		if got := out.String(); strings.Contains(got, "planning 9 pets") != c.shown || c.shown && !strings.HasSuffix(got, "\r\x1b[K") || !c.shown && got != "" {
			t.Errorf("%+v: %q", c, got)
		}
	}
}
