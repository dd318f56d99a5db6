package sheets

import (
	"fmt"
	"math"
	"strconv"
	"testing"

	"hame/check/sheet"
)

// TestLoadsAddUp: a mode's loads come to what reports call its supply, and to the
// row that sums them up.
func TestLoadsAddUp(t *testing.T) {
	modes := 0
	sound(t, func(t *testing.T, p *Pack) {
		for n, m := range p.Harness.Modes {
			if p.unsolved(n) != "" {
				continue
			}
			modes++
			table := tableOf(t, p, "loads", "loads_"+m.Name)
			sum := 0.0
			for _, r := range table.Rows {
				if !r.Total && r.Cells[5].Words != unknown {
					sum += rawOf(t, r.Cells[5])
				}
			}
			want := *p.Figures.Modes[n].SupplyA
			const leaks = 2e-3 // what passes open contacts in the solver's eyes, and rounding
			if math.Abs(sum-want) > leaks+1e-4*want {
				t.Errorf("%s: the loads come to %g A, and the report says %g", m.Name, sum, want)
			}
			if rows := table.Rows; len(rows) > 0 && math.Abs(rawOf(t, rows[len(rows)-1].Cells[5])-sum) > leaks {
				t.Errorf("%s: the last row is no sum", m.Name)
			}
		}
	})
	if modes < 50 {
		t.Errorf("only %d modes were looked at", modes)
	}
}

// rawOf is a cell's figure as CSV has it.
func rawOf(t *testing.T, c sheet.Cell) float64 {
	t.Helper()
	if c.Raw == "" {
		t.Fatalf("%q has no figure", c.Words)
	}
	v, err := strconv.ParseFloat(c.Raw, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// TestHoursByPeukert: a battery monitor handbook (page 27, seen): 200 Ah drained at
// 50 A with an exponent of 1.25 give 67 %, 134 Ah; 100 Ah at 10, 25 and 50 A give
// 84, 67 and 56 % in its table, to a point. Nothing below the 20 hour rate gives more
// than is declared.
func TestHoursByPeukert(t *testing.T) {
	for _, c := range []struct{ capacityAh, amps, percent float64 }{
		{200, 50, 67}, {100, 10, 84}, {100, 25, 67}, {100, 50, 56}, {100, 5, 100}, {100, 0.02, 100},
	} {
		p := packOf(t, "drain.hame", fmt.Sprintf(`harness drain { system 12 V; wire gxl }
zone dry { ambient 20..20 degC }
place shelf in dry
supply battery main { at shelf; capacity %g Ah; resistance 1 mohm }
load motor pump { at shelf; draws %g A at 12 V }
wire w1 main.pos -> pump.pos 35 mm2 sgx red 0.1 m
wire w2 pump.neg -> main.neg 35 mm2 sgx black 0.1 m
mode run { charge 100 %% }
`, c.capacityAh, c.amps))
		rows := tableOf(t, p, "loads", "batteries").Rows
		if len(rows) != 1 {
			t.Fatalf("%d rows", len(rows))
		}
		want := c.percent / 100 * c.capacityAh / c.amps
		half, flat := rawOf(t, rows[0].Cells[5]), rawOf(t, rows[0].Cells[6])
		if math.Abs(flat-want) > want/c.percent || math.Abs(half-flat/2) > 1e-4*flat {
			t.Errorf("%g Ah at %g A: %g h to half and %g h to flat, want %g", c.capacityAh, c.amps, half, flat, want)
		}
		if got, figure := rawOf(t, rows[0].Cells[7]), *p.Figures.Modes[0].HoursToFlat; math.Abs(got-figure) > 1e-4*figure {
			t.Errorf("%g h, and the report says %g", got, figure)
		}
	}
}
