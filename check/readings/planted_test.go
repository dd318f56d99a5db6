package readings_test

import (
	"flag"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hame/check"
	"hame/check/internal/yard"
	"hame/check/network"
	"hame/check/readings"
	"hame/check/trial"
	"hame/lang/source"
)

var update = flag.Bool("update", false, "write the golden files anew")

// scale is how many harnesses faults are planted in: HAME_TRUST=300 asks for 30.
func scale() int {
	if n, err := strconv.Atoi(os.Getenv("HAME_TRUST")); err == nil && n >= 10 {
		return n / 10
	}
	return usualScale
}

const usualScale = 8

// plans makes the plans of so many generated harnesses of fewer than 40 wires.
func plans(many int) []*trial.Plan {
	var list []*trial.Plan
	for seed := uint64(0); len(list) < many; seed++ {
		h := yard.Make(seed)
		if len(h.Wires) < 8 || len(h.Wires) > 40 {
			continue
		}
		run := check.File(source.New("yard.hame", h.Print().Source), check.Options{})
		list = append(list, trial.Of(run.Facts))
	}
	return list
}

// workshop is somebody who measures: with a meter that is off by anything within
// its tolerance.
type workshop struct {
	*rand.Rand
	plan  *trial.Plan
	spare bool // every line is measured, not only those of whole ways
}

// about is 1, give or take a share.
func (w workshop) about(share float64) float64 { return 1 + share*(2*w.Float64()-1) }

// ordinary changes a network as no two machines are alike: sources and draws by
// 1.5 and 6 %, each wire by 3 %, each contact by 20 %.
func (w workshop) ordinary(elements []network.Element) {
	for i := range elements {
		e := &elements[i]
		switch e.Kind {
		case network.Wire:
			copper := network.WireOhm(e.Wire)
			e.Ohm = copper*w.about(0.03) + (e.Ohm-copper)*w.about(0.2)
		case network.Joint, network.Contact:
			e.Ohm *= w.about(0.2)
		case network.Fuse:
			e.Ohm *= w.about(0.08)
		case network.Load:
			e.Load = trial.Scaled(e.Load, w.about(0.06))
		case network.Source:
			spec := *e.Source
			spec.NominalV *= w.about(0.015)
			e.Source = &spec
		}
	}
}

// form is the plan's form, filled in on a machine.
func (w workshop) form(machine *trial.Variant, meter float64) string {
	var b strings.Builder
	b.WriteString("id,unit,reading\n")
	for _, l := range w.plan.Lines {
		if !l.Spare || w.spare {
			fmt.Fprintf(&b, "%s,%s,%s\n", l.ID, l.Unit.Name, w.reading(l, machine, meter))
		}
	}
	return b.String()
}

func (w workshop) reading(l trial.Line, machine *trial.Variant, meter float64) string {
	value := *l.Expect
	if l.Kind != trial.Warm && l.Kind != trial.Isolation {
		value, _ = machine.Value(l.Probe)
	}
	if math.IsInf(value, 1) || l.Kind == trial.Continuity && value > 1e5 {
		return "OL"
	}
	if l.Unit.Name == "V" || l.Unit.Name == "mV" {
		value *= meter
	}
	const nearly = 0.95 // the display rounds the rest
	value += (2*w.Float64() - 1) * nearly * l.Unit.Tolerance(value)
	if l.Kind == trial.Continuity {
		value = max(0, value)
	}
	return fmt.Sprintf("%.*f", l.Unit.Places+1, value/l.Unit.SI)
}

