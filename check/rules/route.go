package rules

import (
	"strings"

	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/kinds"
)

// routeWords is a way through the network as a reader follows it on a drawing:
// "main.pos, w1, feed, w2, s1.in, s1.out, w3, lamp.pos".
func (c *Context) routeWords(from int, route []int) string {
	var words []string
	say := func(name string) {
		if name != "" && (len(words) == 0 || words[len(words)-1] != name) {
			words = append(words, name)
		}
	}
	say(c.nodeName(from))
	for k, i := range route {
		e := &c.Network.Elements[i]
		next := e.A + e.B - from
		switch {
		case e.Kind == network.Contact && e.Gate.By != network.Tap, e.Kind == network.Load, e.Kind == network.Source && e.Source.Sort != "converter":
			say(c.nodeName(from))
			say(c.nodeName(next))
		case e.Kind != network.Joint || e.Device == nil || !e.Device.Is(kinds.Ground):
			say(e.Name)
		}
		if from = next; k == len(route)-1 {
			say(c.nodeName(from))
		}
	}
	return strings.Join(words, ", ")
}

// nodeName is the terminal that a node is; "" for one that is none.
func (c *Context) nodeName(node int) string {
	if name := c.terminalAt(node); name != "?" {
		return name
	}
	return ""
}

// along lists the wires of a way as places to look at.
func (c *Context) along(route []int, message string) []finding.Related {
	const most = 8
	var list []finding.Related
	for _, i := range route {
		if w := c.Network.Elements[i].Wire; w != nil && len(list) < most {
			list = append(list, finding.Related{Place: w.Origin.Place(), Message: message})
		}
	}
	return list
}

// positionName is a declared mode's name, or the position in words.
func (c *Context) positionName(p *states.Point) string {
	if name := c.modeName(p, ""); name != "" {
		return name
	}
	return where(p.Position.Figure())
}

// modeName is the name of the mode that a position is, and else what is given.
func (c *Context) modeName(p *states.Point, otherwise string) string {
	for n, mode := range c.Survey.Modes {
		if mode == p {
			return c.Harness.Modes[n].Name
		}
	}
	return otherwise
}

// feedPath is how a load is fed in a solved position: the way of its current, or
// else of what conducts, from a source's pole to its feed terminal.
func (c *Context) feedPath(p *states.Point, load int) (from int, route []int, ok bool) {
	if way, found := c.Path(load, p); found {
		for _, s := range way.Feed {
			route = append(route, s.Element)
		}
		return c.poleTowards(way.Source, route, c.Network.Elements[load]), route, true
	}
	return 0, nil, false
}

// poleTowards is the source's pole that a way begins at.
func (c *Context) poleTowards(source int, route []int, load network.Element) int {
	s := &c.Network.Elements[source]
	if len(route) == 0 {
		if s.A == load.A || s.A == load.B {
			return s.A
		}
		return s.B
	}
	if first := &c.Network.Elements[route[0]]; first.A == s.B || first.B == s.B {
		if first.A != s.A && first.B != s.A {
			return s.B
		}
	}
	return s.A
}
