package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "wire/thin",
	Severity: finding.Warning,
	Summary:  "a wire below the least gauge for its run",
	Why: "A thin wire may carry its current coolly and still be too weak: it breaks behind its crimp from vibration, and " +
		"the next hand that pulls at the loom tears it.",
	Needs: "The gauge. A wire counts as covered when it has a cover of its own or every bundle of its route has one, or where its route is not known; else as alone.",
	Limits: []Limit{
		{"land", "0.75 mm2 in a cover, 1 mm2 alone", "ISO 10133", "7.7", "seen"},
		{"cfr183", "18 AWG sheathed, 16 AWG alone", "33 CFR 183.425", "(d), (e)", "seen"},
		{"ac43", "22 AWG", "AC 43.13-1B", "Table 11-3 (least wire)", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"wire/undersized"},
	Bad: shed("", `protection fuse f2 { at shelf; rating 2 A; covered }
load led dial      { at shelf; draws 1 W; least 9 V; meant always }
wire w4 main.pos -> f2.in    2.5 mm2 orange 0.15 m
wire w5 f2.out   -> dial.pos 0.5 mm2 orange 0.4 m  # want wire/thin
wire w6 dial.neg -> main.neg 1 mm2   black  0.4 m
`, ""),
	Good: shed("", `protection fuse f2 { at shelf; rating 2 A; covered }
load led dial      { at shelf; draws 1 W; least 9 V; meant always }
wire w4 main.pos -> f2.in    2.5 mm2 orange 0.15 m
wire w5 f2.out   -> dial.pos 0.75 mm2 orange 0.4 m { cover loom_pa }
wire w6 dial.neg -> main.neg 1 mm2   black  0.4 m
`, ""),
	Check: checkThin,
})

func checkThin(c *Context) {
	for _, w := range c.Harness.Wires {
		name, how := "gauge_alone", "alone"
		if w.Sheathed() || c.unrouted(w) {
			name, how = "gauge_covered", "in a cover"
		}
		limit, ok := c.Practice.Limit(name, "")
		const same = 0.005 // a gauge's area is printed with three figures
		switch {
		case !ok:
		case w.AreaMM2 == 0:
			c.Wait(w.Name, finding.Need{Name: w.Name, Setting: "gauge"}, w.Origin.Place())
		case w.AreaMM2 < limit.AreaMM2()*(1-same):
			c.thin(w, limit, how)
		}
	}
}

// unrouted: what the wire lies in cannot be told, and graph/unreachable or what
// could not be read says why.
func (c *Context) unrouted(w *harness.Wire) bool {
	return w.Cover == nil && !w.LengthSaid && (!w.Bound() || !w.Reached)
}

func (c *Context) thin(w *harness.Wire, limit tables.Limit, how string) {
	least := limit.AreaMM2()
	fix, _ := c.thicker(w, func(s tables.Size) bool { return s.AreaMM2() >= least*0.995 })
	size := number(limit.Value) + " " + limit.Unit
	c.Report(finding.Finding{
		At: w.Origin.Place(), Subject: w.Name,
		Message:  fmt.Sprintf("`%s` is %s, and the least for a wire %s is %s", w.Name, w.Size, how, size),
		Measured: &w.AreaMM2, Limit: &least, Unit: "mm2", Source: source(limit.Source), Fix: fix,
	})
}
