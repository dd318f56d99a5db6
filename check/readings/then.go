package readings

import (
	"math"
	"slices"
	"strings"

	"hame/check/network"
)

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
