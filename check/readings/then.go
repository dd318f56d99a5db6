package readings

import (
	"math"
	"slices"
	"strings"

	"hame/check/network"
	"hame/check/trial"
)

// follow takes what was read with something unplugged or pulled along: where the
// faults that were found explain it too, it points to nothing else. A bad ground
// point lifts what lies behind a pulled fuse.
func (d *detective) follow() {
	if len(d.found) == 0 {
		return
	}
	last := &d.report.Findings[len(d.report.Findings)-1]
	for k := range d.report.Items {
		i := &d.report.Items[k]
		if i.State != Drifted || i.Line.Kind != trial.Pulled && i.Line.Kind != trial.Polarity || i.Line.Expect == nil {
			continue
		}
		predicted, ok := predict(d.m, []trial.Line{i.Line}, d.found)
		if !ok {
			continue
		}
		more := i.Line.Unit.Tolerance(i.SI) + faultShare*math.Abs(predicted[0]-*i.Line.Expect)
		if off := i.SI - predicted[0]; off >= i.Line.Low-*i.Line.Expect-more && off <= i.Line.High-*i.Line.Expect+more {
			i.Why = ""
			last.Explains = append(last.Explains, i.Line.ID)
		}
	}
}

// then lists what draws with a stuck contact and does not without it, in the
// settings that were measured.
func (d *detective) then(h *hypothesis) string {
	was := d.m.AsIs()
	is := d.m.With(func(elements []network.Element) { h.set(elements, 1) })
	var names []string
	for _, s := range d.settings() {
		for i := range d.m.Network.Elements {
			e := &d.m.Network.Elements[i]
			if e.Kind != network.Load || e.Load.Hidden() || slices.Contains(names, e.Name) {
				continue
			}
			if more := math.Abs(is.Point(s).Amps(i)) - math.Abs(was.Point(s).Amps(i)); more > carriesA {
				names = append(names, e.Name)
			}
		}
	}
	const most = 5
	if len(names) > most {
		names = append(names[:most], "…")
	}
	return strings.Join(names, ", ")
}
