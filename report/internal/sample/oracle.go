package sample

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// NeedProgram finds a program that reads back what was written. Where it is not
// installed the test is skipped, unless BOWLWRIGHT_ORACLES=1 says that it must be.
func NeedProgram(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err == nil {
		return path
	}
	if os.Getenv("BOWLWRIGHT_ORACLES") == "1" {
		t.Fatalf("%s is not installed", name)
	}
	t.Skipf("%s is not installed", name)
	return ""
}

// PdfText reads a PDF back, each run of spaces as one.
func PdfText(t *testing.T, data []byte) string {
	t.Helper()
	program := NeedProgram(t, "pdftotext")
	file := filepath.Join(t.TempDir(), "page.pdf")
	if err := os.WriteFile(file, data, 0o644); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(program, "-layout", file, "-").CombinedOutput()
	if err != nil {
		t.Fatalf("pdftotext: %v: %s", err, out)
	}
	return strings.Join(strings.Fields(string(out)), " ")
}
