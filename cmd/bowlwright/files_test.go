package main

import (
	"os"
	"path/filepath"
	"testing"
)

// TestWriteFilesTakesBack: when the second of three files cannot be written, the
// first is gone or as it was, and a folder that was made is gone.
func TestWriteFilesTakesBack(t *testing.T) {
	root := t.TempDir()
	// A folder of that name stands in the way of the second file.
	dir := filepath.Join(root, "there")
	if err := os.MkdirAll(filepath.Join(dir, "b", "inside"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "a"), []byte("old"), 0o644); err != nil {
		t.Fatal(err)
	}
	before := contents(t, root)
	if err := writeFiles(dir, []file{{"a", []byte("new")}, {"c", []byte("new")}, {"b", []byte("new")}}); err == nil {
		t.Fatal("a file took the place of a folder")
	}
	if after := contents(t, root); after != before {
		t.Errorf("the folder changed:\n%s\nwas\n%s", after, before)
	}
	deep := filepath.Join(root, "new", "folder")
	if err := writeFiles(deep, []file{{"a", nil}, {filepath.Join("a", "b"), nil}}); err == nil {
		t.Fatal("a file was written into no folder")
	}
	if _, err := os.Lstat(filepath.Join(root, "new")); err == nil {
		t.Error("the new folder is still there")
	}
	if err := writeFiles(deep, []file{{"a", []byte("x")}}); err != nil {
		t.Fatal(err)
	}
}
