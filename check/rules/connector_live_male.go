package rules

import (
	"fmt"
	"strings"

	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "connector/live-male",
	Severity: finding.Error,
	Summary:  "pulled apart, the half with male contacts is still fed from a source",
	Why: "A parted connector hangs loose. Male contacts can be touched and can touch the frame; female ones are sunk in " +
		"their half. So the half that stays live carries the female contacts.",
	Needs:  "Both halves' wires, or with `half` those of the half that is ours. Every switch counts as closed. A warning where the male contacts are `shrouded`.",
	Limits: []Limit{{"", "no live male contact", "common practice", "the live half carries the female contacts", "common practice, no source"}},
	Since:  "0.1.0", Related: []string{"connector/mismatch", "terminal/uncovered"},
	Bad: shed("", `join connector x1 { at shelf; ways 2; limit 10 A }  # want connector/live-male
load led lamp2    { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out      -> x1.male.1 2.5 mm2 red   1 m
wire w5 main.neg    -> x1.male.2 2.5 mm2 black 1 m
wire w6 x1.female.1 -> lamp2.pos 2.5 mm2 red   1 m
wire w7 x1.female.2 -> lamp2.neg 2.5 mm2 black 1 m
`, ""),
	Good: shed("", `join connector x1 { at shelf; ways 2; limit 10 A }
load led lamp2    { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out    -> x1.female.1 2.5 mm2 red   1 m
wire w5 main.neg  -> x1.female.2 2.5 mm2 black 1 m
wire w6 x1.male.1 -> lamp2.pos   2.5 mm2 red   1 m
wire w7 x1.male.2 -> lamp2.neg   2.5 mm2 black 1 m
`, ""),
	Check: checkLiveMale,
})

func checkLiveMale(c *Context) {
	for _, d := range c.Harness.Devices {
		if d.Is(kinds.Join, "connector") {
			if live := c.liveContacts(d, "male."); len(live) > 0 {
				c.liveMale(d, live)
			}
		}
	}
}

// liveContacts lists the contacts of one half that a source still feeds when
// the connector is pulled apart.
func (c *Context) liveContacts(d *harness.Device, half string) []*harness.Terminal {
	var live []*harness.Terminal
	for _, t := range d.Terminals {
		if strings.HasPrefix(t.Name, half) && len(t.Wires) > 0 && c.fedWithout(t.Index, d) {
			live = append(live, t)
		}
	}
	return live
}

// fedWithout reports whether a source's live pole leads to a node while a
// connector is apart.
func (c *Context) fedWithout(node int, apart *harness.Device) bool {
	if c.Network.Return(node) {
		return false
	}
	return c.Network.LedTo(node, func(at int) bool {
		for _, i := range c.Network.At[at] {
			if c.Network.Elements[i].Kind == network.Source && c.Network.Hot(i) == at {
				return true
			}
		}
		return false
	}, func(e *network.Element) bool { return e.Kind == network.Joint && e.Device == apart })
}

func (c *Context) liveMale(d *harness.Device, live []*harness.Terminal) {
	var names []string
	f := finding.Finding{At: d.Origin.Place(), Subject: d.Name, Source: "common practice: the live half carries the female contacts"}
	for _, t := range live {
		names = append(names, t.FullName())
		f.Related = append(f.Related, finding.Related{Place: t.Wires[0].Origin.Place(), Message: "feeds " + t.FullName()})
	}
	guarded := ""
	if d.Has("shrouded") {
		f.Severity, guarded = finding.Warning, ", though shrouded"
	}
	count, none := float64(len(live)), 0.0
	f.Measured, f.Limit, f.Unit = &count, &none, "contacts"
	f.Message = fmt.Sprintf("pulled apart, male contacts of `%s` stay live%s: %s", d.Name, guarded, enumerate(names))
	f.Figures = []string{"turn the halves round, so that the live half carries the female contacts"}
	f.Fix = c.turned(d)
	c.Report(f)
}

// turned swaps the halves in every wire, where that leaves no male contact
// live.
func (c *Context) turned(d *harness.Device) *finding.Fix {
	if d.Has("half") || len(c.liveContacts(d, "female.")) > 0 {
		return nil
	}
	fix := &finding.Fix{Title: "turn the halves of `" + d.Name + "` round"}
	for _, w := range c.Harness.Wires {
		for _, e := range w.Ends {
			if e.Terminal == nil || e.Terminal.Device != d {
				continue
			}
			half, cavity, _ := strings.Cut(e.Terminal.Name, ".")
			other := map[string]string{"male": "female", "female": "male"}[half]
			fix.Edits = append(fix.Edits, finding.Edit{
				Place: finding.Place{File: w.Origin.File, Span: e.Span},
				Text:  d.Name + "." + other + "." + cavity,
			})
		}
	}
	return fix
}
