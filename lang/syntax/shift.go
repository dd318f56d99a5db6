package syntax

import (
	"slices"

	"hame/lang/source"
)

// shift copies parts of a tree to where they stand so many bytes on. What was
// not read stays nowhere.
type shift int

func (by shift) span(s source.Span) source.Span {
	return source.Span{Start: s.Start + int(by), End: s.End + int(by)}
}

func (by shift) name(n Name) Name {
	if !n.IsZero() {
		n.Span = by.span(n.Span)
	}
	return n
}

func (by shift) value(v *Value) *Value {
	if v == nil {
		return nil
	}
	moved := *v
	moved.Span = by.span(v.Span)
	return &moved
}

func (by shift) values(list []Value) []Value {
	list = slices.Clone(list)
	for i := range list {
		list[i].Span = by.span(list[i].Span)
	}
	return list
}

func (by shift) block(b *Block) *Block {
	if b == nil {
		return nil
	}
	moved := &Block{Closed: b.Closed, Span: by.span(b.Span)}
	settings := make([]Setting, len(b.Settings))
	for i, s := range b.Settings {
		settings[i] = Setting{
			Key: by.name(s.Key), Values: by.values(s.Values), Block: by.block(s.Block),
			Broken: s.Broken, Span: by.span(s.Span),
		}
		moved.Settings = append(moved.Settings, &settings[i])
	}
	return moved
}

func (by shift) head(h Head) Head {
	h.Keyword, h.Name, h.Block, h.Span = by.name(h.Keyword), by.name(h.Name), by.block(h.Block), by.span(h.Span)
	return h
}

// decl copies a declaration with all that hangs on it.
func (by shift) decl(d Decl) Decl {
	h := by.head(*d.Header())
	switch d := d.(type) {
	case *Harness:
		return &Harness{h}
	case *Zone:
		return &Zone{h}
	case *Mode:
		return &Mode{h}
	case *Device:
		return &Device{h, by.name(d.Kind)}
	case *Part:
		return &Part{h, by.name(d.Family), by.name(d.Kind)}
	case *Bundle:
		return &Bundle{h, by.name(d.From), by.name(d.To), by.value(d.Length)}
	case *Use:
		return &Use{h, by.value(d.Path)}
	case *Require:
		return &Require{h, by.name(d.What), by.value(d.Op), by.value(d.Limit), by.name(d.Mode)}
	case *Allow:
		return &Allow{h, by.value(d.Rule), by.value(d.On), by.value(d.Because), by.value(d.Until)}
	case *Wire:
		return &Wire{h, by.value(d.From), by.value(d.To), by.value(d.Gauge), by.values(d.Words), by.value(d.Length)}
	case *Places:
		names := slices.Clone(d.Names)
		for i := range names {
			names[i] = by.name(names[i])
		}
		return &Places{h, names, by.name(d.Zone)}
	}
	return &Bad{h}
}
