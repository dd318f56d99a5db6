package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "bundle/hot-surface",
	Severity: finding.Error,
	Summary:  "less clearance from exhaust, moving parts or fuel lines than the practice asks for",
	Why: "An exhaust's heat chars a loom that merely passes by. What turns or slides saws it through sooner or later, and " +
		"a wire that chafes on a fuel line is spark and fuel in one place.",
	Needs: "The clearances that were measured, `clears hot|moving|fuel by LENGTH`. Where a bundle says nothing of a kind, " +
		"nothing of that kind is taken to be near it.",
	Limits: []Limit{
		{"", "100 mm from exhaust or turbo", "common practice", "trade judgement", "common practice"},
		{"", "25 mm from moving parts", "common practice", "trade judgement", "common practice"},
		{"", "50 mm from fuel lines", "AC 43.13-1B", "11-96 w", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"bundle/cover-heat", "bundle/clamps"},
	Bad:     run("", "cover loom_pa; clamp every 400 mm; clears hot by 40 mm", "  # want bundle/hot-surface", ""),
	Good:    run("", "cover loom_pa; clamp every 400 mm; clears hot by 150 mm", "", ""),
	Check:   checkHotSurface,
})

func checkHotSurface(c *Context) {
	for _, b := range c.Harness.Bundles {
		if near := c.near(b); len(near) > 0 {
			c.hotSurface(b, near)
		}
	}
}

// clearance is one that is too small.
type clearance struct {
	from        string
	byM, limitM float64
	limit       tables.Limit
	place       finding.Place
}

// things are what a bundle clears, in words.
var things = map[string]string{"hot": "hot parts", "moving": "moving parts", "fuel": "fuel lines"}

// near lists the clearances of a bundle that are too small, the worst first.
func (c *Context) near(b *harness.Bundle) []clearance {
	var list []clearance
	for _, args := range b.Given("clears") {
		limit, ok := c.Practice.Limit("clear_"+args.RepeatKey(), "")
		byM, known := args.SI("by")
		limitM := limit.Value / 1000
		if !ok || !known || byM >= limitM*(1-1e-9) {
			continue
		}
		arg, _ := args.Get("by")
		list = append(list, clearance{things[args.RepeatKey()], byM, limitM, limit, finding.Place{File: b.Origin.File, Span: arg.Span}})
		if last := len(list) - 1; list[last].byM/list[last].limitM < list[0].byM/list[0].limitM {
			list[0], list[last] = list[last], list[0]
		}
	}
	return list
}

func (c *Context) hotSurface(b *harness.Bundle, near []clearance) {
	worst := near[0]
	f := finding.Finding{
		At: b.Origin.Place(), Subject: b.Name,
		Message:  fmt.Sprintf("`%s` runs %s from %s, and %s is the least", b.Name, millimetres(worst.byM), worst.from, millimetres(worst.limitM)),
		Figures:  []string{"lead it further away, or hold it off by a clamp on a bracket"},
		Measured: &worst.byM, Limit: &worst.limitM, Unit: "m", Source: source(worst.limit.Source),
		Related: []finding.Related{{Place: worst.place, Message: "the clearance"}},
	}
	for _, n := range near[1:] {
		f.Figures = append(f.Figures, fmt.Sprintf("and %s from %s, of %s", millimetres(n.byM), n.from, millimetres(n.limitM)))
	}
	c.Report(f)
}
