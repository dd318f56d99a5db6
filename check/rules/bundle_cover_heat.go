package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "bundle/cover-heat",
	Severity: finding.Error,
	Summary:  "a cover rated below the greatest ambient of its zone",
	Why: "Polyethylene loom looks like any other black loom until it lies over an engine: it softens, sags off the wires " +
		"and runs onto whatever is below.",
	Needs: "The zone's `ambient`. What a cover bears follows from its material unless `rated` says otherwise; conduit is " +
		"made of many materials and must say. A bundle that names no zone takes those of its two places. A wire's own cover is judged along the wire.",
	Limits: []Limit{
		{"", "80 degC loom_pe and tape, 105 loom_pp, 125 loom_pa, braid, cloth_tape and heat_shrink, 200 glass_sleeve", "common practice", "sleeve and loom temperature ratings", "memory"},
	},
	Since:   "0.1.0",
	Related: []string{"wire/insulation", "bundle/hot-surface"},
	Bad:     run("", "cover loom_pe; clamp every 400 mm; zone bay; through none", "  # want bundle/cover-heat", "zone bay { ambient 0..95 degC }\n"),
	Good:    run("", "cover loom_pa; clamp every 400 mm; zone bay; through none", "", "zone bay { ambient 0..95 degC }\n"),
	Check:   checkCoverHeat,
})

func checkCoverHeat(c *Context) {
	for _, b := range c.Harness.Bundles {
		if b.Cover != nil && len(b.Members) > 0 {
			args, _ := b.Args("cover")
			arg, _ := args.Get("")
			c.coverHeat(b.Name, b.Origin, b.Cover, b.Zones(), finding.Place{File: b.Origin.File, Span: arg.Span})
		}
	}
	for _, w := range c.Harness.Wires {
		if w.Cover != nil {
			args, _ := w.Args("cover")
			arg, _ := args.Get("")
			c.coverHeat(w.Name, w.Origin, w.Cover, w.Zones(), finding.Place{File: w.Origin.File, Span: arg.Span})
		}
	}
}

// coverHeat judges one cover in the zones that it lies in.
func (c *Context) coverHeat(subject string, at harness.Origin, cover *harness.Cover, zones []*harness.Zone, word finding.Place) {
	if !cover.Known {
		c.Wait(subject, finding.Need{Name: subject, Setting: "rated"}, at.Place())
		return
	}
	zone, ok := c.hottestZone(subject, zones)
	if !ok || cover.RatedC >= zone.MostC {
		return
	}
	kind, _ := tables.Cover(cover.Name)
	c.Report(finding.Finding{
		At: at.Place(), Subject: subject,
		Message:  fmt.Sprintf("`%s` is covered with %s, which bears %s, and `%s` reaches %s", subject, cover.Name, degrees(cover.RatedC), zone.Name, degrees(zone.MostC)),
		Measured: &zone.MostC, Limit: &cover.RatedC, Unit: "degC", Source: source(kind.Source),
		Related: []finding.Related{{Place: zone.Origin.Place(), Message: "the zone"}},
		Fix:     betterLoom(kind, zone.MostC, cover.RatedC == kind.MaxC, word),
	})
}

// betterLoom puts the next better loom in a cover's place, of those that come
// in bores and hold by their material.
func betterLoom(worn tables.CoverType, ambientC float64, byMaterial bool, word finding.Place) *finding.Fix {
	var best tables.CoverType
	for _, name := range tables.CoverNames() {
		k, _ := tables.Cover(name)
		if k.Bored && k.MaxC >= ambientC && (best.Name == "" || k.MaxC < best.MaxC) {
			best = k
		}
	}
	if !worn.Bored || !byMaterial || best.Name == "" {
		return nil
	}
	return &finding.Fix{Title: "cover it with " + best.Name, Edits: []finding.Edit{{Place: word, Text: best.Name}}}
}
