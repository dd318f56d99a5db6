package rules

import (
	"fmt"

	"hame/check/facts"
	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "switch/no-suppression",
	Severity: finding.Warning,
	Summary:  "a relay's or solenoid's coil with nothing across it, on a tap or on a rail that also feeds a led, module or outlet",
	Why: "A coil that is cut off kicks back hundreds of volts into whatever shares its feed. Lamp drivers and control modules " +
		"die of it one day, and nobody finds out why.",
	Needs: "`suppress` of relays and solenoids: none where nothing is said. A rail is all that one source feeds, through whatever fuses and contacts.",
	Limits: []Limit{
		{"", "a diode or resistor across every coil", "a state's fleet electrical specification", "8.1", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"switch/coil-volts", "tap/forbidden"},
	Bad: shed("", `switch relay k1   { at shelf; contacts 30 A; coil 96 ohm }  # want switch/no-suppression
load led marker   { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out     -> k1.30      2.5 mm2 red   1 m
wire w5 f1.out     -> k1.86      2.5 mm2 red   1 m
wire w6 k1.85      -> main.neg   2.5 mm2 black 1 m
wire w7 k1.87      -> marker.pos 2.5 mm2 red   1 m
wire w8 marker.neg -> main.neg   2.5 mm2 black 1 m
`, ""),
	Good: shed("", `switch relay k1   { at shelf; contacts 30 A; coil 96 ohm; suppress resistor }
load led marker   { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out     -> k1.30      2.5 mm2 red   1 m
wire w5 f1.out     -> k1.86      2.5 mm2 red   1 m
wire w6 k1.85      -> main.neg   2.5 mm2 black 1 m
wire w7 k1.87      -> marker.pos 2.5 mm2 red   1 m
wire w8 marker.neg -> main.neg   2.5 mm2 black 1 m
`, ""),
	Check: checkSuppression,
})

func checkSuppression(c *Context) {
	said := map[*harness.Device]bool{}
	var rails *facts.Rails
	var struck map[int]*harness.Device
	for _, i := range c.loads() {
		e := &c.Network.Elements[i]
		bare := (e.Load.Coil != nil || e.Load.Sort == "solenoid") && e.Device.Word("suppress") == "none"
		if !bare || said[e.Device] {
			continue
		}
		if rails == nil {
			rails = c.Rails()
			struck = c.struck(rails)
		}
		if shares, other := c.kicks(c.feedNode(i), rails, struck); shares != "" {
			said[e.Device] = true
			c.unsuppressed(e, shares, other)
		}
	}
}

// struck is the first led, module or outlet that each source feeds.
func (c *Context) struck(rails *facts.Rails) map[int]*harness.Device {
	first := map[int]*harness.Device{}
	for _, i := range c.loads() {
		e := &c.Network.Elements[i]
		if e.Device == nil || !e.Device.Is(kinds.Load, "led", "module", "outlet") {
			continue
		}
		for _, s := range rails.Of(c.feedNode(i)) {
			if first[s] == nil {
				first[s] = e.Device
			}
		}
	}
	return first
}

// kicks says what a coil shares its feed with, and where that is declared: the
// tap that it hangs on, or the first led, module or outlet of its rail.
func (c *Context) kicks(feed int, rails *facts.Rails, struck map[int]*harness.Device) (string, *harness.Device) {
	if tap := c.onTap(feed); tap != nil {
		return fmt.Sprintf("hangs on the borrowed circuit `%s`", tap.Name), tap
	}
	for _, s := range rails.Of(feed) {
		if d := struck[s]; d != nil {
			return fmt.Sprintf("shares its rail with `%s`", d.Name), d
		}
	}
	return "", nil
}

// onTap is the tap that leads to a node with no other source nearer than it.
func (c *Context) onTap(node int) *harness.Device {
	for _, d := range c.Harness.Devices {
		if !d.Is(kinds.Supply, "tap") {
			continue
		}
		out := d.Terminals[0].Index
		inside := func(e *network.Element) bool { return e.Kind != network.Wire && e.Device == d }
		if c.Network.LedTo(node, func(at int) bool { return at == out }, inside) {
			return d
		}
	}
	return nil
}

func (c *Context) unsuppressed(e *network.Element, shares string, other *harness.Device) {
	d := e.Device
	edits := []finding.Edit{saying(d.Origin, "suppress resistor")}
	if args, ok := d.Args("suppress"); ok {
		edits = nil
		if at, own := saidHere(d.Origin, args); own {
			edits = []finding.Edit{{Place: at, Text: "resistor"}}
		}
	}
	var fix *finding.Fix
	if edits != nil {
		fix = &finding.Fix{Title: "put a resistor across the coil of `" + d.Name + "`", Edits: edits}
	}
	c.Report(finding.Finding{
		At: d.Origin.Place(), Subject: d.Name, Source: "a state's fleet electrical specification 8.1", Fix: fix,
		Message: fmt.Sprintf("nothing is across the coil of `%s`, which %s", d.Name, shares),
		Related: []finding.Related{{Place: other.Origin.Place(), Message: "what its kick meets"}},
	})
}
