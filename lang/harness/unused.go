package harness

import (
	"hame/lang/finding"
	"hame/lang/syntax"
)

// unused says which parts, places, zones, bundles and modes nothing uses. A
// library's parts are there for others too and are not asked for.
func (b *binder) unused() {
	if b.options.ExistingOnly || b.h.Hazy {
		return
	}
	for _, d := range b.decls {
		if d.file != b.root {
			continue
		}
		if t, ok := d.decl.(*syntax.Places); ok {
			for _, n := range t.Names {
				b.unusedName(b.ofPlace(d, n))
			}
			continue
		}
		b.unusedName(d.own)
	}
}

func (b *binder) unusedName(e *named) {
	if e != nil && !e.hazy && b.idle(e) {
		f := b.say(e.decl.file.Source, e.name.Span, "name/unused", e.name.Text, "nothing uses %s `%s`", e.what(), e.name.Text)
		f.Severity = finding.Advice
	}
}

func (b *binder) idle(e *named) bool {
	switch e.what() {
	case "part", "place", "zone":
		return e.uses == 0
	case "bundle":
		x := as[Bundle](e)
		return e.uses == 0 && x != nil && len(x.Members) == 0
	case "mode":
		m := as[Mode](e)
		return e.uses == 0 && m != nil && m.silent()
	}
	return false
}

// silent: a mode that sets nothing says nothing that the defaults do not.
func (m *Mode) silent() bool {
	return len(m.given) == 0
}
