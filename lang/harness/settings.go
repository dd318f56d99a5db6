package harness

import (
	"hame/lang/kinds"
)

// settings is what a declaration was given, parts applied.
type settings struct {
	kind  *kinds.Kind
	given map[string][]kinds.Args
	// of is asked for what a default refers to outside: the system's volts.
	of func(string) (float64, bool)
}

// Given lists every time that a setting was given.
func (s settings) Given(setting string) []kinds.Args { return s.given[setting] }

// Has reports whether a setting or flag was given.
func (s settings) Has(setting string) bool { return len(s.given[setting]) > 0 }

// Args is the setting's first time.
func (s settings) Args(setting string) (kinds.Args, bool) {
	if list := s.given[setting]; len(list) > 0 {
		return list[0], true
	}
	return kinds.Args{}, false
}

// SI is a setting's own number in its dimension's unit, or its default's. The
// answer is false where neither is known.
func (s settings) SI(setting string) (float64, bool) {
	if a, ok := s.Args(setting); ok {
		if v, ok := a.SI(""); ok {
			return v, true
		}
		return 0, false
	}
	if s.kind == nil {
		return 0, false
	}
	row, ok := s.kind.Setting(setting)
	if !ok {
		return 0, false
	}
	return s.fallback(row.Default)
}

// fallback is what a default comes to.
func (s settings) fallback(d kinds.Default) (float64, bool) {
	if d.Text != "" {
		return d.SI()
	}
	if d.Factor == 0 {
		return 0, false
	}
	base, ok := s.SI(d.Of)
	if !ok && s.of != nil {
		base, ok = s.of(d.Of)
	}
	return d.Factor * base, ok
}

// Word is a setting's own word, or its default's, or "".
func (s settings) Word(setting string) string {
	if a, ok := s.Args(setting); ok {
		return a.Word("")
	}
	if s.kind == nil {
		return ""
	}
	if row, ok := s.kind.Setting(setting); ok {
		return row.Default.Text
	}
	return ""
}

// SystemV is the harness's system voltage.
func (s settings) SystemV() (float64, bool) {
	if s.of == nil {
		return 0, false
	}
	return s.of("system")
}
