package yard

import (
	"fmt"

	"hame/lang/tables"
)

// tapped is the smallest harness: a lamp on a borrowed circuit of a machine
// whose battery is out of sight.
func (b *builder) tapped() {
	t := b.add("supply tap", "borrowed", b.tray).Set("behind", "fuse 10 A").Set("carries", "2 A").Set("of", "main")
	t.Set("live", b.pick("on", "acc")).Set("serves", "lighting").Set("gauge", b.small()).Set("run", "1.5 m").Set("existing", "")
	bat := b.add("supply battery", "main", b.tray).Set("post", "M8").Set("covered", "").Set("existing", "")
	bat.Set("capacity", "70 Ah").Set("cranking", "480 A")
	b.Devices = append(b.Devices, &Item{Decl: "ground chassis", Name: "frame"})
	b.short("main.neg", "frame", 0.4, demand{amps: 60, ratingA: 60, dropV: 0.3}, b.tray, "black").Set("existing", "")
	l := b.load("led", b.tray, b.between(0.2, 1.2), b.SystemV, true)
	c := &Circuit{Device: "borrowed", RatingA: 10, DesignA: 2, Keyed: true, At: "tray", Loads: []*Item{l}}
	c.Ends = append(c.Ends, b.run("borrowed.out", b.tray, l.Name+".pos", b.tray, demand{amps: 2, ratingA: 10, dropV: b.volts.feed}, "blue"))
	c.Feeds = c.Ends
	b.Wired = false
	if b.chance(50) {
		l.Set("case", "frame")
	} else {
		c.Returns = append(c.Returns, b.run(l.Name+".neg", b.tray, b.ground(b.tray, 1, 2, 10, true), b.tray, demand{amps: 2, ratingA: 10, dropV: b.volts.back}, "black"))
	}
	b.Circuits = append(b.Circuits, c)
}

// finish sizes what hangs on the sum of all, and declares modes and promises.
func (b *builder) finish() {
	for len(b.later) > 0 {
		next := b.later[0]
		b.later = b.later[1:]
		next()
	}
	b.landings()
	b.TotalA = b.totalA
	b.bores()
	b.modes()
	b.promises()
}

// bores gives covers and grommets a bore that the bundle goes through.
func (b *builder) bores() {
	kept := b.Bundles[:0]
	for _, s := range b.spots {
		if s.bundle == nil {
			continue
		}
		kept = append(kept, s.bundle)
		bore := b.bore(s.wires)
		if through, _ := s.bundle.Get("through"); through == "bulkhead grommet" {
			s.bundle.Set("through", fmt.Sprintf("bulkhead grommet %g mm", bore))
		}
		if c, ok := s.bundle.Get("cover"); ok && (c == "loom_pa" || c == "loom_pe") && b.chance(40) {
			s.bundle.Set("cover", fmt.Sprintf("%s %g mm", c, bore))
		}
	}
	b.Bundles = kept
}

func (b *builder) bore(wires []*Wire) float64 {
	var ods []float64
	for _, w := range wires {
		ods = append(ods, b.outside(w))
	}
	if len(ods) == 0 {
		return 10
	}
	thick, _ := tables.BundleDiameterMM(ods)
	if bore, _, ok := tables.BoreFor(thick); ok {
		return bore
	}
	return float64(int(thick*1.2) + 1)
}

func (b *builder) outside(w *Wire) float64 {
	insulation := w.Insulation
	if insulation == "" {
		insulation = b.insulation
	}
	cable, _ := tables.Cable(insulation)
	for _, s := range b.sizes() {
		if s.String() == w.Gauge {
			return tables.OutsideDiameterMM(cable, s).MM
		}
	}
	return 0
}

// modes declares what is switched on together.
func (b *builder) modes() {
	charging, key := "off", "off"
	for _, c := range b.Circuits {
		if c.Keyed {
			key = "on"
		}
	}
	if b.alternator != nil {
		charging = "running"
		key = "on"
	}
	work := (&Item{Decl: "mode", Name: "work"}).Set("key", key).Set("engine", charging).Set("for", "20 min")
	b.close(work, b.switches)
	for _, s := range b.throws {
		work.Add("throw", fmt.Sprintf("%s %d", s.Name, 1+b.r.IntN(2)))
	}
	b.Modes = append(b.Modes, work)
	if b.chance(60) {
		some := (&Item{Decl: "mode", Name: "some"}).Set("key", key).Set("engine", charging).Set("for", "30 min")
		var list []*Item
		for _, s := range b.switches {
			if b.chance(50) || s.Name == "cutoff" {
				list = append(list, s)
			}
		}
		b.close(some, list)
		b.Modes = append(b.Modes, some)
	}
	if b.chance(60) {
		b.Modes = append(b.Modes, (&Item{Decl: "mode", Name: "parked"}).Set("key", "off").Set("engine", "off").Set("for", "72 h"))
	}
	if b.crank {
		b.Modes = append(b.Modes, (&Item{Decl: "mode", Name: "cranking"}).Set("key", "start").Set("engine", "cranking").Set("for", "5 s"))
	}
}

func (b *builder) close(mode *Item, list []*Item) {
	if len(list) == 0 {
		return
	}
	names := ""
	for i, s := range list {
		if i > 0 {
			names += ", "
		}
		names += s.Name
	}
	mode.Set("closed", names)
}

// promises are limits that a sound harness keeps with room to spare.
func (b *builder) promises() {
	for _, c := range b.Circuits {
		if !b.chance(15) || !c.Sure {
			continue
		}
		b.Promises = append(b.Promises, &Item{Decl: "require", Name: c.Loads[0].Name, Tail: fmt.Sprintf("volts >= %.3g V", 0.8*b.SystemV)})
		if b.chance(50) {
			b.Promises = append(b.Promises, &Item{Decl: "require", Name: c.Ends[0].Name, Tail: "warmth < 140 degC"})
		}
	}
}
