package rules

import (
	"fmt"
	"slices"
	"strings"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/tables"
)

// loss is a load's drop with the limit that it is held to.
type loss struct {
	facts.Drop
	wire     *harness.Wire // that takes the most
	at       *states.Point
	mode     *harness.Mode // nil where no declared mode runs the load
	systemV  float64
	limit    tables.Limit
	limitV   float64
	severity finding.Severity // Open where it's within
}

// share is the drop against its limit.
func (l loss) share() float64 { return l.Volts / l.limitV }

func (l loss) where() string {
	if l.mode != nil {
		return l.mode.Name
	}
	return where(l.at.Position.Figure())
}

// allowed is the limit in words.
func (l loss) allowed() string {
	verb := "is allowed"
	if l.severity == finding.Advice {
		verb = "is better not passed"
	}
	if l.limit.Unit == "V" {
		return number(l.limitV) + " V " + verb
	}
	return number(l.limit.Value) + " % " + verb
}

// judgeDrop holds a drop to its limits; false where no wire takes part in it,
// or there is no limit.
func (c *Context) judgeDrop(d facts.Drop, p *states.Point, m *harness.Mode) (loss, bool) {
	d = c.butDiodes(d)
	l := loss{Drop: d, at: p, mode: m, systemV: c.Harness.SystemV, wire: c.dominant(d, nil, nil)}
	if s := c.Network.Elements[d.Source].Source; s.Sort == "converter" {
		l.systemV = s.NominalV
	}
	limits := c.dropLimits(&l)
	if l.wire == nil || len(limits) == 0 {
		return l, false
	}
	l.limit = limits[0]
	for _, limit := range limits {
		if v := volts(limit, l.systemV); d.Volts > v*(1+1e-9) {
			l.limit, l.severity = limit, graded(limit)
			break
		}
	}
	l.limitV = volts(l.limit, l.systemV)
	return l, true
}

// butDiodes leaves out what diodes take: it is the same at any gauge, and the
// limits are those of wiring.
func (c *Context) butDiodes(d facts.Drop) facts.Drop {
	diode := func(s facts.Loss) bool { return c.Network.Elements[s.Element].Kind == network.Diode }
	if !slices.ContainsFunc(d.Way, diode) {
		return d
	}
	kept := d
	kept.Volts, kept.Way = 0, nil
	for _, s := range d.Way {
		if !diode(s) {
			kept.Volts += s.Volts
			kept.Way = append(kept.Way, s)
		}
	}
	return kept
}

// dropLimits lists the limits of a load in a mode, the gravest first: the
// practice's, one that the harness tightens, and what is only advised.
func (c *Context) dropLimits(l *loss) []tables.Limit {
	d := c.Network.Elements[l.Load].Device
	of := limitsOf{d != nil && d.Has("critical"), l.mode, l.systemV}
	list, ok := c.limits[of]
	if !ok {
		list = c.limitsOf(of)
		if c.limits == nil {
			c.limits = map[limitsOf][]tables.Limit{}
		}
		c.limits[of] = list
	}
	return list
}

// limitsOf is what the limits of a drop hang on: few loads differ in it.
type limitsOf struct {
	critical bool
	mode     *harness.Mode
	systemV  float64
}

func (c *Context) limitsOf(of limitsOf) []tables.Limit {
	var list []tables.Limit
	add := func(name string) {
		if limit, ok := c.Practice.Limit(name, ""); ok {
			list = append(list, limit)
		}
	}
	if of.critical {
		add("drop_critical")
	} else {
		add("drop_other")
	}
	add(c.aircraftLimit(of))
	slices.SortStableFunc(list, func(a, b tables.Limit) int {
		return int(1e6 * (volts(a, of.systemV) - volts(b, of.systemV)))
	})
	if !of.critical {
		add("drop_advice")
	}
	return list
}

// aircraftLimit is the row of AC 43.13-1B Table 11-6.
func (c *Context) aircraftLimit(of limitsOf) string {
	duty, column := "continuous", "14v"
	brief, ok := c.Practice.Limit("intermittent", "")
	if m := of.mode; ok && m != nil && (m.Engine == "cranking" || m.ForS > 0 && m.ForS <= brief.Value) {
		duty = "intermittent"
	}
	const between = 20 // volts; 12 V systems run at 14 V, 24 V ones at 28 V
	if of.systemV > between {
		column = "28v"
	}
	return "drop_" + duty + "_" + column
}

// volts is a limit of a drop in V.
func volts(l tables.Limit, systemV float64) float64 {
	if l.Unit == "V" {
		return l.Value
	}
	return l.Value / 100 * systemV
}

