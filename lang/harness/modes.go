package harness

import (
	"fmt"
	"slices"

	"hame/lang/kinds"
	"hame/lang/syntax"
)

// modes binds the declared modes; with none, two are implied.
func (b *binder) modes() {
	for _, d := range b.decls {
		if t, ok := d.decl.(*syntax.Mode); ok {
			b.mode(d, t)
		}
	}
	if !slices.ContainsFunc(b.decls, func(d declared) bool { _, mode := d.decl.(*syntax.Mode); return mode }) {
		b.h.Modes = b.implied()
	}
}

func (b *binder) mode(d declared, t *syntax.Mode) {
	form := kinds.Form("mode")
	s := settings{kind: form, given: b.reader.settingsOf(d, form)}
	m := &Mode{
		Name: t.Name.Text, Origin: d.origin(), settings: s,
		Key: s.Word("key"), Engine: s.Word("engine"), Throws: map[*Device]int{},
	}
	m.Charge, _ = s.SI("charge")
	m.ForS, _ = s.SI("for")
	if v, ok := s.SI("ambient"); ok {
		m.AmbientC = &v
	}
	b.closed(d, m)
	b.throws(d, m)
	if e := d.own; e != nil {
		e.bound = m
		e.hazy = e.hazy || slices.ContainsFunc(form.Settings, func(s *kinds.Setting) bool { return b.h.mistaken[fact{m.Name, s.Name}] })
		if !e.hazy { // another mode than the one that was meant is not judged
			b.h.Modes = append(b.h.Modes, m)
		}
	}
}

// closed lists the switches that a mode closes. Relays and the key follow
// other things and are never listed.
func (b *binder) closed(d declared, m *Mode) {
	args, _ := m.Args("closed")
	for _, a := range args.List {
		e := b.h.names[a.Word]
		if e == nil || as[Device](e) == nil {
			continue
		}
		switch dev := as[Device](e); {
		case dev.Is(kinds.Switch, "relay", "key", "diode"):
			b.mistake(m.Name, "closed")
			b.say(d.file.Source, a.Span, "value/range", m.Name, "`%s` is a %s, and a mode does not close it: %s", a.Word, dev.Kind.Name, follows[dev.Kind.Name])
		case dev.Is(kinds.Switch):
			if n, _ := dev.SI("throws"); n > 1 {
				b.mistake(m.Name, "closed")
				f := b.say(d.file.Source, a.Span, "value/range", m.Name, "`%s` has %g throws: say which one it stands on", a.Word, n)
				f.Figures = append(f.Figures, "expected: throw "+a.Word+" NUMBER")
				continue
			}
			m.Closed = append(m.Closed, dev)
		}
	}
}

var follows = map[string]string{
	"relay": "it follows its coil", "key": "it stands where the mode's `key` says", "diode": "it conducts by itself",
}

func (b *binder) throws(d declared, m *Mode) {
	for _, args := range m.Given("throw") {
		e := b.h.names[args.RepeatKey()]
		n, ok := args.SI("count")
		if e == nil || as[Device](e) == nil || !ok {
			continue
		}
		dev := as[Device](e)
		most, _ := dev.SI("throws")
		if n > most || most < 2 {
			a, _ := args.Get("count")
			b.mistake(m.Name, "throw")
			b.say(d.file.Source, a.Span, "value/range", m.Name, "`%s` has %s, so it cannot stand on %g", dev.Name, throwsOf(most), n)
			continue
		}
		m.Throws[dev] = int(n)
	}
}

func throwsOf(n float64) string {
	switch n {
	case 0:
		return "no throws"
	case 1:
		return "one throw"
	}
	return fmt.Sprintf("%g throws", n)
}

// implied are the modes of a harness that declares none: everything on with
// the engine running, and the key off with the switches left closed.
func (b *binder) implied() []*Mode {
	allOn := &Mode{Name: "all_on", Implied: true, Key: "on", Engine: "running", Charge: 0.8, Throws: map[*Device]int{}}
	keyOff := &Mode{Name: "key_off", Implied: true, Key: "off", Engine: "off", Charge: 0.8, Throws: map[*Device]int{}}
	for _, d := range b.h.Devices {
		if !d.Is(kinds.Switch, "toggle", "push", "isolator") {
			continue
		}
		for _, m := range []*Mode{allOn, keyOff} {
			if n, _ := d.SI("throws"); n > 1 {
				m.Throws[d] = 1
			} else {
				m.Closed = append(m.Closed, d)
			}
		}
	}
	return []*Mode{allOn, keyOff}
}
