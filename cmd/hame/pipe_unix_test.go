//go:build unix

package main

import (
	"syscall"

	"github.com/rogpeppe/go-internal/testscript"
)

// scriptPipe makes a named pipe that nobody writes to.
func scriptPipe(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: pipe file")
	}
	ts.Check(syscall.Mkfifo(ts.MkAbs(args[0]), 0o644))
}
