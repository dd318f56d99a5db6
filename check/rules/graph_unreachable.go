package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "graph/unreachable",
	Severity: finding.Error,
	Summary:  "no bundles join the places of a wire's two ends, and it has no length",
	Why:      "Without a way there is no length to cut, no drop to compute and no heat to judge.",
	Needs:    "The places of the two devices (`at`) and bundles that join them, or `via`, or a length on the wire.",
	Since:    "0.1.0",
	Bad: shed("\nplace attic in dry", `load led lamp2 { at attic; draws 9 W; least 9 V; meant always }
wire w4 f1.out    -> lamp2.pos 2.5 mm2 red  # want graph/unreachable
wire w5 lamp2.neg -> main.neg  2.5 mm2 black 2 m
`, ""),
	Good: shed("\nplace attic in dry", `load led lamp2 { at attic; draws 9 W; least 9 V; meant always }
bundle riser shelf -> attic 2 m { cover loom_pa; clamp every 400 mm }
wire w4 f1.out    -> lamp2.pos 2.5 mm2 red
wire w5 lamp2.neg -> main.neg  2.5 mm2 black
`, ""),
	Check: checkUnreachable,
})

// checkUnreachable is silent where the way that is missing may be what could not
// be read, and where a length is said with a mistake.
func checkUnreachable(c *Context) {
	if c.Harness.Hazy {
		return
	}
	for _, w := range c.Harness.Wires {
		if !w.HasLength && w.Bound() && !w.Via && !c.Harness.Mistaken(w.Name, "length") {
			c.unreachable(w)
		}
	}
}

func (c *Context) unreachable(w *harness.Wire) {
	f := finding.Finding{At: w.Origin.Place(), Subject: w.Name}
	from, to := w.Ends[0].Place(), w.Ends[1].Place()
	switch {
	case from != nil && to != nil && from == to:
		f.Message = fmt.Sprintf("both ends of `%s` lie at `%s` and there is no slack, so it has no length", w.Name, from.Name)
	case from != nil && to != nil:
		f.Message = fmt.Sprintf("no bundles lead from `%s` to `%s`, and `%s` has no length", from.Name, to.Name, w.Name)
		f.Related = []finding.Related{
			{Place: from.Origin.Place(), Message: "from here"},
			{Place: to.Origin.Place(), Message: "to here"},
		}
	default:
		f.Message = fmt.Sprintf("%s has no place, so `%s` needs a length", placeless(w), w.Name)
	}
	f.Figures = []string{"expected: a bundle between the places, or a length on the wire"}
	c.Report(f)
}

func placeless(w *harness.Wire) string {
	for _, e := range w.Ends {
		if e.Place() == nil && e.Terminal != nil {
			return "`" + e.Terminal.Device.Name + "`"
		}
	}
	return "a capped end"
}
