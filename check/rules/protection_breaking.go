package rules

import (
	"fmt"

	"hame/check/network"
	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "protection/breaking",
	Severity: finding.Error,
	Summary:  "system voltage above the device's, or prospective current above what it can interrupt",
	Why: "A device that cannot break the current does not end the fault: it bursts, or an arc goes on across its open gap and sets fire to the holder. " +
		"DC has no zero at which the arc goes out, and 48 V keeps one that 12 V does not.",
	Needs: "`volts` and `breaks` of the device; where they are not said, those of its family. Breakers and glass fuses have no breaking capacity by family: it must be declared. A link has none at all and is not judged. " +
		"Where every battery declares its `resistance`, the current is computed, right behind the device, cold and full, an alternator's output added; else the table by cranking amperes decides, main for the first device at the battery, branch for those behind it. Batteries in parallel add. " +
		"A borrowed circuit's own device is the machine's and is not judged.",
	Limits: []Limit{
		{"", "the rated voltage of the family", "ISO 8820-3", "scope", "seen (of other families from memory)"},
		{"", "the breaking capacity of the family", "ISO 8820-3", "breaking capacity", "seen (of other families from memory)"},
		{"", "from 100 to 200 % of the capacity of a 32 V device on 12 V lead-acid: a warning (it was tested at more than twice the voltage; trade judgement, no published source)", "common practice", "trade judgement", "trade judgement"},
		{"", "to 650 A cranking 1500 A main and 750 A branch; to 1100 A 3000 and 1500; above 5000 and 2500", "ABYC E-11", "Table V.A (as quoted)", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/slow", "protection/order"},
	Bad: `harness bank { system 48 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 100 Ah; cranking 600 A; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; volts 32 V; breaks 2000 A; covered }  # want protection/breaking
load led lamp       { at shelf; draws 48 W; least 36 V; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> lamp.pos 2.5 mm2 red   1 m
wire w3 lamp.neg -> main.neg 2.5 mm2 black 1 m
mode lit { for 1 h }
`,
	Good: `harness bank { system 48 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 100 Ah; cranking 600 A; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; volts 58 V; breaks 2000 A; covered }
load led lamp       { at shelf; draws 48 W; least 36 V; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> lamp.pos 2.5 mm2 red   1 m
wire w3 lamp.neg -> main.neg 2.5 mm2 black 1 m
mode lit { for 1 h }
`,
	Check: checkBreaking,
})

// breaking is a protective device as a short meets it.
type breaking struct {
	device  *network.Device
	systemV float64
	amps    float64 // prospective
	table   *byTable
	lead12  bool // all of it from 12 V lead-acid
	lacks   *finding.Need
}

// checkBreaking judges each device; a panel once, by the worst of its ways.
func checkBreaking(c *Context) {
	worst := map[*harness.Device]breaking{}
	var order []*harness.Device
	for _, i := range c.fuseElements() {
		d := c.Network.Elements[i].Fuse
		if d.Sort == "link" || tapped(d) {
			continue
		}
		b, fed := c.prospective(i)
		if !fed {
			continue
		}
		old, ok := worst[d.Of]
		if !ok {
			order = append(order, d.Of)
		}
		if !ok || b.amps > old.amps || b.amps == old.amps && d.Sort == "breaker" && old.device.Sort != "breaker" {
			worst[d.Of] = b
		}
	}
	for _, d := range order {
		if b := worst[d]; !c.aboveVolts(b) {
			c.aboveBreaking(b)
		}
	}
}

// aboveVolts judges the voltage, and says whether it is broken.
func (c *Context) aboveVolts(b breaking) bool {
	volts, ok := b.device.Of.SI("volts")
	origin := "the device's own voltage"
	if !ok {
		f, known := familyOf(b.device)
		if !known {
			return false
		}
		volts, origin = f.Volts, source(f.Source)
	}
	if b.systemV <= volts {
		return false
	}
	d := b.device.Of
	c.Report(finding.Finding{
		At: d.Origin.Place(), Subject: d.Name,
		Message:  fmt.Sprintf("`%s` is made for %s V, and breaks a circuit of %s V", d.Name, number(volts), number(b.systemV)),
		Figures:  []string{"take one of a higher voltage, and say so with `volts`"},
		Measured: &b.systemV, Limit: &volts, Unit: "V", Source: origin,
	})
	return true
}

// aboveBreaking judges the current.
func (c *Context) aboveBreaking(b breaking) {
	d := b.device.Of
	limit, origin, ok := capacity(b.device, b.systemV)
	switch {
	case !ok:
		need := finding.Need{Name: d.Name, Setting: "breaks"}
		c.Wait(d.Name, need, c.declared(need))
		return
	case b.lacks != nil:
		c.Wait(d.Name, *b.lacks, c.declared(*b.lacks))
		return
	case b.amps <= limit:
		return
	}
	f := finding.Finding{
		At: d.Origin.Place(), Subject: d.Name,
		Message:  fmt.Sprintf("a short right behind `%s` draws %s, and it can interrupt %s", b.device.Name, amps(b.amps), amps(limit)),
		Figures:  []string{b.how(), "take a device that interrupts more, or one such ahead of it near the battery"},
		Measured: &b.amps, Limit: &limit, Unit: "A", Source: b.source() + "; " + origin,
	}
	if b.tolerated(limit) {
		f.Severity = finding.Warning
		f.Figures = append(f.Figures, "it is made for 32 V, and on 12 V lead-acid up to twice its capacity is taken for a warning (trade judgement)")
	}
	c.Report(f)
}

// tolerated: up to twice what a device of 32 V can interrupt, from 12 V lead-acid.
func (b breaking) tolerated(limitA float64) bool {
	return b.lead12 && b.amps <= 2*limitA && madeFor32(b.device)
}

// capacity is what a device can interrupt, and by whose word.
func capacity(d *network.Device, systemV float64) (limitA float64, origin string, ok bool) {
	if d.Of.Has("breaks") {
		limitA, ok = d.Of.SI("breaks")
		return limitA, "the device's own `breaks`", ok
	}
	f, known := familyOf(d)
	if !known {
		return 0, "", false
	}
	limitA, s, ok := f.BreaksA(systemV)
	return limitA, source(s), ok
}

func madeFor32(d *network.Device) bool {
	volts, ok := d.Of.SI("volts")
	if !ok {
		f, _ := familyOf(d)
		volts = f.Volts
	}
	const made = 32
	return volts >= made
}
