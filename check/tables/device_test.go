package tables

import (
	"math"
	"slices"
	"testing"
)

// The language's families. ISO 8820-3:2015 scope (read): 32 or 58 V, 1000 A;
// lists of ratings and the other families are from memory.
func TestFuseFamilies(t *testing.T) {
	want := []string{"blade", "cartridge", "glass", "maxi", "micro", "mini", "post", "strip"}
	if got := FuseNames(); !slices.Equal(got, want) {
		t.Fatalf("families %v", got)
	}
	for _, name := range want {
		f, ok := Fuse(name)
		if !ok || f.Breaker || f.Volts < 32 || !slices.IsSorted(f.RatingsA) || !slices.Contains(f.VoltsMade, f.Volts) {
			t.Errorf("%s: %+v", name, f)
		}
	}
	blade, _ := Fuse("blade")
	amps, source, ok := blade.BreaksA(12)
	if !ok || amps != 1000 || source.Mark != Seen || !blade.Made(7.5) || blade.Made(8) || blade.Made(50) {
		t.Errorf("blade breaks %g A (%s)", amps, source)
	}
	post, _ := Fuse("post")
	for volts, want := range map[float64]float64{12: 10000, 24: 5000, 48: 2000} {
		if amps, _, ok := post.BreaksA(volts); !ok || amps != want {
			t.Errorf("post at %g V breaks %g A", volts, amps)
		}
	}
	if _, _, ok := post.BreaksA(60); ok {
		t.Error("post above 58 V")
	}
	glass, _ := Fuse("glass")
	if _, _, ok := glass.BreaksA(12); ok {
		t.Error("no breaking capacity is published for glass fuses")
	}
	if _, ok := Fuse("breaker_manual"); ok {
		t.Error("a breaker isn't a family of fuses")
	}
}

// SAE J553 types I, II and III (reset types read, lists from memory).
func TestBreakers(t *testing.T) {
	for _, reset := range []string{"auto", "power", "manual"} {
		b, ok := Breaker(reset)
		if !ok || !b.Breaker || !b.Made(20) || b.Source.Document != "SAE J553" || len(b.Gates()) == 0 {
			t.Errorf("%s: %+v", reset, b)
		}
	}
	if _, ok := Breaker("never"); ok {
		t.Error("an unknown reset was found")
	}
}

// Gates must be usable: current rises, times fall, fastest below slowest.
func TestGatesAreInOrder(t *testing.T) {
	for family, list := range gates {
		for i, g := range list {
			if g.MinS > g.MaxS || g.MinS < 0 || g.MaxS <= 0 {
				t.Errorf("%s at %g %%: %g to %g s", family, g.Percent, g.MinS, g.MaxS)
			}
			if i > 0 && (g.Percent <= list[i-1].Percent || g.MinS > list[i-1].MinS || g.MaxS > list[i-1].MaxS) {
				t.Errorf("%s: gate at %g %% is out of order", family, g.Percent)
			}
		}
	}
	blade, _ := Fuse("blade")
	if g := blade.Gates()[1]; g.Percent != 135 || g.MinS != 0.75 || g.MaxS != 600 {
		t.Errorf("ISO 8820-3 type C (from memory): %+v", g)
	}
}

// Typical cold resistances of blade fuses and breakers (from memory).
func TestDeviceResistance(t *testing.T) {
	for rating, mohm := range map[float64]float64{10: 7.7, 30: 1.97, 60: 0.985, 0.5: 246} {
		got, _ := FuseOhm(rating)
		near(t, "fuse", got, mohm/1000, 1e-9)
	}
	between, _ := FuseOhm(12)
	if between >= 7.7e-3 || between <= 4.8e-3 {
		t.Errorf("12 A fuse: %g ohm", between)
	}
	for rating, mohm := range map[float64]float64{10: 15, 30: 5, 60: 2.5} {
		got, _ := BreakerOhm(rating)
		near(t, "breaker", got, mohm/1000, 1e-9)
	}
	if got, _ := FuseOhm(0); !math.IsInf(got, 1) {
		t.Errorf("a fuse of no rating has %g ohm", got)
	}
	for _, c := range []Contact{Crimp, RingOnStud, Tab, ConnectorContact, Splice, Chassis, SwitchContact, RelayContact} {
		if ohm, source, ok := ContactOhm(c); !ok || ohm <= 0 || ohm > 0.05 || source.Mark != Memory {
			t.Errorf("%s: %g ohm, %s", c, ohm, source)
		}
	}
	if _, _, ok := ContactOhm(breakerContact); ok {
		t.Error("a breaker needs its rating")
	}
}

