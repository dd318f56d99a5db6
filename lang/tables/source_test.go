package tables

import (
	"slices"
	"strings"
	"testing"
)

// Every file must name its document and a known mark on every row, and every
// row must have as many fields as the head.
func TestEveryFileNamesItsSource(t *testing.T) {
	entries, err := data.ReadDir("data")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		sources, err := load(e.Name(), (*row).source)
		if err != nil {
			t.Error(err)
		}
		for i, s := range sources {
			if s.Document == "" || s.Clause == "" {
				t.Errorf("%s row %d has no document or clause: %+v", e.Name(), i+1, s)
			}
		}
	}
}

func TestSourceString(t *testing.T) {
	_, s, _ := Table5At(14, 105)
	if got := s.String(); got != "33 CFR 183.425 Table 5" {
		t.Errorf("got %q", got)
	}
	if _, s, _ := ContactOhm(Crimp); s.String() != "common practice: typical resistance of a new contact" {
		t.Errorf("got %q", s)
	}
	if got := (Source{Document: "ASTM B258"}).String(); got != "ASTM B258" {
		t.Errorf("got %q", got)
	}
}

// A malformed file is refused with its name and row, not passed on.
func TestMalformedFilesAreRefused(t *testing.T) {
	const start = "# document: D\n# clause: C\n# mark: seen\n"
	amps := func(r *row) float64 { return r.num("amps") }
	for name, c := range map[string]struct{ text, want string }{
		"no document":    {"# mark: seen\namps\n1\n", "no document"},
		"unknown mark":   {"# document: D\n# mark: sure\namps\n1\n", "no known mark"},
		"no rows":        {start + "amps\n", "no rows"},
		"ragged":         {start + "amps,volts\n1\n", "wrong number of fields"},
		"no number":      {start + "amps\nten\n", "row 1: amps holds no number"},
		"not finite":     {start + "amps\ninf\n", "row 1: amps is not finite"},
		"no column":      {start + "volts\n1\n", `no column "amps"`},
		"bad mark of it": {start + "amps,mark\n1,sure\n", `mark "sure"`},
	} {
		f, err := parse("t.csv", c.text)
		if err == nil {
			_, err = readRows(f, amps)
		}
		if err == nil || !strings.Contains(err.Error(), c.want) || !strings.HasPrefix(err.Error(), "t.csv") {
			t.Errorf("%s: got %v, want something with %q", name, err, c.want)
		}
	}
}

func TestRowReadersRefuse(t *testing.T) {
	f, err := parse("t.csv", "# document: D\n# mark: seen\nlist,flag,gauge\n1;x,maybe,99\n")
	if err != nil {
		t.Fatal(err)
	}
	for _, read := range []func(*row) any{
		func(r *row) any { return r.nums("list") },
		func(r *row) any { return r.yes("flag") },
		func(r *row) any { return r.gauge("gauge") },
	} {
		if _, err := readRows(f, read); err == nil {
			t.Error("a malformed cell was read")
		}
	}
}

// Slices handed out are copies: a caller can't change a table.
func TestTablesCannotBeChanged(t *testing.T) {
	MetricSizesMM2()[0] = 99
	family, _ := Fuse("blade")
	family.RatingsA[0] = 99
	family.Gates()[0].Percent = 99
	again, _ := Fuse("blade")
	if MetricSizesMM2()[0] == 99 || again.RatingsA[0] == 99 || again.Gates()[0].Percent == 99 {
		t.Error("a table was changed from outside")
	}
	if !slices.IsSorted(MetricSizesMM2()) {
		t.Error("metric sizes are out of order")
	}
}
