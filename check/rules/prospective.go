package rules

import (
	"fmt"

	"hame/check/faults"
	"hame/check/network"
	"hame/check/trip"
	"hame/lang/finding"
	"hame/lang/tables"
)

// prospective is the greatest current of a short right behind a device; false
// where no source feeds it.
func (c *Context) prospective(element int) (breaking, bool) {
	b := breaking{device: c.Network.Elements[element].Fuse, lead12: true}
	var s shorts
	var room [fewSources]faults.Fault
	for _, f := range c.Faults.AppendBehind(room[:0], element) {
		e := &c.Network.Elements[f.Source]
		if e.Source.Sort != "battery" {
			b.systemV = max(b.systemV, c.nominal(e))
			s.limitedA += f.MostA
			continue
		}
		b.systemV = max(b.systemV, c.Harness.SystemV)
		b.lead12 = b.lead12 && e.Source.Chemistry == tables.Lead && c.Harness.SystemV <= 12
		s.battery(e, f.MostA, f.MostLacks, !f.Guarded())
	}
	s.sum(&b)
	return b, b.systemV > 0
}

// nominal is the class of voltage that a converter's or alternator's rail
// belongs to.
func (c *Context) nominal(e *network.Element) float64 {
	if e.Source.Sort == "alternator" {
		return c.Harness.SystemV
	}
	for _, v := range []float64{12, 24, 48} {
		const charged = 1.25 // of the nominal voltage, at the most (common practice)
		if e.Source.NominalV > v/2 && e.Source.NominalV <= charged*v {
			return v
		}
	}
	return e.Source.NominalV
}

// shorts adds up what the sources give into a short.
type shorts struct {
	computedA, limitedA, crankingA float64
	byTable, main                  bool
	lacks                          *finding.Need
}

func (s *shorts) battery(e *network.Element, mostA float64, lacks *finding.Need, first bool) {
	s.computedA += mostA
	s.main = s.main || first
	switch {
	case lacks != nil:
		s.lacks = lacks
	case !e.Device.Has("resistance"):
		s.byTable = true
	}
	s.crankingA += crankingOf(e)
}

// crankingOf is a battery's cranking amperes, or those that its resistance
// stands for.
func crankingOf(e *network.Element) float64 {
	if e.Source.CrankingA > 0 {
		return e.Source.CrankingA
	}
	ohmA, _ := tables.BatteryOhmFromCranking(e.Source.NominalV, 1)
	return ohmA / max(e.Source.Ohm, 1e-6)
}

// sum makes one current of them.
func (s *shorts) sum(b *breaking) {
	b.lacks = s.lacks
	if !s.byTable {
		b.amps = s.computedA + s.limitedA
		return
	}
	b.table = &byTable{crankingA: s.crankingA, main: s.main}
	b.amps, b.table.source = trip.NeedsInterruptingA(s.crankingA, s.main)
}

// byTable is how the table has a prospective current.
type byTable struct {
	crankingA float64
	main      bool
	source    tables.Source
}

// how says how the current comes about.
func (b breaking) how() string {
	if b.table == nil {
		return "computed from the declared resistance, cold and full"
	}
	kind := "branch"
	if b.table.main {
		kind = "main, the first device at the battery"
	}
	return fmt.Sprintf("by the table, for %s of cranking current: %s", number(b.table.crankingA)+" A", kind)
}

// source says by whose word.
func (b breaking) source() string {
	if b.table == nil {
		return "the harness's own figures"
	}
	return source(b.table.source)
}
