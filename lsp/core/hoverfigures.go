package core

import (
	"fmt"
	"math"
	"strings"

	"hame/check/figures"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// figuresOf adds what was computed of a name.
func figuresOf(n *Note, p *Pass, m *Mention) {
	if p.bound() == nil {
		return
	}
	if w := p.wire(m.Name); w != nil {
		wireFigures(n, w)
		return
	}
	if d := p.device(m.Name); d != nil {
		deviceFigures(n, p, d, m.Terminal)
		return
	}
	if md := p.mode(m.Name); md != nil {
		modeFigures(n, md)
		return
	}
	layoutFigures(n, p.bound(), m.Name)
}

func wireFigures(n *Note, f *figures.Wire) {
	w := f.Wire
	n.para("`%s` -> `%s`, %s side", w.Ends[0].Name(), w.Ends[1].Name(), f.Side)
	n.item("gauge: %s", strings.TrimSpace(gaugeOf(w)+" "+w.Insulation+" "+colourOf(w)))
	if w.HasLength {
		n.item("length: %s m%s", number(w.LengthM), routeOf(w))
	} else {
		n.item("length: not known")
	}
	n.item("worst current: %s%s", worst(f.WorstA, f.Worst), prefixed(", ", where(f.Worst)))
	if f.Ampacity != nil {
		n.item("ampacity: %s", f.Ampacity.String())
		n.item("margin: %s", margin(f.WorstA, f.AmpacityA()))
	} else {
		n.item("ampacity: not known")
	}
	n.item("temperature: %s", amount(f.TemperatureC, "degC"))
	if len(f.ProtectedBy) > 0 {
		n.item("protected by: %s", quoted(f.ProtectedBy))
	}
	if u := f.UnprotectedM; u != nil && *u > 0 {
		n.item("unprotected: %s m from the source", number(*u))
	}
	for _, m := range f.Modes {
		n.item("in `%s`: %s, drop %s", m.Mode, amount(m.CurrentA, "A"), amount(m.DropV, "V"))
	}
}

func gaugeOf(w *harness.Wire) string {
	if w.Auto {
		return "auto"
	}
	return w.Gauge.String()
}

func colourOf(w *harness.Wire) string {
	if w.Stripe != "" {
		return w.Colour + "/" + w.Stripe
	}
	return w.Colour
}

func routeOf(w *harness.Wire) string {
	var names []string
	for _, b := range w.Route {
		names = append(names, b.Name)
	}
	switch {
	case w.LengthSaid:
		return ", as declared"
	case len(names) > 0:
		return " by " + quoted(names)
	}
	return ""
}

func prefixed(prefix, text string) string {
	if text == "" {
		return ""
	}
	return prefix + text
}

// margin is what is left of what is allowed.
func margin(used, allowed *float64) string {
	if used == nil || allowed == nil || *allowed == 0 {
		return "not known"
	}
	left := *allowed - *used
	return fmt.Sprintf("%s A, %s in use", number(left), percent(*used / *allowed))
}

func percent(share float64) string { return fmt.Sprintf("%.0f %%", 100*share) }

func deviceFigures(n *Note, p *Pass, f *figures.Device, terminal string) {
	d := f.Device
	if d.At != nil {
		n.item("at `%s`", d.At.Name)
	}
	if terminal != "" {
		terminalFigures(n, p, d.Terminal(terminal))
	}
	if d.Is(kinds.Protection) {
		protectionFigures(n, p, f)
	}
	for _, m := range f.Modes {
		switch {
		case m.Volts == nil:
		case d.Is(kinds.Load) && !m.On:
			n.item("in `%s`: off", m.Mode)
		default:
			n.item("in `%s`: %s, %s", m.Mode, amount(m.Volts, "V"), amount(m.CurrentA, "A"))
		}
	}
	if f.WorstA != nil {
		n.item("worst current: %s%s", worst(f.WorstA, f.Worst), prefixed(", ", where(f.Worst)))
	}
}

func terminalFigures(n *Note, p *Pass, t *harness.Terminal) {
	if t == nil {
		n.item("it has no such terminal")
		return
	}
	var wires []string
	for _, w := range t.Wires {
		wires = append(wires, w.Name)
	}
	if len(wires) > 0 {
		n.item("`%s`: %s", t.FullName(), quoted(wires))
	}
	if h := t.Fitting.Hardware(); h != "" {
		n.item("takes: %s", h)
	}
	if t.Device.Is(kinds.Protection, "panel") && t.Name != "feed" {
		n.item("worst current: %s", worst(p.wayLoad(t)))
		n.item("protects: %s", quotedOr(p.protects(t.FullName()), "nothing"))
	}
}

func protectionFigures(n *Note, p *Pass, f *figures.Device) {
	d := f.Device
	if d.Is(kinds.Protection, "panel") {
		for _, t := range d.Terminals {
			if t.Name != "feed" && len(t.Wires) > 0 {
				n.item("way %s: worst %s, protects %s", t.Name, worst(p.wayLoad(t)), quotedOr(p.protects(t.FullName()), "nothing"))
			}
		}
		return
	}
	if rating, ok := d.SI("rating"); ok {
		n.item("load: %s of %s A%s", worst(f.WorstA, f.Worst), number(rating), prefixed(", ", shareOf(f.WorstA, rating)))
	}
	n.item("protects: %s", quotedOr(p.protects(d.Name), "nothing"))
}

func shareOf(used *float64, of float64) string {
	if used == nil || of == 0 {
		return ""
	}
	return percent(*used / of)
}

func quotedOr(names []string, otherwise string) string {
	if len(names) == 0 {
		return otherwise
	}
	return quoted(names)
}

func modeFigures(n *Note, m *figures.Mode) {
	n.item("loads: %s", amount(m.SupplyA, "A"))
	n.item("%s", batteryLine(m))
	if m.HoursToFlat != nil {
		n.item("hours to flat: %s", number(*m.HoursToFlat))
	}
}

// batteryLine says what batteries give or take.
func batteryLine(m *figures.Mode) string {
	switch {
	case m.BatteryA == nil:
		return "battery: not known"
	case *m.BatteryA < 0:
		return "battery: charged with " + number(math.Abs(*m.BatteryA)) + " A"
	}
	return "battery: gives " + number(*m.BatteryA) + " A"
}

func layoutFigures(n *Note, h *harness.Harness, name string) {
	for _, b := range h.Bundles {
		if b.Name == name {
			n.item("length: %s m", number(b.LengthM))
			n.item("wires: %d, %s mm together", len(b.Members), number(b.DiameterMM))
			return
		}
	}
	for _, z := range h.Zones {
		if z.Name == name && z.Known {
			n.item("ambient: %s to %s degC", number(z.LeastC), number(z.MostC))
		}
	}
	if pl := h.Place(name); pl != nil {
		if pl.Zone != nil {
			n.item("zone: `%s`", pl.Zone.Name)
		}
		var bundles []string
		for _, b := range pl.Bundles {
			bundles = append(bundles, b.Name)
		}
		n.item("bundles: %s", quotedOr(bundles, "none"))
	}
}
