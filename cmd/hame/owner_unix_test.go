//go:build unix

package main

import (
	"os"
	"syscall"
	"testing"
)

// A file that root sets stays its owner's.
func TestReplaceKeepsTheOwner(t *testing.T) {
	if os.Geteuid() != 0 {
		t.Skip("only root may give files away")
	}
	path, _ := written(t, "old", 0o640)
	if err := os.Chown(path, 1234, 2345); err != nil {
		t.Skipf("no file can be given away here: %v", err)
	}
	file, err := targetOf(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := file.replace("new"); err != nil {
		t.Fatal(err)
	}
	alone(t, path, "new")
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	got := info.Sys().(*syscall.Stat_t)
	if got.Uid != 1234 || got.Gid != 2345 || info.Mode().Perm() != 0o640 {
		t.Errorf("owner %d, group %d, mode %v", got.Uid, got.Gid, info.Mode())
	}
}
