package harness

import (
	"strings"

	"hame/lang/kinds"
	"hame/lang/quantity"
	"hame/lang/syntax"
)

// promises binds requirements and allowances.
func (b *binder) promises() {
	for _, d := range b.decls {
		switch t := d.decl.(type) {
		case *syntax.Require:
			b.require(d, t)
		case *syntax.Allow:
			b.allow(d, t)
		}
	}
}

// what a requirement can be about, and the form of its limit.
var whats = map[string]*kinds.Setting{
	"volts":   kinds.Slotted("volts", "<V>"),
	"current": kinds.Slotted("current", "<A>"),
	"drop":    kinds.Slotted("drop", "<V|%>"),
	"warmth":  kinds.Slotted("warmth", "<degC>"),
}

// Whats lists what a requirement can be about.
func Whats() []string { return []string{"volts", "current", "drop", "warmth"} }

func (b *binder) require(d declared, t *syntax.Require) {
	file := d.file.Source
	r := &Require{Origin: d.origin(), Name: t.Name.Text, What: t.What.Text}
	known := b.requireSubject(d, t, r)
	row := whats[t.What.Text]
	if row == nil && !t.What.IsZero() {
		b.say(file, t.What.Span, "value/range", t.Name.Text, "`%s` is nothing that can be required: %s%s", t.What.Text, strings.Join(Whats(), ", "), kinds.DidYouMean(t.What.Text, Whats()))
		return
	}
	if !t.Mode.IsZero() {
		e := b.lookup(file, t.Mode, "mode")
		if e == nil || as[Mode](e) == nil || e.hazy {
			return
		}
		r.Mode = as[Mode](e)
	}
	if row == nil || t.Limit == nil || t.Op == nil || !b.signedLimit(d, row, t) || !known || !b.promisable(d, t, r) {
		return
	}
	r.Op, r.Limit = t.Op.Text, t.Limit.Lo
	b.h.Requires = append(b.h.Requires, r)
}

// signedLimit checks the unit of a limit; a current may be below zero.
func (b *binder) signedLimit(d declared, row *kinds.Setting, t *syntax.Require) bool {
	if t.Limit.Lo.Dim == quantity.Current && t.What.Text == "current" {
		return true
	}
	_, ok := b.reader.measure(d, row, t.Limit, t.Name.Text)
	return ok
}

// takers says of what each can be required, and how that is said.
var takers = map[string]struct {
	device func(*Device, *Terminal) bool
	wire   bool
	words  string
}{
	"volts":   {hasVolts, false, "a load, a relay's coil or a supply"},
	"current": {hasCurrent, true, "a load, a wire, a contact, a fuse or breaker, or a supply"},
	"drop":    {func(d *Device, _ *Terminal) bool { return d.Is(kinds.Load) }, true, "a load or a wire"},
	"warmth":  {func(*Device, *Terminal) bool { return false }, true, "a wire"},
}

func hasVolts(d *Device, _ *Terminal) bool {
	return d.Is(kinds.Load) || d.Is(kinds.Switch, "relay") || d.Is(kinds.Supply)
}

// hasCurrent: a connector carries one in each of its contacts.
func hasCurrent(d *Device, at *Terminal) bool {
	return d.Is(kinds.Load) || d.Is(kinds.Switch) || d.Is(kinds.Protection) || d.Is(kinds.Supply) ||
		d.Is(kinds.Join, "connector") && at != nil
}

// promisable says when a figure is required of what has none.
func (b *binder) promisable(d declared, t *syntax.Require, r *Require) bool {
	taker := takers[r.What]
	if r.Wire != nil && taker.wire || r.Device != nil && taker.device(r.Device, r.Way) {
		return true
	}
	what := "a wire"
	if r.Device != nil {
		what = "a " + r.Device.Kind.Title()
	}
	b.say(d.file.Source, t.What.Span, "value/range", r.Name, "`%s` is %s, and `%s` is required of %s", r.Name, what, r.What, taker.words)
	return false
}

// requireSubject finds the device, way or wire that is spoken of.
func (b *binder) requireSubject(d declared, t *syntax.Require, r *Require) bool {
	name, terminal, dotted := cut(&syntax.Value{Text: t.Name.Text, Span: t.Name.Span})
	e := b.h.names[name.Text]
	if e == nil {
		if !t.Name.IsZero() {
			b.unknown(d.file.Source, name, "device or wire")
		}
		return false
	}
	e.uses++
	switch e.what() {
	case "wire":
		r.Wire = as[Wire](e)
	case "device":
		r.Device = as[Device](e)
		if dotted && r.Device != nil {
			r.Way = r.Device.Terminal(terminal)
			if r.Way == nil {
				b.say(d.file.Source, t.Name.Span, "terminal/unknown", t.Name.Text, "`%s` has no terminal `%s`", name.Text, terminal)
			}
		}
	default:
		b.say(d.file.Source, name.Span, "name/unknown", name.Text, "`%s` is a %s, and a device or wire is expected here", name.Text, e.what())
	}
	return (r.Wire != nil || r.Device != nil) && (!dotted || r.Way != nil)
}

func (b *binder) allow(d declared, t *syntax.Allow) {
	if t.Rule == nil || t.On == nil || t.Because == nil {
		return
	}
	name, _, _ := cut(t.On)
	e := b.h.names[name.Text]
	switch {
	case e == nil && name.Text != b.h.Name:
		b.unknown(d.file.Source, name, "declared thing")
		return
	case e != nil:
		e.uses++
	}
	if strings.TrimSpace(t.Because.Text) == "" {
		b.say(d.file.Source, t.Because.Span, "value/range", t.On.Text, "an allowance needs a reason")
		return
	}
	a := &Allow{Origin: d.origin(), Rule: t.Rule.Text, On: t.On.Text, Because: t.Because.Text}
	a.Origin.Name = t.Rule.Span
	if t.Until != nil {
		a.Until = t.Until.Text
		if !kinds.IsDay(a.Until) {
			b.say(d.file.Source, t.Until.Span, "value/range", t.On.Text, "`%s` is no day of the calendar", a.Until)
			a.Until = ""
		}
	}
	b.h.Allows = append(b.h.Allows, a)
}
