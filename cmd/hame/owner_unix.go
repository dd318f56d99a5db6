//go:build unix

package main

import (
	"io/fs"
	"os"
	"syscall"
)

// keepOwner gives a file the owner and the group of another. Who may not give it
// the owner may still give it the group, and who may give neither keeps both.
func keepOwner(f *os.File, was fs.FileInfo) {
	owner, known := was.Sys().(*syscall.Stat_t)
	if !known {
		return
	}
	if f.Chown(int(owner.Uid), int(owner.Gid)) != nil {
		_ = f.Chown(-1, int(owner.Gid))
	}
}
