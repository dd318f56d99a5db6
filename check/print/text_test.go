package print_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hame/check/print"
	"hame/check/sheet"
)

var update = flag.Bool("update", false, "write the golden files anew")

// golden compares with a file of testdata, or writes it anew.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs (go test -update writes it anew); got:\n%s", path, got)
	}
}

func asText(t *testing.T, columns int, sheets ...*sheet.Sheet) string {
	t.Helper()
	var b strings.Builder
	if err := print.Text(&b, sampleHead(), sheets, print.TextOptions{Columns: columns}); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func TestText(t *testing.T) {
	golden(t, "sample.txt", asText(t, 0, sample()))
	golden(t, "narrow.txt", asText(t, 40, sample()))
}
