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
	Name:     "protection/far",
	Severity: finding.Error,
	Summary:  "too much unprotected length between a source and the device that protects the wire",
	Why: "The piece ahead of the fuse is protected by nothing. The shorter it is, and the better it is covered, " +
		"the less can happen to it: the device sits as near the battery as can be.",
	Needs: "The lengths on the way from the source. A way counts as sheathed when every wire on it is covered all along, by its own cover or its bundles', " +
		"but for 100 mm at each end that reach out to the terminals. " +
		"The starter's own cable is exempt, and a wire whose ampacity holds all that an alternator or converter gives: what branches off it is measured from there.",
	Limits: []Limit{
		{"land", "178 mm; 1016 mm when sheathed all the way", "33 CFR 183.455", "(b)", "seen"},
		{"cfr183", "178 mm; 1016 mm when sheathed all the way; 1829 mm sheathed from a battery terminal", "33 CFR 183.455 and 183.460", "(b); (a)", "seen; memory"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/missing"},
	Bad: `harness pump { system 12 V; practice land; wire gxl }
zone  hold  { ambient 0..40 degC }
place shelf in hold
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load motor bilge    { at shelf; draws 4 A; drives pump; least 9 V; meant always }
wire w1 main.pos  -> f1.in     2.5 mm2 red   0.5 m  # want protection/far
wire w2 f1.out    -> bilge.pos 2.5 mm2 red   1 m
wire w3 bilge.neg -> main.neg  2.5 mm2 black 1 m
mode pumping { for 1 h }
`,
	Good: `harness pump { system 12 V; practice land; wire gxl }
zone  hold  { ambient 0..40 degC }
place shelf in hold
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load motor bilge    { at shelf; draws 4 A; drives pump; least 9 V; meant always }
wire w1 main.pos  -> f1.in     2.5 mm2 red   0.5 m { cover loom_pa }
wire w2 f1.out    -> bilge.pos 2.5 mm2 red   1 m
wire w3 bilge.neg -> main.neg  2.5 mm2 black 1 m
mode pumping { for 1 h }
`,
	Check: checkFar,
})

func checkFar(c *Context) {
	said := map[*harness.Wire]bool{}
	for _, reach := range c.Protect.Sources {
		wires, below := reach.Bare()
		for _, w := range wires {
			b := below[w]
			if len(b.Loads) > 0 || len(b.Fuses) == 0 || c.exempt(reach, w, b) || said[w] {
				continue
			}
			if c.far(reach, w, below) {
				said[w] = true
			}
		}
	}
}

// exempt: the starter's own cable, and a wire that bears all that the source
// gives, need no device; their length counts for nothing either.
func (c *Context) exempt(reach *protect.Reach, w *harness.Wire, b *protect.Below) bool {
	return b != nil && b.Starter || c.WithinOutput(reach.Source, w)
}

// far judges a wire that leads to protective devices alone, and reports whether
// it is broken.
func (c *Context) far(reach *protect.Reach, w *harness.Wire, below map[*harness.Wire]*protect.Below) bool {
	e := c.Network.Elements[c.Network.OfWire(w)]
	way, distM, known := reach.WayTo(e.A)
	if other, d, k := reach.WayTo(e.B); d > distM || len(other) > len(way) {
		way, distM, known = other, d, k
	}
	if !known {
		c.waitForLengths(w, way)
		return false
	}
	counted := slices.DeleteFunc(way, func(x *harness.Wire) bool { return c.exempt(reach, x, below[x]) })
	limit, broken := c.tooFar(reach, counted)
	for n := 1; n < len(counted); n++ {
		if _, before := c.tooFar(reach, counted[:n]); before { // said where the allowed length ran out
			return false
		}
	}
	if broken {
		c.reportFar(reach, w, c.Network.Elements[below[w].Fuses[0]], counted, limit)
	}
	return broken
}

func (c *Context) waitForLengths(w *harness.Wire, way []*harness.Wire) {
	for _, x := range way {
		if !x.HasLength {
			c.Wait(w.Name, finding.Need{Name: x.Name, Setting: "length"}, x.Origin.Place())
		}
	}
}

// tooFar reports whether a way is longer than the practice allows one that is
// covered as it is.
func (c *Context) tooFar(reach *protect.Reach, way []*harness.Wire) (distance, bool) {
	d := c.allowedDistance(reach, way)
	const same = 1e-9
	return d, d.limitM > 0 && lengthOf(way) > d.limitM*(1+same)
}

func lengthOf(way []*harness.Wire) (lengthM float64) {
	for _, w := range way {
		lengthM += w.LengthM
	}
	return lengthM
}

func (c *Context) reportFar(reach *protect.Reach, w *harness.Wire, device network.Element, way []*harness.Wire, limit distance) {
	source, distM := c.Network.Elements[reach.Source], lengthOf(way)
	c.Report(finding.Finding{
		At: w.Origin.Place(), Subject: w.Name,
		Message:  fmt.Sprintf("`%s` is %s along the wire from `%s`, and %s %s allowed", device.Name, millimetres(distM), source.Name, millimetres(limit.limitM), limit.words),
		Figures:  []string{wayOf(way), "move `" + device.Name + "` nearer to the source, or cover the wire all the way"},
		Measured: &distM, Limit: &limit.limitM, Unit: "m", Source: limit.clause,
		Related: []finding.Related{{Place: device.Device.Origin.Place(), Message: "the device that protects what follows"}},
	})
}

func wayOf(way []*harness.Wire) string {
	text := "unprotected: "
	for i, w := range way {
		if i > 0 {
			text += " + "
		}
		text += w.Name + " " + millimetres(w.LengthM)
	}
	return text
}

// distance is what a practice allows ahead of a device; limitM is 0 where it sets
// none.
type distance struct {
	limitM        float64
	clause, words string
}

// allowedDistance is the practice's limit for a way.
func (c *Context) allowedDistance(reach *protect.Reach, way []*harness.Wire) distance {
	name, words := "distance_bare", "of bare run is"
	if sheathedAll(way) {
		name, words = "distance_sheathed", "in a sheath is"
		battery := c.Network.Elements[reach.Source].Source.Sort == "battery"
		if _, ok := c.Practice.Limit("distance_battery", ""); ok && battery {
			name, words = "distance_battery", "in a sheath from a battery is"
		}
	}
	l, ok := c.Practice.Limit(name, "")
	if !ok {
		return distance{}
	}
	return distance{l.Value / 1000, source(l.Source), words}
}

func sheathedAll(way []*harness.Wire) bool {
	for _, w := range way {
		if !w.Sheathed() {
			return false
		}
	}
	return true
}
