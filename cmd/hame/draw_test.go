package main

import (
	"bytes"
	"os"
	"strings"
	"testing"
)

// TestDrawingIsFresh: the drawing that the README shows is what the command draws
// today. `-update` draws it anew.
func TestDrawingIsFresh(t *testing.T) {
	const committed = "examples/sap_hauler/wiring.svg"
	t.Chdir("../..")
	var out, failures bytes.Buffer
	if status := run([]string{"draw", "wiring", "examples/sap_hauler"}, strings.NewReader(""), &out, &failures, noEnv); status != 0 {
		t.Fatalf("exit status %d: %s", status, failures.String())
	}
	if *update {
		if err := os.WriteFile(committed, out.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	have, err := os.ReadFile(committed)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(have, out.Bytes()) {
		t.Errorf("%s is not what is drawn today; look at it, then `go test ./cmd/hame -run TestDrawingIsFresh -update`\n%s",
			committed, firstDifference(string(have), out.String()))
	}
}