// graded is the severity of what breaks a limit.
func graded(l tables.Limit) finding.Severity {
	if l.Grade == "advice" {
		return finding.Advice
	}
	return finding.Warning
}

// dominant is the wire that takes the most of a drop, the nearest to the source
// of like ones, with some wires in other sizes, of those that may be taken; nil
// where there is none.
func (c *Context) dominant(d facts.Drop, sizes map[*harness.Wire]tables.Size, may func(*harness.Wire) bool) *harness.Wire {
	const alike = 1.01
	var found *harness.Wire
	most := 0.0
	for _, s := range d.Way {
		w := c.Network.Elements[s.Element].Wire
		if w == nil || may != nil && !may(w) {
			continue
		}
		if v := c.resized(s, sizes); v > most*alike {
			found, most = w, v
		}
	}
	return found
}

// resized is what a step loses with some wires in other sizes.
func (c *Context) resized(s facts.Loss, sizes map[*harness.Wire]tables.Size) float64 {
	if len(sizes) == 0 {
		return s.Volts
	}
	e := &c.Network.Elements[s.Element]
	size, ok := sizes[e.Wire]
	if e.Wire == nil || !ok {
		return s.Volts
	}
	landings := e.Ohm - network.WireOhm(e.Wire)
	ratio := tables.ResistancePerM(size).OhmPerM / tables.ResistancePerM(e.Wire.Size).OhmPerM
	return s.Volts * (landings + network.WireOhm(e.Wire)*ratio) / e.Ohm
}

// greatestSteps writes down where the volts go.
func (c *Context) greatestSteps(d facts.Drop) string {
	steps := slices.Clone(d.Way)
	slices.SortStableFunc(steps, func(a, b facts.Loss) int { return int(1e9 * (b.Volts - a.Volts)) })
	const most = 4
	var list []string
	for _, s := range steps[:min(most, len(steps))] {
		list = append(list, fmt.Sprintf("%s %s V", c.Network.Elements[s.Element].Name, number(s.Volts)))
	}
	return "the greatest shares: " + strings.Join(list, ", ")
}

// thickened finds the wires to thicken, a size at a time and the one that takes
// the most first, until the loads are within every limit; the machine's own
// stay as they are. With more than a few wires, or where sizes run out, it says
// so in a line.
func (c *Context) thickened(list []loss) (*finding.Fix, []string) {
	sizes := map[*harness.Wire]tables.Size{}
	for _, l := range list {
		for c.totalWith(l.Drop, sizes) > c.strictest(&l) {
			w := c.dominant(l.Drop, sizes, func(w *harness.Wire) bool { return !w.Existing })
			if w == nil || !grow(w, sizes) {
				return nil, []string{"no usual size would do: bring the source nearer, or raise the voltage"}
			}
		}
	}
	const most = 6
	if len(sizes) > most {
		return nil, []string{fmt.Sprintf("%d wires would have to be thicker: feed these loads by a thicker wire of their own", len(sizes))}
	}
	if tight := c.noRoom(sizes); tight != "" {
		return nil, []string{c.sizeEdits(sizes).Title + ", but " + tight}
	}
	return c.sizeEdits(sizes), nil
}

// grow takes a wire's next size up.
func grow(w *harness.Wire, sizes map[*harness.Wire]tables.Size) bool {
	now, ok := sizes[w]
	if !ok {
		now = w.Size
	}
	above := sizesAbove(now)
	if len(above) == 0 {
		return false
	}
	sizes[w] = above[0]
	return true
}

func (c *Context) totalWith(d facts.Drop, sizes map[*harness.Wire]tables.Size) float64 {
	sum := 0.0
	for _, s := range d.Way {
		sum += c.resized(s, sizes)
	}
	return sum
}

// strictest is the least of a load's limits in V, what is only advised too.
func (c *Context) strictest(l *loss) float64 {
	limits := c.dropLimits(l)
	least := volts(limits[0], l.systemV)
	for _, limit := range limits[1:] {
		least = min(least, volts(limit, l.systemV))
	}
	return least
}

// sizeEdits is the fix that gives wires new sizes, in the harness's order.
func (c *Context) sizeEdits(sizes map[*harness.Wire]tables.Size) *finding.Fix {
	fix := &finding.Fix{}
	var titles []string
	for _, w := range c.Harness.Wires {
		if s, ok := sizes[w]; ok {
			titles = append(titles, "`"+w.Name+"` "+s.String())
			fix.Edits = append(fix.Edits, finding.Edit{Place: finding.Place{File: w.Origin.File, Span: w.GaugeSpan}, Text: s.String()})
		}
	}
	fix.Title = "make " + strings.Join(titles, ", ")
	return fix
}
