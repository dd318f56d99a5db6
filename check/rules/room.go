package rules

import (
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// noRoom says what does not take wires in other sizes: a contact or barrel, or
// what their bundles go through; "" where all has room. A fix that would
// bring the next finding is none.
func (c *Context) noRoom(sizes map[*harness.Wire]tables.Size) string {
	for _, w := range c.Harness.Wires {
		size, changed := sizes[w]
		if !changed {
			continue
		}
		for _, e := range w.Ends {
			if e.Terminal != nil && !takes(e.Terminal.Device, size) {
				return "`" + e.Terminal.FullName() + "` does not take " + size.String()
			}
		}
	}
	for _, b := range c.Harness.Bundles {
		for _, o := range bored(b) {
			if diameterWith(b, sizes) > o.mm {
				return "the " + o.what + " of `" + b.Name + "` is too small for it"
			}
		}
	}
	return ""
}

// takes reports whether a connector or splice takes a size; any other device
// does.
func takes(d *harness.Device, size tables.Size) bool {
	args, ok := d.Args("takes")
	a, given := args.Get("")
	if !ok || !given || !d.Is(kinds.Join) {
		return true
	}
	const same = 1e-6
	return size.AreaMM2() <= kinds.Size(a.Hi()).AreaMM2()*(1+same)
}

// diameterWith is the diameter in mm of a bundle whose wires have other sizes.
func diameterWith(b *harness.Bundle, sizes map[*harness.Wire]tables.Size) float64 {
	var ods []float64
	for _, w := range b.Members {
		cable, ok := w.Cable()
		if !ok || w.AreaMM2 == 0 {
			continue
		}
		size := w.Size
		if other, changed := sizes[w]; changed {
			size = other
		}
		ods = append(ods, tables.OutsideDiameterMM(cable, size).MM)
	}
	if len(ods) == 0 {
		return 0
	}
	d, _ := tables.BundleDiameterMM(ods)
	return d
}
