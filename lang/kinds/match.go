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
	args := Args{Setting: s, Key: in.Key, Block: in.Block, Span: in.Span}
	if s.Flag() {
		if len(in.Values) > 0 {
			return args, &Mismatch{in.Values[0].Span, "text/syntax", fmt.Sprintf("`%s` takes no value", s.Name)}
		}
		return args, nil
	}
	m := &matcher{in: in, setting: s}
	for _, f := range s.forms {
		m.at, m.out = 0, nil
		if m.steps(f.steps) && m.end() {
			args.List = m.out
			return args, nil
		}
	}
	return args, m.failure
}

// matcher walks one setting's values along one form's steps.
type matcher struct {
	in      *syntax.Setting
	setting *Setting
	at      int
	out     []Arg
	current *slot
	failure *Mismatch // of the furthest try
	reached int
}

// fail notes why a value does not fit, unless another try went further. It
// answers false, for the callers' comfort.
func (m *matcher) fail(rule, format string, args ...any) bool {
	if m.failure != nil && (m.reached > m.at || m.reached == m.at && graver(m.failure.Rule, rule)) {
		return false
	}
	span := source.Span{Start: m.in.End, End: m.in.End}
	if m.in.Block != nil {
		span = m.in.Key.Span
	}
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

func (m *matcher) peek() *syntax.Value {
	if m.at < len(m.in.Values) {
		return &m.in.Values[m.at]
	}
	return nil
}

func (m *matcher) end() bool {
	v := m.peek()
	if v == nil {
		return true
	}
	return m.fail("text/syntax", "`%s` is too much for `%s`: it is written `%s`", v.Text, m.setting.Name, m.setting.Usage())
}

func (m *matcher) steps(steps []step) bool {
	for _, st := range steps {
		switch {
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

func (m *matcher) word(want string) bool {
	if v := m.peek(); v != nil && v.Kind == syntax.Word && v.Text == want {
		m.at++
		return true
	}
	return false
}

func (m *matcher) slot(s *slot) bool {
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
func (m *matcher) one(s *slot) bool {
	m.current = s
	v := m.peek()
	if v == nil {
		return m.fail("text/syntax", "`%s` wants %s", m.setting.Name, s.expects())
	}
	if v.Kind == syntax.Word && slices.Contains(s.words, v.Text) {
		return m.take(Arg{Slot: s.name, Word: v.Text, Span: v.Span}, 1)
	}
	for _, name := range s.types {
		if m.typed(s, name, types[name], v) {
			return true
		}
	}
	if len(s.types) == 0 {
		return m.unknownWord(s, v)
	}
	return false
}

func (m *matcher) unknownWord(s *slot, v *syntax.Value) bool {
	if v.Kind != syntax.Word {
		return m.fail("text/syntax", "`%s` wants %s, not `%s`", m.setting.Name, s.expects(), v.Text)
	}
	return m.fail("value/range", "`%s` is not known to `%s`: expected %s%s", v.Text, m.setting.Name, s.expects(), DidYouMean(v.Text, s.words))
}

func (m *matcher) take(a Arg, values int) bool {
	if m.out == nil {
		m.out = make([]Arg, 0, len(m.in.Values))
	}
	m.out = append(m.out, a)
	m.at += values
	return true
}

// Slotted makes a row for a value that stands in a declaration's header, so
// that it is checked and spoken of as the settings are.
func Slotted(name, form string) *Setting {
	return &Setting{Name: name, Forms: []string{form}, forms: []compiledForm{parseForm(form)}, header: true}
}
