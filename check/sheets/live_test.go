package sheets

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hame/check"
	"hame/check/facts"
	"hame/check/internal/yard"
	"hame/check/states"
	"hame/lang/harness"
	"hame/lang/source"
)

// switchyard has a contact of every sort: a key, a change-over switch, two in
// series, two beside each other, a relay with both contacts, one that a tap works,
// a switch in a return, a diode, a converter.
const switchyard = `harness yard { system 12 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; sags 10 V; post M8; covered }
supply alternator alt { at shelf; output 55 A; idle 32 A; covered }
supply tap lamps    { at shelf; behind fuse 15 A; carries 2 A; live on, engine; serves lighting; gauge 1.5 mm2; run 1 m; of main }
supply converter small { at shelf; gives 5 V; output 3 A }
protection fuse f1  { at shelf; rating 30 A; covered }
switch key ignition { at shelf; rating 20 A; tabs 6.3 }
switch toggle either { at shelf; rating 20 A; throws 2 }
switch toggle first { at shelf; rating 20 A }
switch toggle second { at shelf; rating 20 A }
switch push beside  { at shelf; rating 20 A }
switch toggle back  { at shelf; rating 20 A }
switch relay k1     { at shelf; contacts 20 A; coil 90 ohm; form change }
switch relay k2     { at shelf; contacts 20 A; coil 90 ohm }
switch diode d1     { at shelf; rating 6 A }
load led always     { at shelf; draws 6 W; meant always }
load led left       { at shelf; draws 6 W }
load led right      { at shelf; draws 6 W }
load heater series  { at shelf; draws 24 W }
load led rest       { at shelf; draws 6 W }
load led pulled     { at shelf; draws 6 W }
load heater grounded { at shelf; draws 12 W }
load led tapped     { at shelf; draws 6 W }
load module fine    { at shelf; draws 2 W; least 4 V }
load led behind     { at shelf; draws 6 W }
wire w1  main.pos      -> f1.in        6 mm2 red 0.15 m
wire w2  f1.out        -> ignition.in  6 mm2 red 1 m
wire w3  alt.pos       -> f1.out       6 mm2 red 1 m
wire w4  alt.neg       -> main.neg     6 mm2 black 1 m
wire w5  f1.out        -> always.pos   1 mm2 red 1 m
wire w6  ignition.acc  -> either.in    1 mm2 red 1 m
wire w7  either.out1   -> left.pos     1 mm2 red 1 m
wire w8  either.out2   -> right.pos    1 mm2 red 1 m
wire w9  ignition.ign  -> first.in     1 mm2 red 1 m
wire w10 first.out     -> second.in    1 mm2 red 1 m
wire w11 second.out    -> series.pos   2.5 mm2 red 1 m
wire w12 first.in      -> beside.in    1 mm2 red 1 m
wire w13 beside.out    -> second.out   1 mm2 red 1 m
wire w14 ignition.ign  -> k1.86        1 mm2 red 1 m
wire w15 k1.85         -> main.neg     1 mm2 black 1 m
wire w16 f1.out        -> k1.30        1 mm2 red 1 m
wire w17 k1.87a        -> rest.pos     1 mm2 red 1 m
wire w18 k1.87         -> pulled.pos   1 mm2 red 1 m
wire w19 f1.out        -> grounded.pos 1 mm2 red 1 m
wire w20 grounded.neg  -> back.in      1 mm2 black 1 m
wire w21 back.out      -> main.neg     1 mm2 black 1 m
wire w22 lamps.out     -> tapped.pos   1 mm2 red 1 m
wire w23 ignition.acc  -> small.in     1 mm2 red 1 m
wire w24 small.out     -> fine.pos     1 mm2 red 1 m
wire w25 small.neg     -> main.neg     1 mm2 black 1 m
wire w26 either.out1   -> k2.86        1 mm2 red 1 m
wire w27 k2.85         -> main.neg     1 mm2 black 1 m
wire w28 f1.out        -> k2.30        1 mm2 red 1 m
wire w29 k2.87         -> d1.anode     1 mm2 red 1 m
wire w30 d1.cathode    -> behind.pos   1 mm2 red 1 m
wire n1  always.neg    -> main.neg     1 mm2 black 1 m
wire n2  left.neg      -> main.neg     1 mm2 black 1 m
wire n3  right.neg     -> main.neg     1 mm2 black 1 m
wire n4  series.neg    -> main.neg     2.5 mm2 black 1 m
wire n5  rest.neg      -> main.neg     1 mm2 black 1 m
wire n6  pulled.neg    -> main.neg     1 mm2 black 1 m
wire n7  tapped.neg    -> main.neg     1 mm2 black 1 m
wire n8  fine.neg      -> main.neg     1 mm2 black 1 m
wire n9  behind.neg    -> main.neg     1 mm2 black 1 m
mode lit { key on; for 1 h }
mode dim { key acc; closed first, back; throw either 1; for 1 h }
`

