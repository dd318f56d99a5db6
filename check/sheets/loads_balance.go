package sheets

import (
	"math"

	"hame/check/network"
	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/tables"
)

func (p *Pack) balanceTable() *sheet.Table {
	t := &sheet.Table{Name: "balance", Columns: []sheet.Column{
		{Name: "mode", Title: "mode"},
		{Name: "key", Title: "key"},
		{Name: "engine", Title: "engine"},
		{Name: "for_h", Title: "for", Unit: "h", Right: true},
		{Name: "loads_a", Title: "loads", Unit: "A", Right: true},
		{Name: "alternator_a", Title: "alternator gives", Unit: "A", Right: true},
		{Name: "allowed_a", Title: "loads allowed", Unit: "A", Right: true},
		{Name: "asked_a", Title: "asked of it", Unit: "A", Right: true},
		{Name: "charge_a", Title: "of it, charging", Unit: "A", Right: true},
		{Name: "battery_a", Title: "batteries give", Unit: "A", Right: true},
		{Name: "battery_ah", Title: "over the mode", Unit: "Ah", Right: true},
	}}
	for n, m := range p.Harness.Modes {
		t.Rows = append(t.Rows, sheet.Row{Name: m.Name, Cells: p.balanceCells(n, m)})
	}
	return t
}

func (p *Pack) balanceCells(n int, m *harness.Mode) []sheet.Cell {
	cells := []sheet.Cell{sheet.Is(m.Name), sheet.Is(m.Key), sheet.Is(m.Engine), maybe(m.ForS/3600, m.ForS > 0)}
	if p.unsolved(n) != "" {
		for range 7 {
			cells = append(cells, sheet.Is(unknown))
		}
		return cells
	}
	fm, b := p.Figures.Modes[n], p.Facts.BalanceIn(p.Facts.Survey.Modes[n])
	turning := m.Engine == "idle" || m.Engine == "running"
	output, known := p.alternatorA(m)
	allowed := sheet.Cell{}
	if turning && output > 0 {
		allowed = maybe(output*p.alternatorShare(), known)
		if !known {
			allowed = sheet.Is(unknown)
		}
	}
	return append(
		cells, figureOr(fm.SupplyA), maybe(b.AlternatorA, turning && output > 0), allowed, maybe(b.LoadA(), turning && output > 0),
		maybe(b.ChargeA, turning && output > 0), figureOr(fm.BatteryA), maybe(*fm.BatteryA*m.ForS/3600, m.ForS > 0),
	)
}

// alternatorA is what the alternators can give in a mode; false where what one
// gives at idle is not declared.
func (p *Pack) alternatorA(m *harness.Mode) (outputA float64, known bool) {
	known = true
	for _, i := range p.Facts.Sources() {
		spec := p.Facts.Network.Elements[i].Source
		switch {
		case spec.Sort != "alternator":
		case m.Engine == "idle":
			outputA, known = outputA+spec.IdleA, known && spec.IdleKnown
		default:
			outputA += spec.OutputA
		}
	}
	return outputA, known
}

// alternatorShare is the share of its output, of 1, that loads may ask of an
// alternator by the practice.
func (p *Pack) alternatorShare() float64 {
	l, ok := p.Facts.Practice.Limit("alternator_load", "")
	if !ok {
		return 1
	}
	return l.Value / 100
}

func (p *Pack) batteryTable() *sheet.Table {
	t := &sheet.Table{Name: "batteries", Columns: []sheet.Column{
		{Name: "mode", Title: "mode"},
		{Name: "battery", Title: "battery"},
		{Name: "capacity_ah", Title: "capacity", Unit: "Ah", Right: true},
		{Name: "charge_percent", Title: "charge", Unit: "%", Right: true},
		{Name: "gives_a", Title: "gives", Unit: "A", Right: true},
		{Name: "half_h", Title: "to half charge", Unit: "h", Right: true},
		{Name: "flat_h", Title: "to flat", Unit: "h", Right: true},
		{Name: "plain_flat_h", Title: "to flat, capacity by current", Unit: "h", Right: true},
		{Name: "mode_h", Title: "the mode lasts", Unit: "h", Right: true},
	}}
	for n, m := range p.Harness.Modes {
		if p.unsolved(n) != "" {
			continue
		}
		for _, g := range p.Facts.BalanceIn(p.Facts.Survey.Modes[n]).Batteries {
			e := &p.Facts.Network.Elements[g.Element]
			const nothingA = 1e-3
			if g.Amps <= nothingA || e.Source.CapacityA == 0 || m.Engine == "cranking" {
				continue
			}
			half, flat := lasts(e.Source, m.Charge, g.Amps)
			t.Rows = append(t.Rows, sheet.Row{Name: e.Device.Name, Cells: []sheet.Cell{
				sheet.Is(m.Name), sheet.Is(e.Name), figure(e.Source.CapacityA), shareOf(m.Charge), figure(g.Amps),
				figure(half), figure(flat), figure(e.Source.CapacityA * m.Charge / g.Amps), maybe(m.ForS/3600, m.ForS > 0),
			}})
		}
	}
	return t
}

// lasts is how long a battery gives a current, from a charge down to half of its
// capacity and to nothing, in h. A lead battery gives less the faster it is
// drained (Peukert's law), but never more than is declared.
func lasts(spec *network.SourceSpec, charge, amps float64) (halfH, flatH float64) {
	full := spec.CapacityA / amps
	if spec.Chemistry == tables.Lead {
		exponent, _ := tables.PeukertExponent()
		full = math.Min(full, tables.RunHours(spec.CapacityA, tables.Constant("rate_hours"), exponent, amps))
	}
	const half = 0.5
	return full * max(0, charge-half), full * charge
}

// assumed says what the hours and the balance take for granted.
func (p *Pack) assumed() []string {
	l, _ := p.Facts.Practice.Limit("alternator_load", "")
	exponent, from := tables.PeukertExponent()
	return []string{
		"Currents are solved for each mode as it is declared: its charge, its ambient (else each zone's greatest), every load that it switches on at full draw all the time. Loads is their sum, the machine's own draw and relay coils too; loads on a converter count with their own current on its rail.",
		"A mode's loads may ask " + wording.Number(l.Value) + " % of what the alternator gives then (" + wording.Cited(l.Source) + "); charging is left out. Below zero, the batteries are charged.",
		"Hours: lead batteries by Peukert's law at the " + wording.Number(tables.Constant("rate_hours")) + " hour rate with an exponent of " + wording.Number(exponent) + " (" + wording.Cited(from) + "), never longer than the declared capacity lasts; lithium by the capacity alone. " +
			"They begin at the mode's charge. Age, cold and self-discharge are not counted: an old or cold battery lasts a fraction of it. Half charge is as low as a starter battery should go (common practice).",
	}
}
