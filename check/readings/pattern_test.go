package readings_test

import (
	"io/fs"
	"math/rand/v2"
	"os"
	"slices"
	"strings"
	"testing"

	"hame/check"
	"hame/check/network"
	"hame/check/readings"
	"hame/check/trial"
	"hame/lang/source"
)

// haulerPlan is the plan of the sap hauler of the examples.
func haulerPlan(t *testing.T) *trial.Plan {
	t.Helper()
	read := func(name string) (string, error) {
		text, err := fs.ReadFile(os.DirFS("../../examples/sap_hauler"), name)
		return string(text), err
	}
	text, err := read("harness.hame")
	if err != nil {
		t.Fatal(err)
	}
	return trial.Of(check.File(source.New("harness.hame", text), check.Options{Read: read}).Facts)
}

// patterns are what a workshop manual tells by the pattern of readings (common
// practice, no source): what all bad readings share is what is bad.
var patterns = []struct {
	pattern, bad string
	set          func(e *network.Element) // of the element of that name
	kind         network.Kind
	alone        bool // nothing else may be named
}{
	{"all returns of one ground stud high", "g2", add(0.06), network.Joint, false},
	{"volts low at all loads behind one feed, its drop high", "w3", add(0.05), network.Wire, false},
	{"one lamp low alone", "w30", add(0.4), network.Wire, true},
	{"one lamp's return high alone", "w36", add(0.4), network.Wire, true},
	{"the plug's return high for all lamps", "canopy_plug.female.5", add(0.15), network.Joint, false},
	{"the pump draws too little", "sap_pump", func(e *network.Element) { e.Load = trial.Scaled(e.Load, 0.3) }, network.Load, true},
	{"the relay's coil draws with the key off", "dash_lamps", func(e *network.Element) { e.Kind = network.Joint }, network.Contact, false},
}

func add(ohm float64) func(*network.Element) {
	return func(e *network.Element) { e.Ohm += ohm }
}

// TestPatterns: with every line of whole ways measured, and none of one part.
func TestPatterns(t *testing.T) {
	plan := haulerPlan(t)
	for seed, c := range patterns {
		w := workshop{rand.New(rand.NewPCG(uint64(seed), 5)), plan, c.bad == "sap_pump"}
		planted := false
		machine := plan.Model.With(func(elements []network.Element) {
			for i := range elements {
				if elements[i].Kind == c.kind && plan.Model.PartName(i) == c.bad {
					c.set(&elements[i])
					planted = true
				}
			}
		})
		if !planted {
			t.Fatalf("there is no %s", c.bad)
		}
		r := judge(t, plan, w.form(machine, 1))
		if len(r.Findings) == 0 {
			t.Errorf("%s: nothing is suspected", c.pattern)
			continue
		}
		for _, i := range r.Items {
			if i.Why != "" {
				t.Errorf("%s: beside it %s: %s", c.pattern, i.Line.ID, i.Why)
			}
		}
		list := r.Findings[0].Suspects
		named := slices.ContainsFunc(list, func(s readings.Suspect) bool { return s.Name == c.bad })
		if !named || c.alone && len(list) > 1 {
			t.Errorf("%s: %s is not among, or not alone in: %s", c.pattern, c.bad, told(list))
		}
	}
}

func told(list []readings.Suspect) string {
	var words []string
	for _, s := range list {
		words = append(words, s.Words())
	}
	return strings.Join(words, "\n")
}
