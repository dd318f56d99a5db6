package rules

import (
	"hame/check/facts"
	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
)

// wireOf is the first wire of some ties, else the first of them.
func (c *Context) wireOf(ties []int) int {
	for _, i := range ties {
		if c.Network.Elements[i].Wire != nil {
			return i
		}
	}
	return ties[0]
}

// tieAt is a tie's name and where it is declared.
func (c *Context) tieAt(tie int) (string, finding.Place) {
	e := &c.Network.Elements[tie]
	if e.Wire != nil {
		return e.Wire.Name, e.Wire.Origin.Place()
	}
	return e.Device.Name, e.Device.Origin.Place()
}

// alsoTied lists the other ties that lose the same loads, and the loads.
func (c *Context) alsoTied(tie int, h facts.Hanging) []finding.Related {
	const most = 8
	var list []finding.Related
	for _, i := range h.Ties {
		if _, at := c.tieAt(i); i != tie && len(list) < most {
			list = append(list, finding.Related{Place: at, Message: "the same happens where this opens"})
		}
	}
	said := map[*harness.Device]bool{}
	for _, i := range h.Loads {
		if d := c.Network.Elements[i].Device; d != nil && !said[d] && len(list) < most {
			said[d] = true
			list = append(list, finding.Related{Place: d.Origin.Place(), Message: "it loses its return"})
		}
	}
	return list
}

// openedAt is the network with a tie open, and without what borrowed circuits
// carry already: that returns where the machine has it, and not by a wire of its
// own to the supply's negative.
func (c *Context) openedAt(tie int) *network.Network {
	open := []int{tie}
	for i := range c.Network.Elements {
		if l := c.Network.Elements[i].Load; l != nil && l.Sort == "carries" {
			open = append(open, i)
		}
	}
	return c.Network.Without(open...)
}

// weaker reports whether another of some ties is a wire that may carry less than
// a current in A.
func (c *Context) weaker(ties []int, but int, amps float64) bool {
	for _, i := range ties {
		if w := c.Network.Elements[i].Wire; w != nil && i != but {
			if r := c.Wire(w).Ampacity; r != nil && r.Amps < amps {
				return true
			}
		}
	}
	return false
}
