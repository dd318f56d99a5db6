package states

import (
	"maps"
	"slices"

	"hame/lang/harness"
)

// everything lists every setting of the switches, those that are open too.
func everything(list []hand) []map[*harness.Device]int {
	all := make([]map[*harness.Device]int, settingsOf(list, 1<<20))
	for i := range all {
		all[i] = map[*harness.Device]int{}
		rest := i
		for _, h := range list {
			all[i][h.device] = rest % (h.throws + 1)
			rest /= h.throws + 1
		}
	}
	return all
}

// cover lists settings that take every unit through all of its own, all units
// at once, so that there are no more of them than the greatest unit has: units
// don't act on each other but through the bus. Further rounds shift the units
// against each other so that each pair of them meets differently. Gates stay
// closed meanwhile and open one by one at last. It tries no more than limit,
// what tells most first.
func cover(units []unit, limit int) []map[*harness.Device]int {
	c := &coverer{units: units, limit: limit}
	for _, u := range units {
		c.longest = max(c.longest, len(u.settings))
		for _, h := range u.hands {
			c.throws = max(c.throws, h.throws)
		}
	}
	for throw := c.throws; throw >= 0; throw-- {
		c.add(func(_ int, h hand, _ int) int { return min(throw, h.throws) })
	}
	for k := range c.longest {
		c.add(c.turned(k, func(int) int { return 0 }))
	}
	c.open()
	for bit := 1; bit < len(units); bit *= 2 {
		for k := range c.longest {
			c.add(c.turned(k, func(u int) int { return one(u&bit != 0) }))
		}
	}
	return c.list
}

type coverer struct {
	units   []unit
	limit   int
	longest int
	throws  int
	tried   int
	list    []map[*harness.Device]int
}

// add lists a setting, made switch by switch of each unit, unless it is there: the
// first of all units may well be all open.
func (c *coverer) add(throw func(unit int, h hand, k int) int) {
	if c.tried++; c.tried > c.limit {
		return
	}
	set := map[*harness.Device]int{}
	for u := range c.units {
		for k, h := range c.units[u].hands {
			if t := throw(u, h, k); t > 0 {
				set[h.device] = t
			}
		}
	}
	if !slices.ContainsFunc(c.list, func(old map[*harness.Device]int) bool { return maps.Equal(old, set) }) {
		c.list = append(c.list, set)
	}
}

// turned puts every unit that is no gate on its k-th setting, and some further.
func (c *coverer) turned(k int, further func(unit int) int) func(int, hand, int) int {
	return func(u int, _ hand, at int) int {
		unit := &c.units[u]
		if unit.gate {
			return 1
		}
		return unit.settings[(k+further(u))%len(unit.settings)][at]
	}
}

// open takes each gate through its settings with all else closed.
func (c *coverer) open() {
	for g := range c.units {
		if !c.units[g].gate {
			continue
		}
		for _, set := range c.units[g].settings {
			c.add(func(u int, _ hand, at int) int {
				if u == g {
					return set[at]
				}
				return 1
			})
		}
	}
}
