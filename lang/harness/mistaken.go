package harness

import (
	"slices"
	"strings"

	"hame/lang/kinds"
	"hame/lang/syntax"
	"hame/lang/token"
)

// fact is a setting of a declared thing, or a value of its header.
type fact struct{ name, setting string }

// Mistaken reports whether a fact was given, but with a mistake that has been
// said: whoever waits for it need not say so again. Besides settings there are
// the facts of headers: `gauge` and `length`, and `via` for a wire's way.
func (h *Harness) Mistaken(name, setting string) bool {
	if h.mistaken[fact{name, setting}] {
		return true
	}
	if setting == "rated" && h.mistaken[fact{name, "cover"}] {
		return true
	}
	e := h.names[name]
	if e == nil || setting != "via" && setting != "length" {
		return false
	}
	w := as[Wire](e)
	return w != nil && (w.Misplaced() || w.unsaid)
}

// mistake marks a fact as given with a mistake.
func (b *binder) mistake(name, setting string) {
	b.h.mistaken[fact{name, setting}] = true
}

// Misplaced reports whether a mistake hides where the wire runs: an end that
// could not be bound, a place that is said but not known, or one whose zone is.
func (w *Wire) Misplaced() bool {
	return !w.Bound() || slices.ContainsFunc(w.Ends[:], func(e End) bool {
		return e.Terminal != nil && e.Terminal.Device.Misplaced()
	})
}

// Misplaced reports whether the device's place, or its zone, is said but not
// known.
func (d *Device) Misplaced() bool {
	if d.At == nil {
		return d.Has("at")
	}
	return d.At.Zone == nil
}

// unread reports a setting that was given but could not be read.
func unread(a kinds.Args) bool { return len(a.List) == 0 && !a.Setting.Flag() }

// meantFor are the settings that a mistake may have been meant for: the nearest
// to an unknown key, and those whose names stand in the text of a broken one,
// for a quote left open takes in what follows it.
func meantFor(kind *kinds.Kind, s *syntax.Setting, text string) []string {
	if _, known := kind.Setting(s.Key.Text); !known {
		if near := kinds.Nearest(s.Key.Text, kind.SettingNames()); near != "" {
			return []string{near}
		}
		return nil
	}
	words := strings.FieldsFunc(text, func(r rune) bool { return strings.ContainsRune(" \t;{},\"", r) })
	return slices.DeleteFunc(words, func(w string) bool {
		_, known := kind.Setting(w)
		return !known
	})
}

// haunt remembers the words of declarations whose header could not be read: a
// name that is unknown because of it has been said. One without a name may have
// declared any that is missing.
func (b *binder) haunt(f *syntax.File) {
	for _, d := range f.Decls {
		head := d.Header()
		_, bad := d.(*syntax.Bad)
		if !bad && !head.Broken {
			continue
		}
		_, part := d.(*syntax.Part)
		for i := f.TokenAt(head.Start); i < len(f.Tokens) && f.Tokens[i].Start < head.End; i++ {
			if f.Tokens[i].Kind == token.Word {
				b.ghosts[f.TokenText(f.Tokens[i])] = b.ghosts[f.TokenText(f.Tokens[i])] || bad || part
			}
		}
		if sort := declares(d); head.Name.IsZero() && sort != "" {
			b.nameless[sort]++
		}
		if _, use := d.(*syntax.Use); use {
			b.lost = true
		}
	}
}

// declares is the sort of name that a declaration gives, "" where it gives none.
func declares(d syntax.Decl) string {
	switch d.(type) {
	case *syntax.Places:
		return "place"
	case *syntax.Zone:
		return "zone"
	case *syntax.Bundle:
		return "bundle"
	case *syntax.Device:
		return "device"
	case *syntax.Wire:
		return "wire"
	case *syntax.Mode:
		return "mode"
	case *syntax.Part:
		return "part"
	}
	return ""
}

// adopted reports whether an unknown name may be that of a declaration which
// could not be read. Each such declaration accounts for one name.
func (b *binder) adopted(name, what string) bool {
	if part, ghost := b.ghosts[name]; ghost && (part || what != "part") {
		return true
	}
	for _, sort := range []string{"device", "wire", "place", "zone", "bundle", "mode", "part"} {
		if b.nameless[sort] > 0 && (strings.Contains(what, sort) || what == "declared thing") {
			b.nameless[sort]--
			b.ghosts[name] = true
			return true
		}
	}
	return false
}

// aside are the settings that change nothing of what flows.
var aside = map[string]bool{
	"at": true, "label": true, "part": true, "note": true, "sealed": true, "seal": true, "covered": true, "existing": true,
	"tabs": true, "studs": true, "post": true, "size": true, "feed": true, "serves": true, "takes": true, "holds": true,
	"lead": true, "polarity": true, "lock": true, "shrouded": true, "for": true,
	"rating": true, "contacts": true, "limit": true, "each": true,
}

// torn reports whether a mistake leaves something out of what flows.
func (b *binder) torn() bool {
	if b.options.ExistingOnly {
		return false
	}
	lost := slices.ContainsFunc(b.decls, func(d declared) bool {
		e := d.own
		if e == nil {
			e = b.h.names[d.decl.Header().Name.Text]
		}
		switch d.decl.(type) {
		case *syntax.Bad:
			return true
		case *syntax.Wire:
			if e == nil || as[Wire](e) == nil {
				return true
			}
			return !as[Wire](e).Bound() || as[Wire](e).astray
		case *syntax.Device:
			return e == nil || as[Device](e) == nil
		}
		return false
	})
	return lost || b.lacks || len(b.h.mistaken) > 0 && slices.ContainsFunc(b.h.Devices, b.unsure)
}

// unsure reports a device with a figure that could not be read.
func (b *binder) unsure(d *Device) bool {
	return slices.ContainsFunc(d.Kind.Settings, func(s *kinds.Setting) bool {
		return !aside[s.Name] && b.h.mistaken[fact{d.Name, s.Name}]
	})
}
