package wiring_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"hame/check/draw/wiring"
)

var update = flag.Bool("update", false, "write the golden files anew")

// TestCrossings holds the layouts to what they were: how many wires cross and how
// many turn in each whole example. Fewer is better; a change that makes more must
// say why.
func TestCrossings(t *testing.T) {
	const golden = "testdata/crossings.txt"
	var b strings.Builder
	fmt.Fprintf(&b, "%-12s %6s %10s %6s %14s\n", "example", "wires", "crossings", "turns", "crossings/wire")
	wires, crossings := 0, 0
	for _, name := range []string{"sap_hauler", "forwarder", "launch", "trailer", "library"} {
		run := checked(t, name+"/harness.hame")
		c, turns := wiring.Crossings(run)
		n := len(run.Harness.Wires)
		fmt.Fprintf(&b, "%-12s %6d %10d %6d %14.2f\n", name, n, c, turns, float64(c)/float64(n))
		wires, crossings = wires+n, crossings+c
	}
	fmt.Fprintf(&b, "%-12s %6d %10d %6s %14.2f\n", "all", wires, crossings, "", float64(crossings)/float64(wires))
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(golden, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if b.String() != string(want) {
		t.Errorf("layouts changed; look at them, then `go test ./check/draw/wiring -update`\ngot\n%s\nwant\n%s", b.String(), want)
	}
}
