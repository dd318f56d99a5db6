package rules

import (
	"strings"

	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "bundle/bare",
	Severity: finding.Error,
	Summary:  "no cover against abrasion, sun or oil, no guard behind a panel, or no grommet in a bulkhead",
	Why: "A bare hole in sheet metal saws through any insulation, and the frame is on the other side of it. Sun, oil and " +
		"rubbing take longer, and where nobody looks nobody sees it.",
	Needs: "The exposure of the zones, the bundle's `cover`, `through` and `behind`. Where the zone changes along the way there is " +
		"a wall or an edge between, so `through` must say what: a bulkhead with its grommet, or none. Behind a panel only where `behind panel` says so. " +
		"A bundle whose wires all have covers of their own is not bare.",
	Limits: []Limit{
		{"", "protected from abrasion at bulkheads, structure and edges", "33 CFR 183.445", "(a)", "seen"},
		{"", "a cover in oil and sun, a guard behind panels", "common practice", "trade judgement", "common practice"},
	},
	Since:   "0.1.0",
	Related: []string{"wire/insulation", "bundle/fill", "bundle/clamps"},
	Bad:     run("", "cover loom_pa; clamp every 400 mm; through bulkhead", "  # want bundle/bare", ""),
	Good:    run("", "cover loom_pa; clamp every 400 mm; through bulkhead grommet 14 mm", "", ""),
	Check:   checkBare,
})

func checkBare(c *Context) {
	for _, b := range c.Harness.Bundles {
		if len(b.Members) == 0 {
			continue
		}
		if !b.Has("through") && changes(b) {
			c.Wait(b.Name, finding.Need{Name: b.Name, Setting: "through"}, b.Origin.Place())
		}
		c.bare(b)
	}
}

// changes reports whether the zone changes along a bundle, its ends included.
func changes(b *harness.Bundle) bool {
	zones := b.Zones()
	for _, p := range []*harness.Place{b.From, b.To} {
		if p != nil && p.Zone != nil && len(zones) > 0 && p.Zone != zones[0] {
			return true
		}
	}
	return len(zones) > 1
}

// bare reports all that a bundle lacks, in one finding.
func (c *Context) bare(b *harness.Bundle) {
	f := finding.Finding{At: b.Origin.Place(), Subject: b.Name, Severity: finding.Warning}
	var lacks []string
	if through, ok := b.Args("through"); ok && through.Word("") != "none" {
		if _, ok := through.Get("grommet"); !ok {
			lacks = append(lacks, "goes through a bulkhead with no grommet")
			f.Severity, f.Source = finding.Error, "33 CFR 183.445 (a)"
		}
	}
	if to, zone := c.unshielded(b); zone != nil {
		lacks = append(lacks, "has no cover against the "+to+" in `"+zone.Name+"`")
		f.Related = append(f.Related, finding.Related{Place: zone.Origin.Place(), Message: "the zone"})
	}
	if behind, ok := b.Args("behind"); ok && behind.Word("guard") == "" {
		lacks = append(lacks, "runs behind a panel with no guard")
	}
	if len(lacks) == 0 {
		return
	}
	if f.Source == "" {
		f.Source = "common practice: trade judgement"
	}
	f.Message = "`" + b.Name + "` " + strings.Join(lacks, ", ")
	c.Report(f)
}

// unshielded says what a bundle without a cover is exposed to, and where.
func (c *Context) unshielded(b *harness.Bundle) (string, *harness.Zone) {
	if b.Cover != nil || covered(b.Members) {
		return "", nil
	}
	var list []string
	var first *harness.Zone
	for _, to := range []string{"abrasion", "sun", "oil"} {
		if z := exposed(b.Zones(), to); z != nil {
			list = append(list, to)
			if first == nil {
				first = z
			}
		}
	}
	return strings.Join(list, " and "), first
}

// covered reports whether each of some wires has a cover of its own.
func covered(wires []*harness.Wire) bool {
	for _, w := range wires {
		if w.Cover == nil {
			return false
		}
	}
	return true
}
