package sizing

import (
	"fmt"
	"strings"

	"hame/check/network"
	"hame/check/wording"
	"hame/lang/finding"
	"hame/lang/harness"
)

// decides says in a few words what a wire's size hangs on: how near the size is
// to the limit that the next smaller one breaks.
func (d *desk) decides(t *target) string {
	switch {
	case t.tight == nil && t.step == 0:
		return "the thinnest that is listed"
	case t.tight == nil:
		return "not tried thinner: the work was cut short"
	}
	f := &t.tight.Finding
	w := d.now.wireOf(t)
	fw := d.now.run.Facts.Wire(w)
	switch f.Rule {
	case "wire/thin": // which has its limit in mm2
		return "least gauge: " + d.sizes[stepFor(d.sizes, *f.Limit*rounded)].String()
	case "wire/undersized", "ground/overloaded":
		if fw.WorstA != nil && fw.Ampacity != nil && f.Subject == t.name {
			return fmt.Sprintf("current: %s of %s", amount(fw.WorstA, "A"), amount(&fw.Ampacity.Amps, "A"))
		}
	case "protection/oversized", "tap/unprotected":
		if r, ok := d.now.run.Facts.DeviceAmpacity(w); ok {
			return fmt.Sprintf("device: %s, wire %s", amount(f.Measured, "A"), amount(&r.Amps, "A"))
		}
	case "connector/gauge":
		return "ends: they take no less than " + d.sizes[t.step].String()
	case "protection/slow":
		return "short: `" + f.Subject + "` is too slow for less"
	case "ground/thin":
		return d.decidesReturn(w, f)
	case "wire/hot":
		return d.decidesHeat(w, f)
	case "wire/drop":
		if text := d.decidesDrop(t); text != "" {
			return text
		}
	}
	return decidesElse(t, f)
}

// decidesReturn: a return is to bear what a device lets through, and is better
// no thinner than its feed.
func (d *desk) decidesReturn(w *harness.Wire, f *finding.Finding) string {
	if r, ok := d.now.run.Facts.DeviceAmpacity(w); ok && f.Unit == "A" {
		return fmt.Sprintf("return: device %s, wire %s", amount(f.Measured, "A"), amount(&r.Amps, "A"))
	}
	return "return: its feed has " + amount(f.Limit, f.Unit)
}

// rounded: a gauge's area in the table of limits has three figures.
const rounded = 0.995

func decidesElse(t *target, f *finding.Finding) string {
	about := ""
	if f.Subject != t.name {
		about = " of `" + f.Subject + "`"
	}
	if f.Limit == nil {
		return f.Rule + about
	}
	return f.Rule + about + ": limit " + amount(f.Limit, f.Unit)
}

func (d *desk) decidesHeat(w *harness.Wire, f *finding.Finding) string {
	text := "heat: class " + amount(f.Limit, "degC")
	if warmth, ok := d.now.run.Facts.Warmth(w); ok {
		text = fmt.Sprintf("heat: %s, class %s", amount(&warmth.TempC, "degC"), amount(f.Limit, "degC"))
	}
	if f.Subject != w.Name {
		return text + ", beside `" + f.Subject + "`"
	}
	return text
}

// decidesDrop is the drop as it is now of the load that would lose too much.
func (d *desk) decidesDrop(t *target) string {
	volts := d.now.dropOf(t.about)
	_, allowed, said := strings.Cut(t.tight.Says, ", and ")
	if volts == 0 || !said {
		return ""
	}
	return fmt.Sprintf("drop: `%s` loses %s %%, and %s", t.about, wording.Number(100*volts/d.now.run.Harness.SystemV), allowed)
}

// dropOf is the most that a load loses in any declared mode in V, without what
// diodes take; 0 where no mode runs it.
func (v *verdict) dropOf(load string) float64 {
	f := v.run.Facts
	worst := 0.0
	for n, point := range f.Survey.Modes {
		if f.Shorted(point) {
			continue
		}
		for i := range f.Network.Elements {
			e := &f.Network.Elements[i]
			if e.Kind == network.Load && e.Device != nil && e.Device.Name == load && f.On(point, i) {
				worst = max(worst, v.lost(i, n))
			}
		}
	}
	return worst
}

func (v *verdict) lost(load, mode int) float64 {
	f := v.run.Facts
	drop, ok := f.DropIn(mode, load)
	sum := 0.0
	for _, s := range drop.Way {
		if ok && f.Network.Elements[s.Element].Kind != network.Diode {
			sum += s.Volts
		}
	}
	return sum
}

// amount is a figure with its unit, three digits of it.
func amount(v *float64, unit string) string {
	if v == nil {
		return "not known"
	}
	const digits = 3
	return wording.To(digits, *v) + " " + unit
}
