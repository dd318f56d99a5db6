package sizing

import (
	"math"
	"slices"
	"strings"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/tables"
)

// pull is what asks for thicker wires: one of them, whichever gives the most
// for its copper, or all of them.
type pull struct {
	all    []*target
	way    []share
	excess float64 // V that are lost too much; 0 where it is not a matter of volts
}

// share is a wire on a way, and the current that it carries there.
type share struct {
	target *target
	amps   float64
}

// pullOf says which wires a charge asks for.
func (d *desk) pullOf(v *verdict, c charge) pull {
	f := c.finding
	own, isWire := d.byName[f.Subject]
	switch {
	case c.rule == "protection/oversized" || c.rule == "protection/slow":
		return pull{all: d.relatedTargets(v, f)}
	case c.rule == "ground/sneak":
		return pull{all: append(d.relatedTargets(v, f), d.named(f.Message)...)}
	case c.rule == "tap/unprotected" && isWire:
		return pull{all: append(d.relatedTargets(v, f), own)}
	case c.rule == "wire/drop":
		return d.pullOfWay(v, c, c.thing)
	case isWire:
		return pull{all: []*target{own}}
	case c.rule == "wire/hot" || strings.HasPrefix(c.rule, "bundle/"):
		return pull{all: d.bundled(v, f)}
	}
	device, _, _ := strings.Cut(f.Subject, ".")
	return d.pullOfWay(v, c, device)
}

// named lists the wires to size that a message names.
func (d *desk) named(message string) []*target {
	var list []*target
	for _, t := range d.targets {
		if strings.Contains(message, "`"+t.name+"`") {
			list = append(list, t)
		}
	}
	return list
}

// bundled lists the wires to size in the bundle that a finding is about.
func (d *desk) bundled(v *verdict, f *finding.Finding) []*target {
	var list []*target
	for _, b := range v.run.Harness.Bundles {
		about := b.Name == f.Subject || slices.ContainsFunc(f.Related, func(r finding.Related) bool { return r.Place == b.Origin.Place() })
		if !about {
			continue
		}
		for _, m := range b.Members {
			if t := d.byName[m.Name]; t != nil && !slices.Contains(list, t) {
				list = append(list, t)
			}
		}
	}
	return list
}

// pullOfWay is that of what a device gets: the wires on its way, from source
// to device and back.
func (d *desk) pullOfWay(v *verdict, c charge, device string) pull {
	p := pull{}
	f := v.run.Facts
	for i := range f.Network.Elements {
		e := &f.Network.Elements[i]
		if e.Device == nil || e.Device.Name != device {
			continue
		}
		for n, point := range f.Survey.Modes {
			if m := f.Harness.Modes[n].Name; c.finding.Mode != m && v.isMode(c.finding.Mode) {
				continue
			}
			p.add(d, f, point, i, c.rule == "ground/offset")
		}
		if len(p.way) == 0 {
			d.feeding(&p, v, i)
		}
	}
	if c.finding.Unit == "V" && c.finding.Measured != nil && c.finding.Limit != nil {
		p.excess = math.Abs(*c.finding.Measured - *c.finding.Limit)
	}
	return p
}

func (v *verdict) isMode(name string) bool {
	for _, m := range v.run.Harness.Modes {
		if m.Name == name {
			return true
		}
	}
	return false
}

// add adds the wires on the way of an element in a position; of its way back
// alone where only that counts.
func (p *pull) add(d *desk, f *facts.Facts, point *states.Point, element int, back bool) {
	if f.Network.Elements[element].Kind == network.Load && !f.On(point, element) {
		return
	}
	way, ok := f.Path(element, point)
	if !ok {
		return
	}
	steps := way.Back
	if !back {
		steps = append(slices.Clone(way.Feed), way.Back...)
	}
	for _, s := range steps {
		if w := f.Network.Elements[s.Element].Wire; w != nil {
			p.take(d.byName[w.Name], math.Abs(s.Amps))
		}
	}
}

// take keeps a wire with the greatest of its currents.
func (p *pull) take(t *target, amps float64) {
	const nothing = 1e-6
	if t == nil || amps < nothing {
		return
	}
	for i := range p.way {
		if p.way[i].target == t {
			p.way[i].amps = max(p.way[i].amps, amps)
			return
		}
	}
	p.way = append(p.way, share{t, amps})
}

// feeding adds the wires that a load hangs on where no declared mode runs it.
func (d *desk) feeding(p *pull, v *verdict, element int) {
	f := v.run.Facts
	if f.Network.Elements[element].Kind != network.Load {
		return
	}
	for _, t := range d.targets {
		w := v.wireOf(t)
		if w == nil || f.Wire(w).WorstA == nil {
			continue
		}
		if loads, _ := f.Behind(f.Network.OfWire(w)); slices.Contains(loads, element) {
			p.take(t, *f.Wire(w).WorstA)
		}
	}
}

// gainV is what a wire a step thicker loses less, in V.
func (d *desk) gainV(s share, step int) float64 {
	const warmC = 40
	now, next := tables.ResistancePerM(d.sizes[step]), tables.ResistancePerM(d.sizes[step+1])
	return s.amps * s.target.lengthM * (tables.CopperAt(now.OhmPerM, warmC) - tables.CopperAt(next.OhmPerM, warmC))
}

// copper is what a wire a step thicker has more, in mm2 m.
func (d *desk) copper(t *target, step int) float64 {
	return t.lengthM * (d.sizes[step+1].AreaMM2() - d.sizes[step].AreaMM2())
}