// AC 43.13-1B Table 11-4 (read): sw-01, 4 A of lamps at 12 V want 20 A; sw-02,
// a 5 A motor at 28 V wants 15 A. 14 V reads the 12 V column.
func TestSwitchFactors(t *testing.T) {
	for _, c := range []struct {
		volts      float64
		load       string
		amps, want float64
	}{
		{12, "lamp", 4, 20},
		{28, "motor", 5, 15},
		{14, "inductive", 1, 2},
		{24, "lamp", 1, 8},
		{12, "resistive", 1, 1},
	} {
		f, _, ok := SwitchFactor(c.volts, c.load)
		if !ok || f*c.amps != c.want {
			t.Errorf("%g V %s: factor %g", c.volts, c.load, f)
		}
	}
	for _, volts := range []float64{0, 48, math.NaN()} {
		if _, _, ok := SwitchFactor(volts, "lamp"); ok {
			t.Errorf("the table has no column for %g V", volts)
		}
	}
	if m, _, ok := InrushMultiple("motor"); !ok || m != 6 {
		t.Errorf("motor inrush %g", m)
	}
	if _, _, ok := InrushMultiple("heater"); ok {
		t.Error("a heater has no inrush figure")
	}
}

// BCI values as quoted in two battery texts: ba-01, ba-03; ba-05 is a reading
// of 12.45 V at 40 degF, 12.354 V at 80 degF.
func TestOpenCircuitVolts(t *testing.T) {
	const warmC = 80.0/1.8 - 32/1.8
	for volts, soc := range map[float64]float64{12.45: 75, 12.345: 62.5, 12.65: 100, 11.89: 0, 13: 100, 10: 0} {
		got, _ := StateOfChargePct(volts, warmC)
		near(t, "charge", got, soc, 0.2)
	}
	near(t, "ba-05", 12.45+ocvCorrection(40/9.0), 12.354, 0.001)
	for _, soc := range []float64{0, 10, 50, 80, 100} {
		volts, _, ok := OpenCircuitVolts(Lead, soc, -10)
		back, _ := StateOfChargePct(volts, -10)
		near(t, "there and back", back, soc, 1e-6)
		lithium, source, known := OpenCircuitVolts(Lithium, soc, 25)
		if !ok || !known || lithium <= volts-0.5 || source.Mark != Memory {
			t.Errorf("%g %%: lead %g V, lithium %g V", soc, volts, lithium)
		}
	}
	if _, _, ok := OpenCircuitVolts("nickel", 50, 25); ok {
		t.Error("nickel has no curve")
	}
}

// ba-06: 600 A of cold cranking (12.6 to 7.2 V at -18 degC) are 9.00 mohm.
func TestBatteryOhm(t *testing.T) {
	got, source := BatteryOhmFromCranking(12, 600)
	near(t, "ba-06", got, 0.009, 1e-5)
	twice, _ := BatteryOhmFromCranking(24, 600)
	near(t, "24 V", twice, 0.018, 2e-5)
	if source.Document != "SAE J537" {
		t.Errorf("source %s", source)
	}
}

// Battery monitor handbook: per cent of the 20 h rating (pe-01, pe-02 and the
// whole table, within a point or two: it truncates), and pe-05, 8.71 h.
func TestPeukertAgainstHandbook(t *testing.T) {
	f := testTable(t, "peukert.csv")
	for column := range f.columns {
		if column == "n" {
			continue
		}
		amps := 0.0
		for _, digit := range column[1:] {
			if digit == '.' {
				amps = 16.7
				break
			}
			amps = amps*10 + float64(digit-'0')
		}
		rows, err := readRows(f, func(r *row) point { return point{r.num("n"), r.num(column)} })
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range rows {
			near(t, column, RunHours(100, 20, p.x, amps)*amps, p.y, 1.2)
		}
	}
	near(t, "pe-01", RunHours(200, 20, 1.25, 50)*50, 134, 1)
	near(t, "pe-05", RunHours(100, 20, 1.2, 10), 8.71, 0.05)
	if n, _ := PeukertExponent(); n != 1.25 || !math.IsInf(RunHours(100, 20, n, 0), 1) {
		t.Error("no current runs for ever")
	}
}

