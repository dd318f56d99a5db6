package tables

import "testing"

// A metric wire lies between two gauges' rows. The figures beside it are those of
// IEC 60352-2 for crimped connections (from memory): another table, made for
// metric wire, and within an eighth of what the share by area gives.
func TestPullOfMetricWire(t *testing.T) {
	for area, iecN := range map[float64]float64{0.5: 60, 1: 108, 1.5: 150, 2.5: 230, 4: 310, 6: 360} {
		p, ok := PullFor("ul486a", Metric(area))
		if !ok || p.ForceN < iecN/1.125 || p.ForceN > iecN*1.125 {
			t.Errorf("%g mm2: %g N, and IEC 60352-2 has %g N", area, p.ForceN, iecN)
		}
		thin, _, _ := PullForceN("ul486a", p.Thin)
		fat, _, _ := PullForceN("ul486a", p.Fat)
		if !(thin < p.ForceN && p.ForceN < fat) {
			t.Errorf("%g mm2: %g N is not between %g and %g", area, p.ForceN, thin, fat)
		}
	}
	p, _ := PullFor("ul486a", Metric(2.5))
	if p.Thin != 14 || p.Fat != 12 {
		t.Errorf("2.5 mm2 lies between 14 and 12 AWG, not %d and %d", p.Thin, p.Fat)
	}
}

// A gauge with a row of its own takes it; 3 AWG has none and lies between 4 and
// 2; beyond the table nothing is said.
func TestPullOfGauges(t *testing.T) {
	own, ok := PullFor("ul486a", Gauge(14))
	if !ok || own.Thin != 14 || own.Fat != 14 {
		t.Errorf("14 AWG: %+v", own)
	}
	near(t, "maker's chart: 14 AWG, 222.5 N", own.ForceN, 222.5, 0.2)
	// 35 lbf on 16 AWG, held to each table (the last two from memory): enough for
	// two, too little for the third.
	for table, enough := range map[string]bool{"ul486a": true, "abyc": true, "mil7928": false} {
		p, ok := PullFor(table, Gauge(16))
		if !ok || (35*newtonsPerPoundForce >= p.ForceN) != enough {
			t.Errorf("%s: 16 AWG must hold %g N", table, p.ForceN)
		}
	}
	if p, ok := PullFor("mil7928", Gauge(3)); !ok || p.Thin != 4 || p.Fat != 2 {
		t.Errorf("3 AWG: %+v", p)
	}
	for _, s := range []Size{{}, Gauge(30), Gauge(-3), Metric(95)} {
		if p, ok := PullFor("ul486a", s); ok {
			t.Errorf("%s: %+v beyond the table", s, p)
		}
	}
	if _, ok := PullFor("abyc", Gauge(22)); ok {
		t.Error("ABYC E-11 as it is kept here begins at 18 AWG")
	}
}

func TestPullTablesNameTheirSource(t *testing.T) {
	if list := PullTables(); len(list) != 4 || list[0].Name != "ul486a" || list[0].Source.Mark != Seen {
		t.Errorf("%+v", list)
	}
	for _, l := range PullTables() {
		if _, s, ok := PullForceN(l.Name, map[string]int{"nasa": 22}[l.Name]); ok && s != l.Source {
			t.Errorf("%s: %+v", l.Name, s)
		}
	}
}

// Strip lengths are common practice without a source: what can be checked is
// their sense. More copper has a longer barrel, and a cap takes none off.
func TestStripLengths(t *testing.T) {
	for _, hardware := range []string{"ring", "tab", "bullet", "butt", "pin", "socket", "ferrule"} {
		last := 0.0
		for _, area := range MetricSizesMM2() {
			mm, _, ok := StripMM(hardware, area)
			if ok && mm < last {
				t.Errorf("%s of %g mm2: %g mm, less than thinner wire", hardware, area, mm)
			}
			last = max(last, mm)
		}
		if last == 0 {
			t.Errorf("no strip length of a %s", hardware)
		}
	}
	if mm, _, ok := StripMM("cap", 2.5); !ok || mm != 0 {
		t.Errorf("a cap takes %g mm off", mm)
	}
	for _, c := range []struct {
		hardware string
		area     float64
	}{{"bare", 2.5}, {"ring", 0}, {"ring", 185}, {"pin", 10}} {
		if mm, _, ok := StripMM(c.hardware, c.area); ok {
			t.Errorf("%s of %g mm2: %g mm", c.hardware, c.area, mm)
		}
	}
}
