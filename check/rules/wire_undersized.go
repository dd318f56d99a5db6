package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "wire/undersized",
	Severity: finding.Error,
	Summary:  "worst-case current above the wire's ampacity for its gauge, insulation and ambient",
	Why: "A wire that carries more than its ampacity grows hotter than its insulation bears. The insulation " +
		"hardens and cracks, or softens onto its neighbours, long before a fuse that is sized for the current opens.",
	Needs: "The gauge, an insulation (the wire's own or the harness's `wire`), and the ambient of every zone on its way. " +
		"An area takes the row of the largest AWG not above it; the current is the worst of every position that the operator can make.",
	Limits: []Limit{
		{"land", "ampacity × √((T−Ta)/(T−30)), never above × 1", "33 CFR 183.425", "Table 5 and note 1", "seen (note 1 in part from memory)"},
		{"cfr183", "the same, at 50 degC by the published factor of note 1", "33 CFR 183.425", "Table 5 and note 1", "seen (note 1 in part from memory)"},
		{"cfr183", "× 0.7, 0.6, 0.5 or 0.4 for 3, 4–6, 7–24 or more conductors that run together, at 50 V and above", "33 CFR 183.425", "Table 5 note 2", "seen"},
		{"ac43", "ampacity in bundles at 70 degC", "AC 43.13-1B", "Table 11-9", "seen"},
		{"", "below 18 AWG", "ISO 10133", "annex A", "memory"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/oversized", "ground/overloaded"},
	Bad: `harness heater_feed { system 12 V; practice cfr183; wire gxl; slack 100 mm }
zone  cabin { ambient 0..60 degC }
place shelf in cabin
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 35 A; covered }
load heater pad     { at shelf; draws 312 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    10 AWG red   0.15 m
wire w2 f1.out   -> pad.pos  16 AWG red   1 m  # want wire/undersized
wire w3 pad.neg  -> main.neg 10 AWG black 1 m
mode warm { for 30 min }
`,
	Good: `harness heater_feed { system 12 V; practice cfr183; wire gxl; slack 100 mm }
zone  cabin { ambient 0..60 degC }
place shelf in cabin
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 35 A; covered }
load heater pad     { at shelf; draws 312 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    10 AWG red   0.15 m
wire w2 f1.out   -> pad.pos  12 AWG red   1 m
wire w3 pad.neg  -> main.neg 10 AWG black 1 m
mode warm { for 30 min }
`,
	Check: checkUndersized,
})

func checkUndersized(c *Context) {
	for _, w := range c.Harness.Wires {
		if !w.Bound() || c.Shared(w) {
			continue
		}
		f := c.Wire(w)
		const nothing = 1e-3
		switch {
		case f.WorstA == nil, *f.WorstA < nothing, c.tooHotThere(w):
		case f.Ampacity == nil:
			c.WaitForAmpacity(w)
		case *f.WorstA > f.Ampacity.Amps:
			c.undersized(w, "carries", f.Ampacity)
		}
	}
}

// tooHotThere: where the ambient is above the insulation's class no size would
// do, and wire/insulation says so.
func (c *Context) tooHotThere(w *harness.Wire) bool {
	cable, ok := w.Cable()
	f := c.Wire(w)
	return ok && f.AmbientC != nil && *f.AmbientC > cable.TemperatureC
}

// undersized reports a wire whose worst current is above its ampacity.
func (c *Context) undersized(w *harness.Wire, does string, r *tables.Rating) {
	f := c.Wire(w)
	fix, unfixed := c.thicker(w, func(s tables.Size) bool { return c.carries(w, s, *f.WorstA) })
	c.Report(finding.Finding{
		At: w.Origin.Place(), Subject: w.Name,
		Message: fmt.Sprintf("`%s` %s %s at worst, and %s %s may carry %s", w.Name, does, amps(*f.WorstA),
			w.Size, w.Insulation, amps(r.Amps)),
		Figures: append([]string{
			"worst position: " + where(f.Worst),
			fmt.Sprintf("ampacity at %s degC: %s", number(*f.AmbientC), r) + bundledBy(r),
		}, unfixed...),
		Measured: f.WorstA, Limit: &r.Amps, Unit: "A", Source: source(r.Source), Fix: fix,
	})
}

// carries reports whether the wire in another size would carry a current.
func (c *Context) carries(w *harness.Wire, s tables.Size, amps float64) bool {
	cable, ok := w.Cable()
	f := c.Wire(w)
	if !ok || f.AmbientC == nil {
		return false
	}
	r, ok := c.Practice.Ampacity(s.AreaMM2(), cable.TemperatureC, *f.AmbientC)
	return ok && c.Bundled(w, r).Amps >= amps
}

// bundledBy is what a rating says of its bundle or its bounds, as a tail.
func bundledBy(r *tables.Rating) string {
	if r.Note == "" {
		return ""
	}
	return "; " + r.Note
}
