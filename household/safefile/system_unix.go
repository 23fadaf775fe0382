//go:build unix

package safefile

import (
	"errors"
	"io/fs"
	"os"
	"syscall"

	"github.com/gofrs/flock"
)

const (
	noFollow = syscall.O_NOFOLLOW
	nonBlock = syscall.O_NONBLOCK
)

// keepOwner gives a new file the owner of the old one, where this user may.
func keepOwner(f *os.File, like fs.FileInfo) {
	if st, ok := like.Sys().(*syscall.Stat_t); ok {
		_ = f.Chown(int(st.Uid), int(st.Gid))
	}
}

func hardLinks(info fs.FileInfo) int {
	if st, ok := info.Sys().(*syscall.Stat_t); ok {
		return int(st.Nlink)
	}
	return 1
}

// folderLock is the lock of a folder: the folder itself.
func folderLock(dir string) *flock.Flock {
	return flock.New(dir, flock.SetFlag(os.O_RDONLY))
}

// keepsNoLocks says whether an error means that the file system has no locks.
func keepsNoLocks(err error) bool {
	return errors.Is(err, errors.ErrUnsupported) || errors.Is(err, syscall.ENOLCK) || errors.Is(err, syscall.EINVAL)
}
