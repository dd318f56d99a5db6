package network

import (
	"hame/lang/harness"
	"hame/lang/tables"
)

func (b *builder) protection(d *harness.Device) {
	if d.Kind.Name == "panel" {
		for _, dev := range panelWays(d) {
			b.between(d, "feed", dev.Way.Name, Element{Kind: Fuse, Name: dev.Name, Fuse: dev, Ohm: deviceOhm(dev)})
		}
		return
	}
	dev := &Device{Name: d.Name, Of: d, Sort: d.Kind.Name, AtPlace: d.At}
	switch d.Kind.Name {
	case "fuse":
		dev.Family = d.Word("family")
		dev.RatingA, _ = d.SI("rating")
	case "breaker":
		dev.Family = d.Word("reset")
		dev.RatingA, _ = d.SI("rating")
	case "link":
		dev.LinkMM2, _ = d.SI("gauge")
	}
	b.between(d, "in", "out", Element{Kind: Fuse, Fuse: dev, Ohm: deviceOhm(dev)})
}

// panelWays lists the devices of a panel's ways, spare ones left out.
func panelWays(d *harness.Device) []*Device {
	given := d.Given("way")
	list := make([]*Device, 0, len(given))
	for _, args := range given {
		t := d.Terminal(args.RepeatKey())
		sort := args.Word("device")
		if t == nil || sort != "fuse" && sort != "breaker" {
			continue
		}
		dev := &Device{Name: t.FullName(), Of: d, Way: t, Sort: sort, Family: d.Word("family"), AtPlace: d.At}
		if sort == "breaker" {
			dev.Family = "manual"
		}
		dev.RatingA, _ = args.SI("")
		list = append(list, dev)
	}
	return list
}

// deviceOhm is a protective device's cold resistance from the tables.
func deviceOhm(d *Device) float64 {
	var ohm float64
	switch {
	case d.Sort == "link":
		const usualLinkM = 0.15 // trade pages: about 150 mm
		return usualLinkM * tables.ResistancePerM(tables.Metric(max(d.LinkMM2, 0.1))).OhmPerM
	case d.RatingA == 0:
		return 0
	case d.Sort == "breaker":
		ohm, _ = tables.BreakerOhm(d.RatingA)
	default:
		ohm, _ = tables.FuseOhm(d.RatingA)
	}
	return ohm
}

func (b *builder) switching(d *harness.Device) {
	switch d.Kind.Name {
	case "key":
		b.key(d)
	case "relay":
		b.relay(d)
	case "diode":
		b.between(d, "anode", "cathode", Element{Kind: Diode})
	default:
		b.contacts(d)
	}
}

// keyPositions lists in which positions of the key each of its outs is live.
// `acc` drops out while the starter turns, `ign` stays.
var keyPositions = []struct {
	out  string
	live []string
}{
	{"acc", []string{"acc", "on"}},
	{"ign", []string{"on", "start"}},
	{"start", []string{"start"}},
}

func contactOhm(c tables.Contact) float64 {
	ohm, _, _ := tables.ContactOhm(c)
	return ohm
}

func (b *builder) key(d *harness.Device) {
	for _, k := range keyPositions {
		b.between(d, "in", k.out, Element{Kind: Contact, Ohm: contactOhm(tables.SwitchContact), Gate: &Gate{By: Key, Key: k.live}})
	}
}

func (b *builder) relay(d *harness.Device) {
	coil := b.between(d, "86", "85", Element{Kind: Load, Name: d.Name, Load: b.coilSpec(d)})
	ohm := contactOhm(tables.RelayContact)
	b.between(d, "30", "87", Element{Kind: Contact, Ohm: ohm, Gate: &Gate{By: Relay, Coil: coil}})
	b.between(d, "30", "87a", Element{Kind: Contact, Ohm: ohm, Gate: &Gate{By: Relay, Coil: coil, Rest: true}})
}

// contacts adds the poles and throws of a toggle, push or isolator.
func (b *builder) contacts(d *harness.Device) {
	var in string
	throw := 0
	for _, t := range d.Terminals {
		name := t.Name
		if name == "in" || len(name) > 3 && name[len(name)-3:] == ".in" {
			in, throw = name, 0
			continue
		}
		throw++
		b.between(d, in, name, Element{Kind: Contact, Ohm: contactOhm(tables.SwitchContact), Gate: &Gate{By: Hand, Throw: throw}})
	}
}

func (b *builder) join(d *harness.Device) {
	if d.Kind.Name != "connector" {
		return // one terminal is one node
	}
	for _, t := range d.Terminals {
		if half, n, ok := cutHalf(t.Name); ok && half == "female" {
			b.between(d, t.Name, "male."+n, Element{Kind: Joint, Ohm: contactOhm(tables.ConnectorContact)})
		}
	}
}

func cutHalf(name string) (half, cavity string, ok bool) {
	for i := range len(name) {
		if name[i] == '.' {
			return name[:i], name[i+1:], true
		}
	}
	return "", "", false
}

// ground ties a stud or bus to its chassis, unless it hangs on a joint that is
// no bond.
func (b *builder) ground(d *harness.Device) {
	args, ok := d.Args("to")
	if !ok || d.Has("via") {
		return
	}
	for _, c := range b.chassis[args.Word("")] {
		b.add(Element{
			Kind: Joint, A: node(d.Terminals[0]), B: node(c.Terminals[0]),
			Ohm: chassisOhm(c) / 2, Name: d.Name, Device: d, Terminal: d.Terminals[0],
		})
	}
}

// chassisOhm is a chassis between two bonded points; half of it lies between
// each of them and its middle, where its node is.
func chassisOhm(c *harness.Device) float64 {
	ohm, _ := c.SI("resistance")
	return ohm
}
