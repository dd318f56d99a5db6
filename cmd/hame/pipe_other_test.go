//go:build !unix

package main

import "github.com/rogpeppe/go-internal/testscript"

// scriptPipe skips: there are no named pipes here.
func scriptPipe(ts *testscript.TestScript, neg bool, args []string) {
	ts.Fatalf("no named pipes on this system: guard the line with [unix]")
}
