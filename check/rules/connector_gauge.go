package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "connector/gauge",
	Severity: finding.Error,
	Summary:  "a wire thinner or thicker than the connector or splice takes",
	Why: "A thin wire pulls out of a crimp that was made for a thick one; a thick one gets strands cut off until it fits. " +
		"Either burns at the contact, inside the housing, where nobody looks.",
	Needs: "`takes` of the connector or splice (with none any gauge is taken to fit), and the wire's gauge. Each wire is judged by itself.",
	Limits: []Limit{
		{"", "the declared range", "the part's maker", "", "as declared"},
	},
	Since:   "0.1.0",
	Related: []string{"connector/overloaded", "connector/mismatch"},
	Bad: shed("", `join splice tee   { at shelf; takes 1 mm2..2.5 mm2; seal IP67 }
load led lamp2    { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out    -> tee       4 mm2   red   1 m  # want connector/gauge
wire w5 tee       -> lamp2.pos 2.5 mm2 red   1 m
wire w6 lamp2.neg -> main.neg  2.5 mm2 black 1 m
`, ""),
	Good: shed("", `join splice tee   { at shelf; takes 1 mm2..2.5 mm2; seal IP67 }
load led lamp2    { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out    -> tee       2.5 mm2 red   1 m
wire w5 tee       -> lamp2.pos 2.5 mm2 red   1 m
wire w6 lamp2.neg -> main.neg  2.5 mm2 black 1 m
`, ""),
	Check: checkGauges,
})

func checkGauges(c *Context) {
	for _, w := range c.Harness.Wires {
		for _, e := range w.Ends {
			if e.Terminal != nil && e.Terminal.Device.Is(kinds.Join, "connector", "splice") && c.misfits(w, e.Terminal) {
				break // a wire is said once
			}
		}
	}
}

// misfits reports a wire that a contact or barrel does not take, and says
// whether it did.
func (c *Context) misfits(w *harness.Wire, t *harness.Terminal) bool {
	args, ok := t.Device.Args("takes")
	a, given := args.Get("")
	if !ok || !given || w.Auto {
		return false
	}
	if w.AreaMM2 == 0 {
		c.Wait(w.Name, finding.Need{Name: w.Name, Setting: "gauge"}, w.Origin.Place())
		return false
	}
	least, most := kinds.Size(a.Lo), kinds.Size(a.Hi())
	const same = 1e-6
	limit, than := least.AreaMM2(), "thinner"
	switch {
	case w.AreaMM2 > most.AreaMM2()*(1+same):
		limit, than = most.AreaMM2(), "thicker"
	case w.AreaMM2 >= least.AreaMM2()*(1-same):
		return false
	}
	c.Report(finding.Finding{
		At: w.Origin.Place(), Subject: w.Name, Source: "the part's own `takes`",
		Message:  fmt.Sprintf("`%s` is %s, %s than `%s` takes: %s to %s", w.Name, w.Size, than, t.FullName(), least, most),
		Measured: &w.AreaMM2, Limit: &limit, Unit: "mm2",
		Related: []finding.Related{{Place: t.Device.Origin.Place(), Message: "what it lands in"}},
		Figures: []string{"splice on a piece that fits close by, or take a part that takes it"},
	})
	return true
}
