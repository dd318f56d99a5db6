package rules

import (
	"fmt"
	"slices"
	"strings"

	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "connector/mismatch",
	Severity: finding.Error,
	Summary:  "a cavity wired on one half only, whose halves' functions differ, or with feed on one half and return on the other",
	Why: "Two looms that were made apart meet at the plug, and there the counting errors show: a wire that stops at an empty cavity, " +
		"a lamp on the pump's wire, a feed that meets a return and takes the fuse.",
	Needs: "Both halves' wires; of a connector with `half` one half alone is ours, and only what a cavity is for can be judged. What a cavity is for is its `way N \"function\"`. " +
		"Functions differ where a wire's `label` is the function of another cavity, and where a function that ends in return, ground or earth is on a feed, or one that ends in feed or supply on a return.",
	Since:   "0.1.0",
	Related: []string{"connector/live-male", "graph/loose-end", "graph/dead-short"},
	Bad: shed("", `join connector x1 { at shelf; ways 3; limit 10 A }  # want connector/mismatch
load led lamp2    { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out      -> x1.female.1 2.5 mm2 red   1 m
wire w5 x1.male.1   -> lamp2.pos   2.5 mm2 red   1 m
wire w6 lamp2.neg   -> x1.male.2   2.5 mm2 black 1 m
wire w7 x1.female.2 -> main.neg    2.5 mm2 black 1 m
wire w8 f1.out      -> x1.female.3 2.5 mm2 red   1 m
`, ""),
	Good: shed("", `join connector x1 { at shelf; ways 3; limit 10 A }
load led lamp2    { at shelf; draws 9 W; least 9 V; meant always }
wire w4 f1.out      -> x1.female.1 2.5 mm2 red   1 m
wire w5 x1.male.1   -> lamp2.pos   2.5 mm2 red   1 m
wire w6 lamp2.neg   -> x1.male.2   2.5 mm2 black 1 m
wire w7 x1.female.2 -> main.neg    2.5 mm2 black 1 m
`, ""),
	Check: checkMismatch,
})

func checkMismatch(c *Context) {
	if c.Harness.Hazy {
		return // a wire that could not be read may be on the other half
	}
	for _, d := range c.Harness.Devices {
		if d.Is(kinds.Join, "connector") {
			c.mismatched(d)
		}
	}
}

// mismatched reports a connector once, with all of its cavities that are wrong.
func (c *Context) mismatched(d *harness.Device) {
	var wrong []string
	functions := functionsOf(d)
	for _, v := range cavitiesOf(d) {
		for _, judge := range []func(cavity) string{
			oneSided, c.feedOnReturn, func(v cavity) string { return mislabelled(v, functions) },
			func(v cavity) string { return c.misused(v, functions[v.number]) },
		} {
			if what := judge(v); what != "" {
				wrong = append(wrong, what)
				break
			}
		}
	}
	if len(wrong) == 0 {
		return
	}
	count, none := float64(len(wrong)), 0.0
	c.Report(finding.Finding{
		At: d.Origin.Place(), Subject: d.Name, Figures: wrong[1:],
		Message:  fmt.Sprintf("`%s`: %s", d.Name, wrong[0]),
		Measured: &count, Limit: &none, Unit: "cavities", Source: "common practice: both halves carry the same, cavity by cavity",
	})
}

// cavity is one number of a connector with its contacts of both halves; the one
// that is not ours is nil.
type cavity struct {
	number       string
	female, male *harness.Terminal
}

// cavitiesOf lists a connector's cavities in order.
func cavitiesOf(d *harness.Device) []cavity {
	var list []cavity
	at := map[string]int{}
	for _, t := range d.Terminals {
		half, number, _ := strings.Cut(t.Name, ".")
		k, ok := at[number]
		if !ok {
			k = len(list)
			at[number], list = k, append(list, cavity{number: number})
		}
		if half == "female" {
			list[k].female = t
		} else {
			list[k].male = t
		}
	}
	return list
}

