package sheets

import (
	"bytes"
	"encoding/csv"
	"slices"
	"testing"

	"hame/check/print"
	"hame/check/sheet"
	"hame/check/trial"
)

// formColumns are what readings are taken back by.
var formColumns = []string{"id", "test", "mode", "from", "to", "expect", "low", "high", "unit", "reading", "note"}

func testForm(t *testing.T, p *Pack) *sheet.Table {
	t.Helper()
	made, ok := Of(p, "tests")
	if !ok {
		t.Fatal("there is no test sheet")
	}
	return made.Tables()[0] // which is what CSV gives where no table is named
}

// formRows are its rows without the headings.
func formRows(t *testing.T, p *Pack) []sheet.Row {
	t.Helper()
	return slices.DeleteFunc(slices.Clone(testForm(t, p).Rows), func(r sheet.Row) bool { return r.Group != "" })
}

// TestTestForm: the sheet's first table is the form, with a row for each line of
// the plan, and no reading in it.
func TestTestForm(t *testing.T) {
	everyExample(t, func(t *testing.T, p *Pack) {
		form := testForm(t, p)
		var out bytes.Buffer
		if err := print.CSV(&out, form); err != nil {
			t.Fatal(err)
		}
		records, err := csv.NewReader(&out).ReadAll()
		if err != nil || !slices.Equal(records[0], formColumns) {
			t.Fatalf("%v: columns %v, want %v", err, records[0], formColumns)
		}
		plan := trial.Of(p.Facts)
		if len(records)-1 != len(plan.Lines) || len(plan.Lines) < 20 {
			t.Fatalf("%d rows for %d lines", len(records)-1, len(plan.Lines))
		}
		for i, l := range plan.Lines {
			r := records[i+1]
			if r[0] != l.ID || r[5] != l.ExpectText() || r[6] != l.LowText() || r[7] != l.HighText() || r[9] != "" {
				t.Errorf("%v is not %+v", r, l)
			}
		}
	})
}

// TestTestOrder: what is safe comes first, and no fuse is pulled, nor anything
// measured under load, before polarity was.
func TestTestOrder(t *testing.T) {
	order := []trial.Kind{
		trial.Continuity, trial.Isolation, trial.Polarity, trial.KeyOff, trial.SourceVolts, trial.LoadVolts, trial.Feed, trial.Part, trial.Pulled,
		trial.Charge, trial.Warm,
	}
	everyExample(t, func(t *testing.T, p *Pack) {
		made, _ := Of(p, "tests")
		if _, ok := made.Blocks[1].(sheet.Steps); !ok {
			t.Errorf("the sheet begins with %T, not with the safety lines", made.Blocks[1])
		}
		last := 0
		for _, row := range formRows(t, p) {
			kind := trial.Kind(row.Cells[1].Words)
			if kind == trial.Return {
				kind = trial.Feed
			}
			at := slices.Index(order, kind)
			if at < last {
				t.Errorf("%s comes after %s", row.Cells[0].Words, order[last])
			}
			last = at
		}
	})
}

// TestTestFaulty: of whatever stands in a file a test sheet is made.
func TestTestFaulty(t *testing.T) {
	under(t, "faulty", func(t *testing.T, p *Pack) {
		if form := testForm(t, p); form.Name != "tests" {
			t.Errorf("the first table is %s", form.Name)
		}
	})
}
