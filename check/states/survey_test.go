package states_test

import (
	"os"
	"testing"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

func solver(t testing.TB, text string) *states.Solver {
	t.Helper()
	bound := harness.Bind(syntax.Parse(source.New("t.hame", text)), harness.Options{})
	for _, f := range bound.Findings {
		if f.Severity != finding.Error {
			continue
		}
		t.Logf("%s: %s", f.Rule, f.Message)
	}
	if bound.Harness == nil {
		t.Fatal("no harness")
	}
	return states.NewSolver(network.Build(bound.Harness))
}

func example(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../examples/" + name + "/harness.hame")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestExamplesAreSurveyed(t *testing.T) {
	for _, name := range []string{"sap_hauler", "forwarder", "launch", "trailer"} {
		s := solver(t, example(t, name))
		points := 0
		v := states.Find(s, func(p *states.Point) {
			points++
			if p.Failed != nil {
				t.Errorf("%s: %v: %v", name, p.Position.Figure(), p.Failed)
			}
		})
		if len(v.Modes) != len(s.Network.Harness.Modes) {
			t.Errorf("%s: %d modes of %d", name, len(v.Modes), len(s.Network.Harness.Modes))
		}
		for i, w := range v.Worst {
			if (w.Amps > 0) != (w.At != nil) {
				t.Errorf("%s: %s: %g A at %v", name, s.Network.Elements[i].Name, w.Amps, w.At)
			}
		}
		t.Logf("%s: %d elements, %d points, %g positions, %s", name, len(v.Worst), points, v.Covered, v.Method)
	}
}
