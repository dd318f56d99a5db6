package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "protection/fitted",
	Severity: finding.Error,
	Summary:  "the fuse found in a holder is bigger than its rating",
	Why: "A bigger fuse is what somebody puts in on a wet night because the right one kept blowing. " +
		"From then on the wire is the fuse, and the fault that blew the first one is still there.",
	Needs:   "`fitted`, as read off the fuse itself. Where nothing is said, what is fitted is taken to be the rating. A smaller fuse is no danger to the wire and is let be.",
	Limits:  []Limit{{"", "the declared rating", "common practice", "", "common practice"}},
	Since:   "0.1.0",
	Related: []string{"protection/oversized", "protection/loaded"},
	Bad: shedWith(`protection fuse f2  { at shelf; rating 10 A; fitted 25 A; covered }  # want protection/fitted
load led rear       { at shelf; draws 27 W; least 9 V; meant always }
wire w4 main.pos -> f2.in    2.5 mm2 red   0.15 m
wire w5 f2.out   -> rear.pos 2.5 mm2 red   1 m
wire w6 rear.neg -> main.neg 2.5 mm2 black 1 m
`),
	Good: shedWith(`protection fuse f2  { at shelf; rating 10 A; fitted 10 A; covered }
load led rear       { at shelf; draws 27 W; least 9 V; meant always }
wire w4 main.pos -> f2.in    2.5 mm2 red   0.15 m
wire w5 f2.out   -> rear.pos 2.5 mm2 red   1 m
wire w6 rear.neg -> main.neg 2.5 mm2 black 1 m
`),
	Check: checkFitted,
})

// shedWith is the shed with more behind it.
func shedWith(more string) string { return shed("", more, "") }

func checkFitted(c *Context) {
	for _, d := range c.Harness.Devices {
		if !d.Is(kinds.Protection, "fuse") || !d.Has("fitted") {
			continue
		}
		rating, rated := d.SI("rating")
		if found, ok := d.SI("fitted"); rated && ok && found > rating {
			c.overFitted(d, found, rating)
		}
	}
}

func (c *Context) overFitted(d *harness.Device, found, rating float64) {
	c.Report(finding.Finding{
		At: d.Origin.Place(), Subject: d.Name,
		Message:  fmt.Sprintf("a fuse of %s was found in `%s`, which is rated %s", amps(found), d.Name, amps(rating)),
		Figures:  []string{"fit one of " + amps(rating) + ", and find out why the right one was taken out"},
		Measured: &found, Limit: &rating, Unit: "A", Source: "the device's own rating",
	})
}
