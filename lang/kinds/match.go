package kinds

import (
	"fmt"
	"slices"

	"hame/lang/source"
	"hame/lang/syntax"
)

// Mismatch says why a setting's values do not fit its forms. Rule is
// text/syntax, unit/wrong or value/range.
type Mismatch struct {
	source.Span
	Rule    string
	Message string
}

// Match checks the values that a setting was given against its forms and
// names them. Of several forms that do not fit, the one that went furthest
// speaks.
func (s *Setting) Match(in *syntax.Setting) (Args, *Mismatch) {
	return new(Matcher).Match(s, in)
}

// Matcher matches one setting after the other. What it works with, and the
// lists that it gives, it takes from a few large pieces. It serves one goroutine.
type Matcher struct {
	setting *Setting
	values  []syntax.Value
	missing source.Span // where it is said that a value is missing
	at      int
	out     []Arg // of the form that is tried
	current *slot
	failure *Mismatch // of the furthest try
	reached int
	header  [1]syntax.Value
	room    []Arg // what the next lists are cut from
}

// Match is Setting.Match.
func (m *Matcher) Match(s *Setting, in *syntax.Setting) (Args, *Mismatch) {
	args := Args{Setting: s, Key: in.Key, Block: in.Block, Span: in.Span}
	if s.Flag() {
		if len(in.Values) > 0 {
			return args, &Mismatch{in.Values[0].Span, "text/syntax", fmt.Sprintf("`%s` takes no value", s.Name)}
		}
		return args, nil
	}
	m.missing = source.Span{Start: in.End, End: in.End}
	if in.Block != nil {
		m.missing = in.Key.Span
	}
	if !m.fits(s, in.Values) {
		return args, m.failure
	}
	args.List = m.kept()
	return args, nil
}

// Value matches a value of a declaration's header by the one slot of its row,
// which Slotted made.
func (m *Matcher) Value(s *Setting, v *syntax.Value) (Arg, *Mismatch) {
	m.missing = source.Span{Start: v.End, End: v.End}
	m.header[0] = *v
	if !m.fits(s, m.header[:]) {
		return Arg{}, m.failure
	}
	return m.out[0], nil
}

// fits tries one form after the other.
func (m *Matcher) fits(s *Setting, values []syntax.Value) bool {
	m.setting, m.values, m.failure, m.reached = s, values, nil, 0
	for _, f := range s.forms {
		m.at, m.out = 0, m.out[:0]
		if m.steps(f.steps) && m.end() {
			return true
		}
	}
	return false
}

// mostRoom is how many values one piece of room holds at most.
const mostRoom = 512

// kept is the list of the form that fitted, in a place of its own.
func (m *Matcher) kept() []Arg {
	n := len(m.out)
	if cap(m.room)-len(m.room) < n {
		m.room = make([]Arg, 0, max(n, min(2*cap(m.room), mostRoom)))
	}
	m.room = append(m.room, m.out...)
	return slices.Clip(m.room[len(m.room)-n:])
}

// fail notes why a value does not fit, unless another try went further. It
// answers false, for the callers' comfort.
func (m *Matcher) fail(rule, format string, args ...any) bool {
	if m.failure != nil && (m.reached > m.at || m.reached == m.at && graver(m.failure.Rule, rule)) {
		return false
	}
	span := m.missing
	if v := m.peek(); v != nil {
		span = v.Span
	}
	m.reached, m.failure = m.at, &Mismatch{span, rule, fmt.Sprintf(format, args...)}
	return false
}

// graver: a value of the right type that is out of range says more than one
// of the wrong unit, and that more than one of another form.
func graver(a, b string) bool {
	order := []string{"text/syntax", "unit/wrong", "value/range"}
	return slices.Index(order, a) >= slices.Index(order, b)
}

func (m *Matcher) peek() *syntax.Value {
	if m.at < len(m.values) {
		return &m.values[m.at]
	}
	return nil
}

func (m *Matcher) end() bool {
	v := m.peek()
	if v == nil {
		return true
	}
	return m.fail("text/syntax", "`%s` is too much for `%s`: it is written `%s`", v.Text, m.setting.Name, m.setting.Usage())
}

func (m *Matcher) steps(steps []step) bool {
	for _, st := range steps {
		switch {
		case st.optional != nil && m.at == len(m.values): // no form has more behind it
		case st.optional != nil:
			at, out := m.at, len(m.out)
			if !m.steps(st.optional) {
				m.at, m.out = at, m.out[:out]
			}
		case st.slot != nil:
			if !m.slot(st.slot) {
				return false
			}
		case !m.word(st.word):
			return m.fail("text/syntax", "expected `%s` here: `%s`", st.word, m.setting.Usage())
		}
	}
	return true
}

func (m *Matcher) word(want string) bool {
	if v := m.peek(); v != nil && v.Kind == syntax.Word && v.Text == want {
		m.at++
		return true
	}
	return false
}

func (m *Matcher) slot(s *slot) bool {
	if !m.one(s) {
		return false
	}
	for s.list && m.peek() != nil && m.peek().Kind == syntax.Comma {
		m.at++
		if !m.one(s) {
			return false
		}
	}
	return true
}

// one matches a single value of a slot.
func (m *Matcher) one(s *slot) bool {
	m.current = s
	v := m.peek()
	if v == nil {
		return m.fail("text/syntax", "`%s` wants %s", m.setting.Name, s.expects())
	}
	if v.Kind == syntax.Word && slices.Contains(s.words, v.Text) {
		return m.take(Arg{As: s.word, Word: v.Text, Span: v.Span}, 1)
	}
	for i := range s.types {
		if m.typed(s, &s.types[i], v) {
			return true
		}
	}
	if len(s.types) == 0 {
		return m.unknownWord(s, v)
	}
	return false
}

func (m *Matcher) unknownWord(s *slot, v *syntax.Value) bool {
	if v.Kind != syntax.Word {
		return m.fail("text/syntax", "`%s` wants %s, not `%s`", m.setting.Name, s.expects(), v.Text)
	}
	return m.fail("value/range", "`%s` is not known to `%s`: expected %s%s", v.Text, m.setting.Name, s.expects(), DidYouMean(v.Text, s.words))
}

func (m *Matcher) take(a Arg, values int) bool {
	m.out = append(m.out, a)
	m.at += values
	return true
}

// Slotted makes a row for a value that stands in a declaration's header, so
// that it is checked and spoken of as the settings are.
func Slotted(name, form string) *Setting {
	return &Setting{Name: name, Forms: []string{form}, forms: []compiledForm{parseForm(form)}, header: true}
}
