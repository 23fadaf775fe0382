package tomldoc

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// maxFiles bounds the files of one folder.
const maxFiles = 2000

// List lists the TOML files of dir/folder, each from dir, in order.
func List(dir, folder string) ([]string, error) {
	entries, err := os.ReadDir(filepath.Join(dir, folder))
	if errors.Is(err, os.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, err
	}
	var files []string
	for _, e := range entries {
		if name := e.Name(); strings.HasSuffix(name, ".toml") && !strings.HasPrefix(name, ".") && !e.IsDir() {
			files = append(files, filepath.Join(folder, name))
		}
	}
	if len(files) > maxFiles {
		return nil, fmt.Errorf("%s holds more than %d files", folder, maxFiles)
	}
	slices.Sort(files)
	return files, nil
}
