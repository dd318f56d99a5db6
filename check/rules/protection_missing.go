package rules

import (
	"fmt"
	"slices"

	"hame/check/network"
	"hame/check/protect"
	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "protection/missing",
	Severity: finding.Error,
	Summary:  "a feed wire with no protective device between it and a source that can feed a fault on it",
	Why: "A battery gives hundreds of amperes into a short. With nothing to open, the wire itself is the fuse: " +
		"it glows, and sets fire to whatever it touches.",
	Needs: "The devices and wires as they are. An alternator or converter whose greatest output is within the wire's " +
		"ampacity needs no device at its own end; the starter's own cable is exempt. Wires that lead to protective devices alone are judged by protection/far.",
	Limits:  []Limit{{"", "a fuse, or a manually reset trip-free breaker, for every ungrounded conductor", "33 CFR 183.455", "(a)", "seen"}},
	Since:   "0.1.0",
	Related: []string{"protection/far", "protection/oversized"},
	Bad: `harness bilge { system 12 V; practice land; wire gxl }
zone  hold  { ambient 0..40 degC }
place shelf in hold
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
load motor bilge    { at shelf; draws 4 A; drives pump; least 9 V; meant always }
wire w1 main.pos  -> bilge.pos 2.5 mm2 red   1 m  # want protection/missing
wire w2 bilge.neg -> main.neg  2.5 mm2 black 1 m
mode pumping { for 1 h }
`,
	Good: `harness bilge { system 12 V; practice land; wire gxl }
zone  hold  { ambient 0..40 degC }
place shelf in hold
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load motor bilge    { at shelf; draws 4 A; drives pump; least 9 V; meant always }
wire w1 main.pos  -> f1.in     2.5 mm2 red   0.15 m
wire w2 f1.out    -> bilge.pos 2.5 mm2 red   1 m
wire w3 bilge.neg -> main.neg  2.5 mm2 black 1 m
mode pumping { for 1 h }
`,
	Check: checkMissing,
})

func checkMissing(c *Context) {
	said := map[*harness.Wire]bool{}
	for _, reach := range c.Protect.Sources {
		wires, below := reach.Bare()
		bad := map[*harness.Wire]bool{}
		for _, w := range wires {
			b := below[w]
			if len(b.Loads) == 0 && len(b.Fuses) > 0 || b.Starter || c.WithinOutput(reach.Source, w) || c.unreadable(b) {
				continue
			}
			if _, known := c.Ampacity(w); !known && c.Network.Elements[reach.Source].Source.Sort != "battery" {
				c.WaitForAmpacity(w) // its output may be within what the wire may carry
				continue
			}
			bad[w] = true
			if !bad[b.Upstream] && !said[w] { // one finding where the device is missing, not one for each wire behind
				said[w] = true
				c.missing(reach, w, b)
			}
		}
	}
}

// unreadable: the wires lead to nothing but dead ends, and one of those may be
// the device whose name could not be read.
func (c *Context) unreadable(b *protect.Below) bool {
	return c.Harness.Hazy && !slices.ContainsFunc(b.Loads, func(i int) bool { return c.Network.Elements[i].Kind != network.Wire })
}

func (c *Context) missing(reach *protect.Reach, w *harness.Wire, b *protect.Below) {
	source := c.Network.Elements[reach.Source]
	f := finding.Finding{
		At: w.Origin.Place(), Subject: w.Name, Unit: "m", Source: "33 CFR 183.455 (a)",
		Message: fmt.Sprintf("nothing protects `%s` against a short: `%s` feeds it with no fuse or breaker between", w.Name, source.Name),
		Related: []finding.Related{{Place: source.Device.Origin.Place(), Message: "the source that feeds it"}},
	}
	if len(b.Loads) > 0 {
		if e := c.Network.Elements[b.Loads[0]]; e.Kind != network.Wire && e.Device != nil {
			f.Related = append(f.Related, finding.Related{Place: e.Device.Origin.Place(), Message: "it leads here"})
		}
	}
	if lengthM, known := reach.FarM(c.Network.OfWire(w)); known {
		none := 0.0
		f.Measured, f.Limit = &lengthM, &none
		f.Figures = append(f.Figures, "unprotected length from `"+source.Name+"`: "+number(lengthM)+" m")
	}
	f.Figures = append(f.Figures, "put a fuse or a manually reset breaker at the source's end of `"+w.Name+"`")
	c.Report(f)
}
