package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "bundle/clamps",
	Severity: finding.Warning,
	Summary:  "clamps further apart than the practice allows",
	Why: "Between two clamps a loom hangs and swings. It chafes on the next edge, works its terminals loose, and a wire " +
		"that breaks can reach whatever moves or is hot.",
	Needs: "The spacing, `clamp every LENGTH`. A bundle that says none is open, unless all of it is shorter than one spacing.",
	Limits: []Limit{
		{"land", "450 mm", "ISO 10133", "7.3", "seen"},
		{"cfr183", "457 mm", "ABYC E-11", "18 in support interval", "memory"},
		{"ac43", "610 mm", "AC 43.13-1B", "11-96 a", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"bundle/bare"},
	Bad:     run("", "cover loom_pa; clamp every 600 mm", "  # want bundle/clamps", ""),
	Good:    run("", "cover loom_pa; clamp every 400 mm", "", ""),
	Check:   checkClamps,
})

func checkClamps(c *Context) {
	limit, ok := c.Practice.Limit("clamps", "")
	if !ok {
		return
	}
	limitM := limit.Value / 1000
	for _, b := range c.Harness.Bundles {
		args, said := b.Args("clamp")
		everyM, known := args.SI("")
		switch {
		case len(b.Members) == 0:
		case !said && b.LengthM > limitM:
			c.Wait(b.Name, finding.Need{Name: b.Name, Setting: "clamp"}, b.Origin.Place())
		case known && everyM > limitM*(1+1e-9):
			c.clamps(b, everyM, limitM, source(limit.Source))
		}
	}
}

func (c *Context) clamps(b *harness.Bundle, everyM, limitM float64, source string) {
	args, _ := b.Args("clamp")
	arg, _ := args.Get("")
	c.Report(finding.Finding{
		At: b.Origin.Place(), Subject: b.Name,
		Message:  fmt.Sprintf("`%s` is clamped every %s, and %s is allowed", b.Name, millimetres(everyM), millimetres(limitM)),
		Measured: &everyM, Limit: &limitM, Unit: "m", Source: source,
		Fix: &finding.Fix{
			Title: "clamp `" + b.Name + "` every " + millimetres(limitM),
			Edits: []finding.Edit{{Place: finding.Place{File: b.Origin.File, Span: arg.Span}, Text: millimetres(limitM)}},
		},
	})
}