// oneSided says which half of a cavity lacks its wire.
func oneSided(v cavity) string {
	if v.female == nil || v.male == nil || (len(v.female.Wires) > 0) == (len(v.male.Wires) > 0) {
		return ""
	}
	wired, bare := v.female, v.male
	if len(bare.Wires) > 0 {
		wired, bare = bare, wired
	}
	return fmt.Sprintf("`%s` goes to %s, and nothing goes on from %s", wired.Wires[0].Name, wired.FullName(), bare.FullName())
}

// feedOnReturn: apart, one half is fed and the other leads to a source's
// return.
func (c *Context) feedOnReturn(v cavity) string {
	if v.female == nil || v.male == nil || len(v.female.Wires) == 0 || len(v.male.Wires) == 0 {
		return ""
	}
	for _, half := range [2][2]*harness.Terminal{{v.female, v.male}, {v.male, v.female}} {
		fed, returned := half[0], half[1]
		if c.poleApart(fed, true) && !c.poleApart(fed, false) && c.poleApart(returned, false) && !c.poleApart(returned, true) {
			return fmt.Sprintf("%s is fed by `%s`, and %s leads back to a source by `%s`", fed.FullName(), fed.Wires[0].Name, returned.FullName(), returned.Wires[0].Name)
		}
	}
	return ""
}

// poleApart reports whether a contact leads to a source's live pole, or to its
// other one, with the connector apart.
func (c *Context) poleApart(t *harness.Terminal, live bool) bool {
	return c.Network.LedTo(t.Index, func(at int) bool {
		for _, i := range c.Network.At[at] {
			if c.Network.Elements[i].Kind == network.Source && (c.Network.Hot(i) == at) == live {
				return true
			}
		}
		return false
	}, func(e *network.Element) bool { return e.Kind == network.Joint && e.Device == t.Device })
}

// functionsOf is what a connector's cavities are for, by number.
func functionsOf(d *harness.Device) map[string]string {
	functions := map[string]string{}
	for _, args := range d.Given("way") {
		functions[args.RepeatKey()] = args.Word("function")
	}
	return functions
}

// mislabelled: a wire whose label is the function of another cavity.
func mislabelled(v cavity, functions map[string]string) string {
	for _, t := range []*harness.Terminal{v.female, v.male} {
		if t == nil {
			continue
		}
		for _, w := range t.Wires {
			label := strings.ToLower(w.Word("label"))
			if label == "" || label == strings.ToLower(functions[v.number]) {
				continue
			}
			for _, other := range cavitiesOf(t.Device) {
				if strings.ToLower(functions[other.number]) == label {
					return fmt.Sprintf("`%s` is \"%s\" and lies in %s, which is for \"%s\"", w.Name, w.Word("label"), t.FullName(), functions[v.number])
				}
			}
		}
	}
	return ""
}

// misused: a cavity for a return that is fed, or one for a feed that is a
// return.
func (c *Context) misused(v cavity, function string) string {
	for _, t := range []*harness.Terminal{v.female, v.male} {
		if t == nil || len(t.Wires) == 0 {
			continue
		}
		switch returns := c.Network.Return(t.Index); {
		case !returns && c.Network.Feed(t.Index) && says(function, "return", "ground", "earth"):
			return fmt.Sprintf("%s is for \"%s\", and `%s` is a feed", t.FullName(), function, t.Wires[0].Name)
		case returns && says(function, "feed", "supply"):
			return fmt.Sprintf("%s is for \"%s\", and `%s` is a return", t.FullName(), function, t.Wires[0].Name)
		}
	}
	return ""
}

// says reports whether a text ends in one of some words, or begins with the
// first of them and "of": "lamp return", "return of 1 to 8".
func says(text string, words ...string) bool {
	fields := strings.Fields(strings.ToLower(text))
	if len(fields) == 0 {
		return false
	}
	if len(fields) > 1 && fields[0] == words[0] && fields[1] == "of" {
		return true
	}
	return slices.Contains(words, fields[len(fields)-1])
}
