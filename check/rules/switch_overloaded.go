package rules

import (
	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
)

var _ = register(&Rule{
	Name:     "switch/overloaded",
	Severity: finding.Error,
	Summary:  "what a contact switches, each load's current times the factor of its type, is above the contact's rating",
	Why: "A cold filament draws ten times its current, a motor six, and a coil draws an arc when it is cut off. A contact that was rated with a heater " +
		"welds shut on the first or burns away on the other: the lamp that will not go off, the winch that will not stop.",
	Needs: "The contact's `rating` (`contacts` of a relay). The rating is taken as resistive unless `for` says another type. A load of the contact's own type counts once; " +
		"one of any other type with the table's whole factor, whatever `for` says, since no text gives factors between two types: where a maker gives a rating for each, " +
		"declare the one for the load at hand. A bulb counts as a lamp, a motor or starter as a motor, a solenoid or coil as inductive, a led twice (trade judgement), " +
		"all others and a battery's charging as resistive. A converter's rail takes the column of its own volts; above 28 V, where the table ends, its 28 V column holds. " +
		"A starter's seconds count, but not for an isolator, which is not thrown under it.",
	Limits: []Limit{
		{"", "at 12 V (to 14 V): lamp × 5, inductive × 2, motor × 2, resistive × 1", "AC 43.13-1B", "Table 11-4", "seen"},
		{"", "at 24 V (to 28 V): lamp × 8, inductive × 4, motor × 3, resistive × 2", "AC 43.13-1B", "Table 11-4", "seen"},
		{"", "led × 2", "common practice", "trade judgement", "common practice, no source"},
	},
	Since:   "0.1.0",
	Related: []string{"wire/undersized", "protection/inrush"},
	Bad: shed("", `protection fuse f2 { at shelf; rating 10 A; covered }
switch toggle s1  { at shelf; rating 10 A }  # want switch/overloaded
load bulb spot    { at shelf; draws 55 W; least 9 V; meant always }
wire w4 main.pos -> f2.in    2.5 mm2 red   0.15 m
wire w5 f2.out   -> s1.in    2.5 mm2 red   1 m
wire w6 s1.out   -> spot.pos 2.5 mm2 red   1 m
wire w7 spot.neg -> main.neg 2.5 mm2 black 1 m
`, ""),
	Good: shed("", `protection fuse f2 { at shelf; rating 10 A; covered }
switch toggle s1  { at shelf; rating 10 A; for bulb }
load bulb spot    { at shelf; draws 55 W; least 9 V; meant always }
wire w4 main.pos -> f2.in    2.5 mm2 red   0.15 m
wire w5 f2.out   -> s1.in    2.5 mm2 red   1 m
wire w6 s1.out   -> spot.pos 2.5 mm2 red   1 m
wire w7 spot.neg -> main.neg 2.5 mm2 black 1 m
`, ""),
	Watch: watchContacts,
	Check: checkContacts,
})

// watchContacts keeps, for each contact, the position in which what it switches
// asks the most of it.
func watchContacts(c *Context) func(*states.Point) {
	list := c.newContacts()
	c.kept = list
	return func(p *states.Point) {
		for _, x := range list {
			if p.Position.Engine != "cranking" || x.device.Kind.Name != "isolator" {
				x.see(c, p)
			}
		}
	}
}

// checkContacts reports the worst contact of each device.
func checkContacts(c *Context) {
	worst := map[string]*contact{}
	var order []*contact
	for _, x := range c.kept.([]*contact) {
		x.bound(c)
		switch old := worst[x.device.Name]; {
		case old == nil:
			worst[x.device.Name] = x
			order = append(order, x)
		case x.asksA > old.asksA:
			*old = *x
		}
	}
	for _, x := range order {
		switch {
		case x.asksA == 0:
		case x.ratingA == 0:
			c.Wait(x.device.Name, finding.Need{Name: x.device.Name, Setting: ratingOf(x.device)}, x.device.Origin.Place())
		case x.asksA > x.ratingA*(1+1e-9):
			c.overloadedContact(x)
		}
	}
}

// newContacts lists the contacts of switches, keys, relays and isolators.
func (c *Context) newContacts() []*contact {
	var list []*contact
	rails := c.Rails()
	for _, i := range c.of(network.Contact) {
		e := &c.Network.Elements[i]
		if e.Gate.By == network.Tap {
			continue
		}
		list = append(list, c.newContact(i, rails))
	}
	return list
}
