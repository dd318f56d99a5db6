package rules

import (
	"fmt"

	"hame/check/facts"
	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(&Rule{
	Name:     "ground/offset",
	Severity: finding.Warning,
	Summary:  "a load's return terminal lies above its source's negative by more than half of the drop that the load is allowed",
	Why: "A drop in the return lifts the load's own zero. Gauges and modules that share it read each other's currents, lamps " +
		"flicker with the pump, and a meter from the battery's post to the feed shows nothing wrong.",
	Needs: "Gauge and length of every wire on the way back. Judged in every declared mode in which the load is on, with all that the mode turns on, copper " +
		"as warm as in wire/drop; relay coils are left out. Of the loads that a return lifts the most, the one that is worst against its limit is named, with the others beside it. Where the whole drop is too much and the return takes no more than its half of it, wire/drop says it alone. A wire above its ampacity is left to " +
		"ground/overloaded and wire/undersized.",
	Limits: []Limit{
		{"land", "half of 3 % of the system's volts for a `critical` load, half of 10 % for others", "ABYC E-11", "3 % and 10 % circuits (as quoted); half of it: trade judgement", "seen"},
		{"cfr183", "the same; the regulation sets none", "ABYC E-11", "3 % and 10 % circuits (as quoted); half of it: trade judgement", "seen"},
		{"ac43", "half of 0.5 V continuous and 1 V intermittent at 14 V, of 1 V and 2 V at 28 V", "AC 43.13-1B", "Table 11-6; half of it: trade judgement", "seen; intermittent from memory"},
	},
	Since:   "0.1.0",
	Related: []string{"wire/drop", "ground/overloaded"},
	Bad:     sharedReturn("2.5", "  # want ground/offset"),
	Good:    sharedReturn("10", ""),
	Check:   checkOffset,
	Long:    true,
})

// sharedReturn is a gauge whose return a heater shares.
func sharedReturn(size, want string) string {
	return `harness barn { system 12 V; practice land; wire gxl; slack 100 mm }
zone  shed { ambient 0..40 degC }
place shelf, far_end in shed
bundle b1 shelf -> far_end 2 m { cover loom_pa; clamp every 400 mm }
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 20 A; covered }
protection fuse f2  { at shelf; rating 3 A; covered }
load heater pad     { at far_end; draws 144 W; least 9 V; meant always }
load module scale   { at far_end; draws 0.5 A; least 9 V; critical; meant always }` + want + `
ground bus b2       { at far_end; ways 4; size M6; limit 50 A }
wire w1 main.pos  -> f1.in     4 mm2   red   0.15 m
wire w2 main.pos  -> f2.in     4 mm2   blue  0.15 m
wire w3 f1.out    -> pad.pos   4 mm2   red
wire w4 f2.out    -> scale.pos 2.5 mm2 blue
wire w5 pad.neg   -> b2        4 mm2   black
wire w6 scale.neg -> b2        2.5 mm2 black
wire w7 b2        -> main.neg  ` + size + ` mm2 black
mode weighing { for 1 h }
`
}

// lifted are the loads that one wire of the return lifts the most.
type lifted struct {
	wire *harness.Wire
	list []loss
}

func checkOffset(c *Context) {
	var order []*lifted
	byWire := map[*harness.Wire]*lifted{}
	for _, i := range c.dropLoads() {
		l, ok := c.worstOffset(i)
		if !ok || c.overAmpacity(l.wire) {
			continue
		}
		if byWire[l.wire] == nil {
			byWire[l.wire] = &lifted{wire: l.wire}
			order = append(order, byWire[l.wire])
		}
		byWire[l.wire].list = append(byWire[l.wire].list, l)
	}
	for _, u := range order {
		c.offset(u)
	}
}

// worstOffset is a load's offset in the declared mode where it is worst against
// its limit, of those where it is above it.
func (c *Context) worstOffset(load int) (loss, bool) {
	var worst loss
	found := false
	for n, p := range c.Survey.Modes {
		if !c.On(p, load) || c.Shorted(p) {
			continue
		}
		d, ok := c.OffsetIn(n, load)
		if !ok || !c.wayKnown(d) {
			continue
		}
		l, ok := c.halved(d)
		if ok {
			l.at, l.mode = p, c.Harness.Modes[n]
			l, ok = c.limited(l)
		}
		if ok && l.Volts > l.limitV*(1+1e-9) && (!found || l.share() > worst.share()) && !c.ofTheWholeRun(n, l) {
			worst, found = l, true
		}
	}
	return worst, found
}

// ofTheWholeRun: the whole drop is too much and the return takes no more than
// its half of it, so it is the run that is thin and wire/drop says so.
func (c *Context) ofTheWholeRun(n int, l loss) bool {
	d, ok := c.DropIn(n, l.Load)
	const half = 0.5
	return ok && half*d.Volts > l.limitV && l.Volts <= half*d.Volts
}

// halved begins a loss on the way back; false where no wire takes part in it.
func (c *Context) halved(d facts.Drop) (loss, bool) {
	l := loss{Drop: d, systemV: c.Harness.SystemV, wire: c.dominant(d, nil, nil)}
	if s := c.Network.Elements[d.Source].Source; s.Sort == "converter" {
		l.systemV = s.NominalV
	}
	return l, l.wire != nil
}

// limited holds it to half of the strictest drop that the load is allowed, what
// is only advised left out.
func (c *Context) limited(l loss) (loss, bool) {
	const half = 0.5
	for _, limit := range c.dropLimits(&l) {
		if graded(limit) != finding.Advice {
			l.limit, l.limitV = limit, half*volts(limit, l.systemV)
			return l, true
		}
	}
	return l, false
}

func (c *Context) offset(u *lifted) {
	worst := u.list[0]
	for _, l := range u.list[1:] {
		if l.share() > worst.share() {
			worst = l
		}
	}
	load := c.Network.Elements[worst.Load]
	f := finding.Finding{
		At: load.Device.Origin.Place(), Subject: load.Device.Name, Mode: worst.where(),
		Message: fmt.Sprintf("the return of `%s` lies %s V above the negative of `%s`, and %s V is half of the drop that it is allowed", load.Name,
			number(worst.Volts), c.Network.Elements[worst.Source].Name, number(worst.limitV)),
		Figures:  []string{c.greatestSteps(worst.Drop)},
		Measured: &worst.Volts, Limit: &worst.limitV, Unit: "V", Source: source(worst.limit.Source),
		Related: []finding.Related{{Place: u.wire.Origin.Place(), Message: "takes the most of it"}},
	}
	for _, l := range u.list {
		if l.Load != worst.Load {
			c.alsoLifted(&f, l)
		}
	}
	c.Report(f)
}

// alsoLifted adds another load that the same wire lifts.
func (c *Context) alsoLifted(f *finding.Finding, l loss) {
	const most = 8
	if e := c.Network.Elements[l.Load]; e.Device != nil && len(f.Related) < most {
		f.Related = append(f.Related, finding.Related{
			Place: e.Device.Origin.Place(), Message: fmt.Sprintf("lies %s V above it, %s V is half of what is allowed", number(l.Volts), number(l.limitV)),
		})
	}
}
