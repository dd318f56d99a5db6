package harness

import (
	"hame/lang/kinds"
	"hame/lang/syntax"
)

// deviceRead is a device that was read ahead, and its own settings: they name
// things that are still to be looked up. Without a device nothing is of use.
type deviceRead struct {
	device *Device
	own    given
}

// devices binds the parts, then the devices.
func (b *binder) devices() {
	b.parts()
	list := every[*syntax.Device](b)
	ready := make([]deviceRead, len(list))
	b.readAhead(len(list), func(r *reader, i int) {
		t := list[i].decl.(*syntax.Device)
		if base, kind := b.kindAhead(t); kind != nil {
			ready[i].device, ready[i].own = r.device(*list[i], t, base, kind)
		}
	}, func(i int) { ready[i] = deviceRead{} })
	b.h.Devices = make([]*Device, 0, len(list))
	for i, d := range list {
		b.device(*d, d.decl.(*syntax.Device), ready[i])
	}
}

// kindAhead is kindOf without a word: nil where there is anything to say. The
// parts are all bound.
func (b *binder) kindAhead(t *syntax.Device) (*part, *kinds.Kind) {
	f := kinds.Family(t.Keyword.Text)
	if k := kinds.Find(f, t.Kind.Text); k != nil {
		return nil, k
	}
	e := b.h.names[t.Kind.Text]
	if e == nil {
		return nil, nil
	}
	p := as[part](e)
	if p == nil || p.kind == nil || p.kind.Family != f {
		return nil, nil
	}
	return p, p.kind
}

func (b *binder) device(d declared, t *syntax.Device, ready deviceRead) {
	base, kind := b.kindOf(d.file.Source, t.Keyword, t.Kind, t.Name.Text)
	if kind == nil {
		if d.own != nil {
			d.own.hazy = true
		}
		return
	}
	dev := ready.device
	if dev == nil || b.doubted(base) {
		dev, _ = b.reader.device(d, t, base, kind)
	} else {
		for _, args := range ready.own {
			b.refer(d.file.Source, args, dev.Name)
		}
	}
	if dev == nil || b.leaveOut(dev.Name, dev.Existing) {
		return
	}
	for _, at := range dev.Terminals {
		at.Index = b.terminal
		b.terminal++
	}
	d.own.bound, dev.Index = dev, len(b.h.Devices)
	b.h.Devices = append(b.h.Devices, dev)
}

// doubted reports a part with a mistake that a device of it takes over: who read
// ahead may not have known of it yet.
func (b *binder) doubted(base *part) bool {
	if base == nil || len(b.h.mistaken) == 0 {
		return false
	}
	for times := range base.given.settings() {
		if b.h.mistaken[fact{base.name, times[0].Setting.Name}] {
			return true
		}
	}
	return false
}

// device reads a device: nil where its name is another's. Its own settings, as
// they stand in the text, are answered too.
func (r *reader) device(d declared, t *syntax.Device, base *part, kind *kinds.Kind) (*Device, given) {
	own := r.settingsOf(d, kind)
	list := r.merge(base, own, t.Name.Text)
	if d.own == nil {
		return nil, own
	}
	r.missing(d, kind, list, t.Name.Text)
	dev := r.devices.One()
	dev.Name, dev.Kind, dev.Origin = t.Name.Text, kind, d.origin()
	dev.settings = settings{kind: kind, given: list, within: r.h}
	dev.Existing = dev.Has("existing") || dev.Is(kinds.Ground, "chassis")
	dev.Covered = dev.Has("covered")
	if r.leftOut(dev.Existing) {
		return dev, own
	}
	if args := dev.first("at"); args != nil {
		dev.At = r.h.Place(args.Word(""))
	}
	r.special(dev)
	r.terminalsOf(dev)
	return dev, own
}

// terminalsOf makes a device's terminals; they get their numbers in the order of
// the text.
func (r *reader) terminalsOf(dev *Device) {
	list := dev.Kind.Terminals(dev)
	made := r.terminals.Take(len(list))
	dev.Terminals = r.points.Take(len(list))
	for i, t := range list {
		made[i] = Terminal{Device: dev, Name: t.Name, Spare: t.Spare, Fitting: dev.Kind.Fitting(dev, t.Name)}
		dev.Terminals[i] = &made[i]
	}
}