func packed(t *testing.T, text string) *Pack {
	t.Helper()
	run := check.File(source.New("t.hame", text), check.Options{})
	if run.Harness == nil {
		t.Fatal("no harness")
	}
	return NewPack(run, Options{})
}

// bruteForce solves every setting of the switches with everything the engine may
// do in a column, and says of each node whether it has volts in all, in some or in
// none of them.
func bruteForce(f *facts.Facts, c column) []state {
	hands := handSwitches(f)
	count := 1
	for _, d := range hands {
		count *= throwsOf(d) + 1
	}
	hot, solved := make([]int, f.Network.Nodes), 0
	for _, engine := range c.engines {
		for k := range count {
			p := f.Again(&states.Position{Key: c.key, Engine: engine, Throws: setting(hands, k), Corner: states.HotLow, Charge: 0.8})
			solved++
			for n := range hot {
				const touched = 1.5 // V: no drop of a return, and below every rail
				if math.Abs(p.Volts(n)) > touched {
					hot[n]++
				}
			}
		}
	}
	out := make([]state, len(hot))
	for n := range hot {
		switch hot[n] {
		case 0:
			out[n] = dead
		case solved:
			out[n] = live
		default:
			out[n] = mayBe
		}
	}
	return out
}

func throwsOf(d *harness.Device) int {
	n, _ := d.SI("throws")
	return max(1, int(n))
}

func setting(hands []*harness.Device, k int) map[*harness.Device]int {
	throws := map[*harness.Device]int{}
	for _, d := range hands {
		throws[d] = k % (throwsOf(d) + 1)
		k /= throwsOf(d) + 1
	}
	return throws
}

// TestLiveAgreesWithBruteForce: the marks are those that solving every position
// gives, for every terminal of the feed side.
func TestLiveAgreesWithBruteForce(t *testing.T) {
	f := packed(t, switchyard).Facts
	for _, c := range keyColumns {
		want, got := bruteForce(f, c), powerIn(f, c, sureCoils(f, c), nil)
		for _, d := range f.Harness.Devices {
			for _, term := range d.Terminals {
				if n := term.Index; !f.Network.Return(n) && got.of([]int{n}) != want[n] {
					t.Errorf("key %s, %s: %d, and solving every position gives %d", c.key, term.FullName(), got.of([]int{n}), want[n])
				}
			}
		}
	}
}

// TestLiveTellsNotOfAWeakCoil: a relay that is fed but too weak to pull in while the
// battery sags to 8 V may be in or out: pulled by a warm or a cold coil.
func TestLiveTellsNotOfAWeakCoil(t *testing.T) {
	f := packed(t, strings.Replace(switchyard, "sags 10 V", "sags 8 V", 1)).Facts
	start := keyColumns[len(keyColumns)-1]
	got := powerIn(f, start, sureCoils(f, start), nil)
	for _, d := range f.Harness.Devices {
		if d.Name == "rest" || d.Name == "pulled" {
			if s := got.of([]int{d.Terminal("pos").Index}); s != mayBe {
				t.Errorf("%s: %d while the engine cranks", d.Name, s)
			}
		}
	}
}

