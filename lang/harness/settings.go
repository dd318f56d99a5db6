package harness

import (
	"iter"
	"slices"

	"hame/lang/kinds"
)

// given is every time that a setting was given; the times of one setting stand
// side by side. A declaration has few, so that looking through them is quickest.
type given []kinds.Args

// of lists the times of one setting.
func (g given) of(setting string) []kinds.Args {
	for i := range g {
		if g[i].Setting.Name == setting {
			return g[i : i+g.times(i) : i+g.times(i)]
		}
	}
	return nil
}

func (g given) has(setting string) bool {
	return slices.ContainsFunc(g, func(a kinds.Args) bool { return a.Setting.Name == setting })
}

// times is how often the setting at i is given from there on.
func (g given) times(i int) int {
	n := 1
	for i+n < len(g) && g[i+n].Setting == g[i].Setting {
		n++
	}
	return n
}

// settings goes from one setting to the next.
func (g given) settings() iter.Seq[[]kinds.Args] {
	return func(yield func([]kinds.Args) bool) {
		for i := 0; i < len(g); i += g.times(i) {
			if !yield(g[i : i+g.times(i) : i+g.times(i)]) {
				return
			}
		}
	}
}

// scattered reports whether the times of a setting do not stand side by side.
func (g given) scattered() bool {
	for i := 0; i < len(g); i += g.times(i) {
		for j := 0; j < i; j += g.times(j) {
			if g[j].Setting == g[i].Setting {
				return true
			}
		}
	}
	return false
}

// settings is what a declaration was given, parts applied.
type settings struct {
	kind  *kinds.Kind
	given given
	// within is asked for what a default refers to outside: the system's volts.
	within *Harness
}

// Given lists every time that a setting was given.
func (s settings) Given(setting string) []kinds.Args { return s.given.of(setting) }

// Has reports whether a setting or flag was given.
func (s settings) Has(setting string) bool { return s.first(setting) != nil }

// first is the setting's first time, nil where it was not given.
func (s *settings) first(setting string) *kinds.Args {
	for i := range s.given {
		if s.given[i].Setting.Name == setting {
			return &s.given[i]
		}
	}
	return nil
}

// Args is the setting's first time.
func (s settings) Args(setting string) (kinds.Args, bool) {
	if a := s.first(setting); a != nil {
		return *a, true
	}
	return kinds.Args{}, false
}

// SI is a setting's own number in its dimension's unit, or its default's. The
// answer is false where neither is known.
func (s settings) SI(setting string) (float64, bool) {
	if a := s.first(setting); a != nil {
		return a.SI("")
	}
	if s.kind == nil {
		return 0, false
	}
	row, ok := s.kind.Setting(setting)
	if !ok {
		return 0, false
	}
	return s.fallback(&row.Default)
}

// fallback is what a default comes to.
func (s settings) fallback(d *kinds.Default) (float64, bool) {
	if d.Text != "" {
		return d.SI()
	}
	if d.Factor == 0 {
		return 0, false
	}
	base, ok := s.SI(d.Of)
	if !ok && s.within != nil {
		base, ok = s.within.outer(d.Of)
	}
	return d.Factor * base, ok
}

// Word is a setting's own word, or its default's, or "".
func (s settings) Word(setting string) string {
	if a := s.first(setting); a != nil {
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
	if s.within == nil {
		return 0, false
	}
	return s.within.outer("system")
}