func judge(t *testing.T, plan *trial.Plan, text string) *readings.Report {
	t.Helper()
	s, err := readings.Read([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	return readings.Judge(plan, s)
}

// TestSound: on a machine as the model has it, and on one as machines are, no
// reading is out and nothing is suspected.
func TestSound(t *testing.T) {
	for seed, plan := range plans(3 * usualScale) {
		w := workshop{rand.New(rand.NewPCG(uint64(seed), 7)), plan, true}
		for _, machine := range []*trial.Variant{plan.Model.AsIs(), plan.Model.With(w.ordinary)} {
			r := judge(t, plan, w.form(machine, 1))
			for _, i := range r.Items {
				if i.State != readings.Within {
					t.Errorf("plan %d: %s is %s: %s not in %g to %g", seed, i.Line.ID, i.State, i.Text, i.Line.Low, i.Line.High)
				}
			}
			if len(r.Findings)+len(r.Lost) > 0 || !r.Proved() {
				t.Errorf("plan %d: %+v", seed, r.Findings)
			}
		}
	}
}

// fault is something that is planted.
type fault struct {
	sort, name string
	set        func(elements []network.Element)
	meter      float64
}

// plant picks a fault of a sort; false where the harness has no place for it.
func (w workshop) plant(sort string) (fault, bool) {
	type place struct {
		i    int
		amps float64
	}
	var places []place
	m := w.plan.Model
	asIs := m.AsIs()
	for i := range m.Network.Elements {
		if most := w.most(asIs, i); w.fits(sort, &m.Network.Elements[i], most) {
			places = append(places, place{i, most})
		}
	}
	if len(places) == 0 {
		return fault{}, false
	}
	p := places[w.IntN(len(places))]
	f := fault{sort: sort, name: m.PartName(p.i), meter: 1}
	systemV := m.Network.Harness.SystemV
	switch sort {
	case "resistance":
		ohm := systemV * (0.04 + 0.08*w.Float64()) / p.amps
		f.set = func(e []network.Element) { e[p.i].Ohm += ohm }
	case "open":
		f.set = func(e []network.Element) { e[p.i].Ohm += 1e6 }
	case "load":
		share := []float64{-1, -0.5, 0.6, 1}[w.IntN(4)]
		f.set = func(e []network.Element) { e[p.i].Load = trial.Scaled(e[p.i].Load, 1+share) }
	case "stuck":
		f.set = func(e []network.Element) { e[p.i].Kind = network.Joint }
	case "source":
		f.set = func(e []network.Element) {
			spec := *e[p.i].Source
			spec.NominalV *= 0.94
			e[p.i].Source = &spec
		}
	case "meter":
		f.name, f.meter = "the meter", 1.06
		f.set = func([]network.Element) {}
	}
	return f, true
}

func (w workshop) most(asIs *trial.Variant, i int) float64 {
	most := 0.0
	for s := range w.plan.Settings {
		most = max(most, math.Abs(asIs.Point(s).Amps(i)))
	}
	return most
}

func (w workshop) fits(sort string, e *network.Element, amps float64) bool {
	passes := e.Kind == network.Wire || e.Kind == network.Joint || e.Kind == network.Contact || e.Kind == network.Fuse
	switch sort {
	case "resistance", "open":
		return passes && amps > 0.3 && (e.Wire != nil || e.Device != nil && e.Terminal != nil)
	case "load":
		return e.Kind == network.Load && !e.Load.Hidden() && e.Load.Sort != "converter" && amps > 0.3
	case "stuck":
		return e.Kind == network.Contact && !e.Gate.Rest && amps > 0.3
	case "source":
		return e.Kind == network.Source && e.Source.Sort == "battery"
	}
	return true
}

// recall is what became of the faults of one sort.
type recall struct{ planted, out, first, named, suspects int }

func (r *recall) take(f fault, got *readings.Report) {
	r.planted++
	if len(got.Findings) == 0 {
		for _, i := range got.Items {
			if i.State == readings.Drifted {
				r.out++
				return
			}
		}
		return
	}
	r.out++
	list := got.Findings[0].Suspects
	if list[0].Name == f.name {
		r.first++
	}
	if slices.ContainsFunc(list, func(s readings.Suspect) bool { return s.Name == f.name }) {
		r.named++
		r.suspects += len(list)
	}
}

// TestPlantedFaults plants one fault of every sort in harnesses, measures and
// keeps a table of how often readings went out, and how often the fault was named
// first or among those that could not be told from it. On machines as they are,
// draws, volts and contacts differ from the model as well.
func TestPlantedFaults(t *testing.T) {
	list := plans(scale())
	var lines []string
	for _, sort := range []string{"resistance", "open", "load", "stuck", "source", "meter"} {
		for _, how := range []string{"all lines", "ways alone", "as machines are"} {
			var got recall
			for seed, plan := range list {
				w := workshop{rand.New(rand.NewPCG(uint64(seed), 11)), plan, how != "ways alone"}
				f, ok := w.plant(sort)
				if !ok {
					continue
				}
				machine := plan.Model.With(func(e []network.Element) {
					if how == "as machines are" {
						w.ordinary(e)
					}
					f.set(e)
				})
				got.take(f, judge(t, plan, w.form(machine, f.meter)))
			}
			lines = append(lines, fmt.Sprintf("%-11s %-16s %7d %4d %6d %6d %9.1f", sort, how, got.planted, got.out, got.first, got.named, float64(got.suspects)/max(1, float64(got.named))))
			if sort == "resistance" && (got.out < got.planted || 100*got.named < 98*got.out) {
				t.Errorf("%s, %s: of %d planted %d are seen and %d named", sort, how, got.planted, got.out, got.named)
			}
		}
	}
	golden(t, lines)
}

func golden(t *testing.T, lines []string) {
	const file = "testdata/recall.txt"
	table := fmt.Sprintf("%-11s %-16s %7s %4s %6s %6s %9s\n%s\n", "fault", "measured", "planted", "out", "first", "named", "suspects", strings.Join(lines, "\n"))
	switch {
	case scale() != usualScale:
		t.Log("\n" + table)
	case *update:
		if err := os.WriteFile(file, []byte(table), 0o644); err != nil {
			t.Fatal(err)
		}
	default:
		kept, err := os.ReadFile(file)
		if err != nil || string(kept) != table {
			t.Errorf("%s is stale (%v): go test ./check/readings -update; it is now\n%s", file, err, table)
		}
	}
}
