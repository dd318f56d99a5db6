package harness

import (
	"hame/lang/kinds"
	"hame/lang/syntax"
)

// header reads the harness declaration's own settings.
func (b *binder) header() {
	d := b.harnessDecl()
	head, form := declared{file: b.root, decl: d}, kinds.Form("harness")
	s := settings{kind: form, given: b.reader.settingsOf(head, form)}
	b.reader.missing(head, s.kind, s.given, b.h.Name)
	b.h.Title = s.Word("title")
	b.h.SystemV, _ = s.SI("system")
	b.h.SystemSaid = s.Has("system")
	b.h.Insulation = s.Word("wire")
	b.h.SlackM, _ = s.SI("slack")
	b.h.AltitudeM, _ = s.SI("altitude")
	if b.h.SystemV == 0 {
		b.h.SystemV = likelyV(d.Block)
	}
	b.practice(s)
}

// likelyV is the system that is computed with where `system` is mistaken,
// which is said: its bare number, else 12 V.
func likelyV(block *syntax.Block) float64 {
	if s := block.First("system"); s != nil && len(s.Values) > 0 {
		if v := s.Values[0].Lo.SI; v == 24 || v == 48 {
			return v
		}
	}
	return 12
}

func (b *binder) harnessDecl() *syntax.Harness {
	for _, d := range b.root.Decls {
		if h, ok := d.(*syntax.Harness); ok {
			return h
		}
	}
	return &syntax.Harness{}
}

func (b *binder) practice(s settings) {
	args, ok := s.Args("practice")
	if !ok {
		return
	}
	if word := args.Word(""); word != "" {
		b.h.Practice = word
	}
	given := b.reader.match(b.root.Source, args.Setting.Block, args.Block, b.h.Name)
	for _, row := range args.Setting.Block.Settings {
		b.h.Tightened = append(b.h.Tightened, given.of(row.Name)...)
	}
}

// outer answers what a device's defaults refer to outside the device.
func (h *Harness) outer(setting string) (float64, bool) {
	if setting == "system" {
		return h.SystemV, true
	}
	return 0, false
}