// TestLiveModes: in a mode the marks are those of its one solved position.
func TestLiveModes(t *testing.T) {
	p := packed(t, switchyard)
	w := newLiveWork(p)
	for n, m := range p.Harness.Modes {
		point := p.Facts.Survey.Modes[n]
		for _, d := range p.Harness.Devices {
			for _, term := range d.Terminals {
				i := term.Index
				want := dead
				if math.Abs(point.Volts(i)) > 1.5 {
					want = live
				}
				if got := w.modes[n].of([]int{i}); !p.Facts.Network.Return(i) && got != want {
					t.Errorf("%s: %s is %d, and solved it has %.2f V", m.Name, term.FullName(), got, point.Volts(i))
				}
			}
		}
	}
}

// TestLiveSettled: what is named beside a mark settles it, and what two switches
// do only together is no one's.
func TestLiveSettled(t *testing.T) {
	p := packed(t, switchyard)
	w := newLiveWork(p)
	for name, want := range map[string]string{
		"left.pos": "may be: either", "series.pos": "may be: beside", "back.in": "may be: back", "always.pos": "LIVE",
		"rest.pos": "dead", "behind.pos": "may be: either", "tapped.pos": "LIVE", "fine.pos": "LIVE",
	} {
		for _, d := range p.Harness.Devices {
			for _, term := range d.Terminals {
				if term.FullName() == name {
					if got := w.mark(2, []int{term.Index}).Words; got != want {
						t.Errorf("key on, %s: %q, want %q", name, got, want)
					}
				}
			}
		}
	}
}

// TestLiveNeverSaysDeadOfWhatIsLive holds the marks to solved positions over sound
// harnesses of every shape.
func TestLiveNeverSaysDeadOfWhatIsLive(t *testing.T) {
	checked, vague := 0, 0
	for seed := range uint64(40) {
		f := packed(t, yard.Make(seed).Print().Source).Facts
		if len(handSwitches(f)) > 5 {
			continue
		}
		for _, c := range keyColumns {
			want, got := bruteForce(f, c), powerIn(f, c, sureCoils(f, c), nil)
			for n := range f.Harness.Devices {
				for _, term := range f.Harness.Devices[n].Terminals {
					if f.Network.Return(term.Index) || len(term.Wires) == 0 {
						continue
					}
					mark, solved := got.of([]int{term.Index}), want[term.Index]
					checked++
					switch {
					case mark == solved:
					case mark == mayBe:
						vague++
					default:
						t.Errorf("seed %d, key %s, %s: %d, and solving every position gives %d", seed, c.key, term.FullName(), mark, solved)
					}
				}
			}
		}
	}
	t.Logf("%d marks, %d of them may be where every position agrees", checked, vague)
	if checked < 1000 || vague > checked/50 {
		t.Errorf("%d marks checked, %d of them vague", checked, vague)
	}
}

// TestLiveMaster: in the forwarder the cab's bus hangs on the master isolator, and
// the alternator's cable does not (its own text says so).
func TestLiveMaster(t *testing.T) {
	text, err := fromExamples("forwarder/harness.hame")
	if err != nil {
		t.Fatal(err)
	}
	table := tableOf(t, packOf(t, "forwarder/harness.hame", text), "live", "rails_by_key")
	want := map[string][]string{"cab_pos": {"LIVE", "LIVE", "LIVE", "LIVE", "dead"}, "alt.pos": {"LIVE", "LIVE", "LIVE", "LIVE", "LIVE"}, "ignition.ign": {"dead", "dead", "LIVE", "LIVE", "dead"}}
	for _, r := range table.Rows {
		for name, marks := range want {
			if !slices.Contains(strings.Split(r.Cells[0].Words, ", "), name) {
				continue
			}
			delete(want, name)
			for k, mark := range marks {
				if got := r.Cells[3+k].Words; got != mark {
					t.Errorf("%s, %s: %s, want %s", name, table.Columns[3+k].Title, got, mark)
				}
			}
		}
	}
	if len(want) > 0 {
		t.Errorf("not met: %v", want)
	}
}
