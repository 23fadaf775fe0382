//go:build !unix

package safefile

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/gofrs/flock"
)

// Links are looked for by name here; the system has no way to refuse them on opening.
const noFollow, nonBlock = 0, 0

func keepOwner(*os.File, fs.FileInfo) {}

func hardLinks(fs.FileInfo) int { return 1 }

// folderLock is the lock of a folder: a file in it, because folders take none here.
func folderLock(dir string) *flock.Flock {
	return flock.New(filepath.Join(dir, ".folder-lock"), flock.SetFlag(os.O_CREATE|os.O_RDWR))
}

func keepsNoLocks(err error) bool { return errors.Is(err, errors.ErrUnsupported) }
