package rules

import (
	"fmt"
	"strings"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "graph/loose-end",
	Severity: finding.Warning,
	Summary:  "a terminal that should be wired is not, or what is crimped on a wire does not mate with where it lands",
	Why: "A terminal without a wire is work forgotten, on paper or on the machine. Spare ways, cavities, throws and 87a " +
		"may stay empty; a ring on a tab, or a pin in a pin's place, cannot be put together.",
	Needs: "The wires. Hardware is judged where `ends` gives it and the terminal's own is declared (`tabs`, `studs`, `size`, `post`, `feed`). " +
		"On a device's own `lead` anything may be but a ring or a cap: its mating half is put on the lead.",
	Since: "0.1.0", Related: []string{"graph/no-return", "connector/mismatch", "terminal/stud"},
	Bad:   shed("", "switch toggle spare { at shelf; rating 20 A }  # want graph/loose-end graph/loose-end\n", ""),
	Good:  shed("", "", ""),
	Check: checkLooseEnds,
})

func checkLooseEnds(c *Context) {
	if c.Harness.Hazy {
		return // a wire that could not be read may be the one that is missing
	}
	for _, d := range c.Harness.Devices {
		for _, t := range d.Terminals {
			if c.loose(t) {
				c.looseTerminal(t)
			}
		}
	}
	for _, w := range c.Harness.Wires {
		for _, e := range w.Ends {
			if e.Given && e.Terminal != nil && !mates(e.Hardware, e.Terminal.Fitting) {
				c.mismated(w, e)
			}
		}
	}
}

// loose: a load's negative without a wire is said by graph/no-return, and a
// live wire alone in a splice by graph/live-stub.
func (c *Context) loose(t *harness.Terminal) bool {
	d := t.Device
	switch {
	case d.Is(kinds.Join, "splice"):
		return len(t.Wires) < 2 && !c.Network.Feed(t.Index)
	case d.Is(kinds.Ground, "chassis"):
		return len(c.Network.At[t.Index]) == 0
	case d.Is(kinds.Load) && t.Name == "neg":
		return false
	}
	return !t.Spare && len(t.Wires) == 0
}

func (c *Context) looseTerminal(t *harness.Terminal) {
	does := "no wire"
	if len(t.Wires) == 1 {
		does = "one wire alone"
	}
	c.Report(finding.Finding{
		At: t.Device.Origin.Place(), Subject: t.Device.Name,
		Message: fmt.Sprintf("%s lands on `%s`", does, t.FullName()),
		Figures: []string{"wire it, or leave the device out"},
	})
}

// mates reports whether hardware goes with what a terminal offers. A stud's
// size is terminal/stud's to judge.
func mates(hardware string, f kinds.Fitting) bool {
	word, _, _ := strings.Cut(hardware, " ")
	switch f.Form {
	case kinds.Stud:
		return word == "ring"
	case kinds.Tab, kinds.Cavity:
		return hardware == f.Hardware()
	case kinds.Barrel:
		return word == "butt" || word == "bare"
	case kinds.Pigtail:
		return word != "ring" && word != "cap"
	}
	return true
}

func (c *Context) mismated(w *harness.Wire, e harness.End) {
	c.Report(finding.Finding{
		At: w.Origin.Place(), Subject: w.Name,
		Message: fmt.Sprintf("`%s` has %s at `%s`, which wants %s", w.Name, e.Hardware, e.Terminal.FullName(), e.Terminal.Fitting.Hardware()),
		Related: []finding.Related{{Place: e.Terminal.Device.Origin.Place(), Message: "where it lands"}},
	})
}