// ABYC E-11 Table V.A as quoted: ai-01, ai-02, ai-04; ai-06 banks.
func TestInterruptingCapacity(t *testing.T) {
	for cca, want := range map[float64][2]float64{
		0: {1500, 750}, 600: {1500, 750}, 650: {1500, 750}, 650.5: {3000, 1500}, 651: {3000, 1500},
		1100: {3000, 1500}, 1500: {5000, 2500}, 1e6: {5000, 2500},
	} {
		main, branch, source := InterruptingA(cca)
		if main != want[0] || branch != want[1] || source.Document != "ABYC E-11" {
			t.Errorf("%g A: %g and %g, want %v", cca, main, branch, want)
		}
	}
	if got := BankShortCircuitA(2400, 3); got != 7200 {
		t.Errorf("ai-06: %g A", got)
	}
}

// ISO 16750-2 Table 1: iv-01, code C reaches down to 9 V.
func TestSupplyCodes(t *testing.T) {
	c, ok := SupplyCode("C")
	if !ok || c.LeastV != 9 || c.MaxV != 16 || c.NominalV != 12 {
		t.Errorf("code C: %+v", c)
	}
	if _, ok := SupplyCode("Z"); ok {
		t.Error("code Z was found")
	}
}

// AC 43.13-1B Table 11-3: oc-07, 16 AWG wants a 15 A breaker or a 10 A fuse.
// oc-09 (trade practice): a 10 AWG wire's link is 14 AWG.
func TestProtectorsAndLinks(t *testing.T) {
	breaker, fuse, _, ok := AC43Protector(16)
	if !ok || breaker != 15 || fuse != 10 {
		t.Errorf("16 AWG: %g and %g A", breaker, fuse)
	}
	if breaker, fuse, _, ok := AC43Protector(0); !ok || breaker != 0 || fuse != 150 {
		t.Errorf("1/0 AWG: %g and %g A", breaker, fuse)
	}
	if link, _, ok := LinkFor(10); !ok || link != 14 {
		t.Errorf("oc-09: %d AWG", link)
	}
	_, _, _, known := AC43Protector(3)
	if _, _, ok := LinkFor(2); ok || known {
		t.Error("a size that the tables leave out was found")
	}
}

// 33 CFR 183.455: C-CFR-03, 150 % of 25 A is 37.5 A; C-CFR-05, 9 in bare is
// too far, C-CFR-06, 38 in sheathed is not; oc-01, oc-02. 33 CFR 183.425(e):
// C-CFR-08, 18 AWG alone is too thin.
func TestLimitsAgainstCFR(t *testing.T) {
	limit := func(name, grade string) Limit {
		l, ok := LimitOf("cfr183", name, grade)
		if !ok {
			t.Fatalf("no limit %s", name)
		}
		return l
	}
	base, _, _ := Table5At(16, 105)
	if got := base * limit("device_wire", "error").Value / 100; got != 37.5 {
		t.Errorf("C-CFR-03: %g A", got)
	}
	bare, sheathed := limit("distance_bare", "").Value, limit("distance_sheathed", "").Value
	if !(9*25.4 > bare && 5*25.4 < bare && 20*25.4 > bare && 38*25.4 < sheathed) {
		t.Errorf("distances %g and %g mm", bare, sheathed)
	}
	if AWGAreaMM2(18) >= limit("gauge_alone", "").AreaMM2() || AWGAreaMM2(18) < limit("gauge_covered", "").AreaMM2() {
		t.Error("C-CFR-08: 18 AWG is allowed in a sheath only")
	}
	if got := limit("distance_battery", "").Value; math.Abs(got-72*25.4) > 0.5 {
		t.Errorf("72 in are %g mm", got)
	}
}

// Each practice has its limits with a source; land warns before it fails.
// AC 43.13-1B 11-96 a: wires supported every 24 in at most (wm-01).
func TestPractices(t *testing.T) {
	if got := Practices(); !slices.Equal(got, []string{"land", "cfr183", "ac43"}) {
		t.Fatalf("practices %v", got)
	}
	both := Limits("land", "device_wire")
	if len(both) != 2 || both[0].Grade != "warning" || both[0].Value != 100 || both[1].Value != 125 {
		t.Errorf("land device_wire: %+v", both)
	}
	if l, ok := LimitOf("ac43", "clamps", ""); !ok || l.Value != 610 || l.Source.Clause != "11-96 a" {
		t.Errorf("ac43 clamps: %+v", l)
	}
	if l, ok := LimitOf("land", "gauge_covered", ""); !ok || l.AreaMM2() != 0.75 {
		t.Errorf("land gauge_covered: %+v", l)
	}
	if _, ok := LimitOf("ac43", "distance_bare", ""); ok {
		t.Error("ac43 sets no distance")
	}
}

