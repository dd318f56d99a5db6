package harness

import (
	"cmp"
	"slices"

	"hame/lang/finding"
)

// unused says which parts, places, zones, bundles and modes nothing uses. A
// library's parts are there for others too and are not asked for.
func (b *binder) unused() {
	if b.options.ExistingOnly || b.h.Hazy {
		return
	}
	var idle []*named
	for _, e := range b.h.names {
		if e.origin.File == b.root.Source && !e.hazy && b.idle(e) {
			idle = append(idle, e)
		}
	}
	slices.SortFunc(idle, func(x, y *named) int { return cmp.Compare(x.origin.Name.Start, y.origin.Name.Start) })
	for _, e := range idle {
		f := b.say(e.origin.File, e.origin.Name, "name/unused", e.name, "nothing uses %s `%s`", e.what, e.name)
		f.Severity = finding.Advice
	}
}

func (b *binder) idle(e *named) bool {
	switch e.what {
	case "part", "place", "zone":
		return e.uses == 0
	case "bundle":
		return e.uses == 0 && e.bundle != nil && len(e.bundle.Members) == 0
	case "mode":
		return e.uses == 0 && e.mode != nil && e.mode.silent()
	}
	return false
}

// silent: a mode that sets nothing says nothing that the defaults do not.
func (m *Mode) silent() bool {
	return len(m.given) == 0
}
