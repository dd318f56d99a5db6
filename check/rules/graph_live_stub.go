package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "graph/live-stub",
	Severity: finding.Error,
	Summary:  "a wire end that is bare or lands nowhere, is not capped, and is live in some position",
	Why:      "A loose live end finds the frame by itself, sooner or later.",
	Needs: "The wires. An end counts as bare where `ends` says so and it does not lie in a splice; it lands nowhere where it is alone in a " +
		"splice. `capped` in the end's place says that it is closed safely. Every switch counts as closed.",
	Since: "0.1.0", Related: []string{"graph/loose-end", "connector/live-male"},
	Bad: shed("", `join splice s1 { at shelf; takes 1 mm2..4 mm2 }
wire spare f1.out -> s1 2.5 mm2 red 1 m  # want graph/live-stub
`, ""),
	Good: shed("", `wire spare f1.out -> capped 2.5 mm2 red 1 m
`, ""),
	Check: checkLiveStub,
})

func checkLiveStub(c *Context) {
	if c.Harness.Hazy {
		return
	}
	for _, w := range c.Harness.Wires {
		for _, e := range w.Ends {
			if e.Terminal != nil && stub(e) && c.Network.Feed(e.Terminal.Index) {
				c.liveStub(w, e)
				break
			}
		}
	}
}

// stub: bare outside a splice, or alone in one.
func stub(e harness.End) bool {
	splice := e.Terminal.Device.Is(kinds.Join, "splice")
	return splice && len(e.Terminal.Wires) == 1 || !splice && e.Given && e.Hardware == "bare"
}

func (c *Context) liveStub(w *harness.Wire, e harness.End) {
	does := "is bare"
	if e.Terminal.Device.Is(kinds.Join, "splice") {
		does = "leads nowhere: nothing else lands on the splice"
	}
	c.Report(finding.Finding{
		At: w.Origin.Place(), Subject: w.Name,
		Message: fmt.Sprintf("the end of `%s` at `%s` is live and %s", w.Name, e.Name(), does),
		Figures: []string{"close it with a cap and write `capped` in its place, or take the wire out"},
		Related: []finding.Related{{Place: e.Terminal.Device.Origin.Place(), Message: "where it ends"}},
	})
}