// cr-01, cr-03: 14 AWG must hold 50 lbf by UL 486A; 35 lbf on 16 AWG passes
// UL 486A and ABYC E-11 and fails MIL-T-7928 (the last two from memory).
func TestPullForce(t *testing.T) {
	force, _, ok := PullForceN("ul486a", 14)
	if !ok {
		t.Fatal("no figure")
	}
	near(t, "cr-01", force, 222.5, 0.2)
	measured := 35 * newtonsPerPoundForce
	ul, _, _ := PullForceN("ul486a", 16)
	abyc, _, _ := PullForceN("abyc", 16)
	mil, _, _ := PullForceN("mil7928", 16)
	if !(measured >= ul && measured >= abyc && measured < mil) {
		t.Errorf("cr-03: %g N against %g, %g, %g", measured, ul, abyc, mil)
	}
	if _, _, ok := PullForceN("nasa", 10); ok {
		t.Error("the NASA figures stop at 22 AWG")
	}
}

// cr-04 (from memory): two 18 AWG wires, 3240 circular mils, fit red and blue.
func TestCrimpBarrels(t *testing.T) {
	var fit []string
	for _, b := range BarrelsFor(AWGAreaMM2(18), AWGAreaMM2(18)) {
		fit = append(fit, b.Colour)
	}
	if !slices.Equal(fit, []string{"red", "blue"}) {
		t.Errorf("fit %v", fit)
	}
	if got := BarrelsFor(50); got != nil {
		t.Errorf("50 mm2 fits %v", got)
	}
}

// The language's stud sizes; torque from memory.
func TestStuds(t *testing.T) {
	for _, name := range []string{"M3", "M16", "no8", "no10", "1/4 in", "5/16 in", "3/8 in", "1/2 in", "taper"} {
		if _, ok := StudNamed(name); !ok {
			t.Errorf("%s isn't known", name)
		}
	}
	m8, _ := StudNamed("M8")
	taper, _ := StudNamed("taper")
	if m8.DiameterMM != 8 || m8.TorqueLow != 8 || !math.IsNaN(taper.DiameterMM) || len(StudNames()) < 15 {
		t.Errorf("M8 %+v, taper %+v", m8, taper)
	}
	if _, ok := StudNamed("M7"); ok {
		t.Error("M7 was found")
	}
}

// IEC 60757: cl-01, blue and red is RDBU; cl-03, green with yellow is GNYE.
func TestColours(t *testing.T) {
	for _, c := range []struct {
		names []string
		want  string
	}{
		{[]string{"blue", "red"}, "RDBU"},
		{[]string{"yellow", "green"}, "GNYE"},
		{[]string{"black"}, "BK"},
		{[]string{"red", "red"}, "RD"},
	} {
		if got, _, ok := ColourCode(c.names...); !ok || got != c.want {
			t.Errorf("%v: %q, want %q", c.names, got, c.want)
		}
	}
	if _, _, ok := ColourCode("beige"); ok {
		t.Error("beige has no letters")
	}
	// Blade fuse colours (read in two general pages; 1 A is black, 5 A tan).
	for rating, want := range map[float64]string{1: "black", 5: "tan", 10: "red", 30: "green"} {
		if got, _, ok := FuseColour("mini", rating); !ok || got != want {
			t.Errorf("%g A: %q", rating, got)
		}
	}
	if _, _, ok := FuseColour("strip", 100); ok {
		t.Error("strip fuse colours vary by maker")
	}
}

// UL 310 and UL 1659 test currents (read in one terminal maker's chart).
func TestTerminalCurrents(t *testing.T) {
	if a, _, ok := TabAmps(6.3, 1.5); !ok || a != 10 {
		t.Errorf("6.3 mm on 1.5 mm2: %g A", a)
	}
	if a, _, ok := TabAmps(2.8, AWGAreaMM2(18)); !ok || a != 4 {
		t.Errorf("2.8 mm on 18 AWG: %g A", a)
	}
	if a, _, ok := ConnectorAmps(2.5); !ok || a != 18 {
		t.Errorf("2.5 mm2: %g A", a)
	}
	_, _, thin := ConnectorAmps(0.5)
	_, _, tab := TabAmps(7, 1)
	if thin || tab {
		t.Error("a size outside the chart has a current")
	}
}
