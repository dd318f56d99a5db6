package rules

import "hame/check/network"

// alwaysLive reports whether a source holds a node with every switch open and
// the key off: through wires, protection, contacts that are closed at rest, and
// taps that are always live.
func (c *Context) alwaysLive(node int) bool {
	return c.liveAtRest(node, map[int]bool{})
}

// liveAtRest goes on through converters that are fed at rest themselves; asked
// holds those that were met.
func (c *Context) liveAtRest(node int, asked map[int]bool) bool {
	if c.Network.Return(node) {
		return false
	}
	return c.Network.LedTo(node, func(at int) bool { return c.givesAtRest(at, asked) }, openAtRest)
}

// givesAtRest reports whether a node is the live pole of a source that gives
// with the engine and the key off.
func (c *Context) givesAtRest(node int, asked map[int]bool) bool {
	for _, i := range c.Network.At[node] {
		e := &c.Network.Elements[i]
		if e.Kind != network.Source || c.Network.Hot(i) != node {
			continue
		}
		switch e.Source.Sort {
		case "battery":
			return true
		case "converter":
			if in := e.Source.Input; in >= 0 && !asked[i] {
				asked[i] = true
				return c.liveAtRest(c.Network.Elements[in].A, asked)
			}
		}
	}
	return false
}

// openAtRest: a contact that is open with every switch open and the key off.
func openAtRest(e *network.Element) bool {
	return e.Kind == network.Contact && !e.Gate.Stands("off", "off", 0)
}
