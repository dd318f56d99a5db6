package kinds

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"time"

	"hame/lang/quantity"
	"hame/lang/syntax"
)

// typed matches one value against one type of its slot.
func (m *matcher) typed(s *slot, name string, t *valueType, v *syntax.Value) bool {
	switch {
	case t.shape != nil:
		return t.shape(m)
	case t.noun != "" && t.dim == quantity.None && name != "count":
		return m.wordLike(s, name, t, v)
	default:
		return m.number(s, name, t, v)
	}
}

var ipCode = regexp.MustCompile(`^IP[0-6X]K?[0-9X]K?$`)

// wordLike matches names, texts, dates and the words of the tables.
func (m *matcher) wordLike(s *slot, name string, t *valueType, v *syntax.Value) bool {
	ok, rule, hint := v.Kind == syntax.Word, "text/syntax", ""
	switch name {
	case "text":
		ok = v.Kind == syntax.Text
	case "date":
		ok = v.Kind == syntax.Date && IsDay(v.Text)
	case "colour":
		rule, ok = "value/range", IsColour(v.Text)
		hint = DidYouMean(v.Text, Colours())
	case "cover":
		rule, ok = "value/range", ok && IsCover(v.Text)
		hint = DidYouMean(v.Text, Covers())
	case "insulation":
		rule, ok = "value/range", ok && IsInsulation(v.Text)
		hint = DidYouMean(v.Text, Insulations())
	case "ip":
		rule, ok = "value/range", ok && ipCode.MatchString(v.Text)
	}
	if !ok {
		return m.fail(rule, "`%s` wants %s, not `%s`%s", m.setting.Name, s.expects(), shown(v), hint)
	}
	return m.take(Arg{Slot: s.name, Type: name, Word: v.Text, Span: v.Span}, 1)
}

// number matches quantities, ranges and counts.
func (m *matcher) number(s *slot, name string, t *valueType, v *syntax.Value) bool {
	ranged := v.Kind == syntax.Range
	if v.Kind != syntax.Number && !ranged {
		return m.fail("text/syntax", "%s, not `%s`", m.wants(s.expects()), shown(v))
	}
	if ranged != t.ranged && !(t.ranged && v.Kind == syntax.Number && m.lone(t)) {
		return m.fail("text/syntax", "%s, not `%s`", m.wants(s.expects()), shown(v))
	}
	lo, hi := v.Lo, v.Lo
	if ranged {
		hi = *v.Hi
	}
	for _, q := range []*quantity.Quantity{&lo, &hi} {
		if !m.unit(s, name, t, v, q) || !m.inRange(t, q) {
			return false
		}
	}
	if hi.SI < lo.SI {
		return m.fail("value/range", "the range `%s` runs downwards", v.Text)
	}
	return m.take(Arg{Slot: s.name, Type: name, Word: v.Text, Lo: lo, Hi: hi, Span: v.Span}, 1)
}

// lone: a single gauge or temperature is a range of its own.
func (m *matcher) lone(t *valueType) bool { return t.ranged }

// unit checks a number's unit; a bare number counts as millimetres where the
// type says so.
func (m *matcher) unit(s *slot, name string, t *valueType, v *syntax.Value, q *quantity.Quantity) bool {
	if t.bareMM && q.Dim == quantity.None {
		*q = quantity.Quantity{Text: q.Text, Unit: "mm", Dim: quantity.Length, SI: q.SI / 1000}
	}
	if name == "count" && (q.Dim != quantity.None || q.SI != math.Trunc(q.SI)) {
		return m.fail("unit/wrong", "`%s` wants a whole number, not `%s`", m.setting.Name, v.Text)
	}
	if q.Dim == t.dim {
		return true
	}
	if q.Dim == quantity.None {
		return m.noUnit(s, t, v)
	}
	return m.fail("unit/wrong", "`%s` is %s: %s", v.Text, q.Dim, m.wants(s.expects()))
}

// noUnit tells a number without a unit from one with a word behind it that may
// have been meant as its unit.
func (m *matcher) noUnit(s *slot, t *valueType, v *syntax.Value) bool {
	switch next := m.next(); {
	case t.ranged && (next == "to" || next == "-"):
		return m.fail("unit/wrong", "a range is written with two points: %s", m.wants(s.expects()))
	case next != "":
		return m.fail("unit/wrong", "`%s %s` has no unit that is known: %s%s", v.Text, next, m.wants(s.expects()), DidYouMean(next, quantity.Units(t.dim)))
	}
	return m.fail("unit/wrong", "`%s` has no unit: %s", v.Text, m.wants(s.expects()))
}

// wants says what is expected: a setting is named, a header's part is not.
func (m *matcher) wants(what string) string {
	if m.setting.header {
		return "expected " + what
	}
	return "`" + m.setting.Name + "` wants " + what
}

func (m *matcher) next() string {
	if m.at+1 < len(m.in.Values) && m.in.Values[m.at+1].Kind == syntax.Word {
		return m.in.Values[m.at+1].Text
	}
	return ""
}

func (m *matcher) inRange(t *valueType, q *quantity.Quantity) bool {
	switch {
	case q.SI < 0 && !t.signed:
		return m.fail("value/range", "`%s` is below zero: %s", q, m.wants(t.bounded()))
	case q.SI == 0 && t.positive:
		return m.fail("value/range", "`%s` is zero: %s", q, m.wants(t.bounded()))
	case math.Abs(q.SI) > t.max && t.most != "":
		return m.fail("value/range", "`%s` is too much: %s", q, m.wants(t.most))
	case math.Abs(q.SI) > t.max:
		return m.fail("value/range", "`%s` is out of all proportion: %s", q, m.wants(t.noun))
	case t.dim == quantity.Temperature && q.SI < -273.15:
		return m.fail("value/range", "`%s` is below absolute zero", q)
	case t.dim == quantity.Area && !KnownGauge(*q):
		return m.fail("value/range", "no wire is made as `%s`: %s", q, NearGauges(*q))
	}
	return true
}

var studWord = regexp.MustCompile(`^(M(3|4|5|6|8|10|12|14|16)|no8|no10|taper)$`)

var studInch = map[string]bool{"1/4": true, "5/16": true, "3/8": true, "7/16": true, "1/2": true}

// size matches a stud's size.
func (m *matcher) size() bool {
	v := m.peek()
	text, ok := studSize(v)
	if !ok {
		return m.fail("value/range", "`%s` wants a stud size (M3 to M16, no8, no10, 1/4 in to 1/2 in, taper), not `%s`", m.setting.Name, shown(v))
	}
	return m.take(Arg{Slot: m.current.name, Type: "size", Word: text, Span: v.Span}, 1)
}

func studSize(v *syntax.Value) (string, bool) {
	switch {
	case v == nil:
		return "", false
	case v.Kind == syntax.Word && studWord.MatchString(v.Text):
		return v.Text, true
	case v.Kind == syntax.Number && v.Lo.Unit == "in" && studInch[v.Lo.Text]:
		return v.Lo.String(), true
	}
	return "", false
}

// hardware matches what is crimped on a wire's end: one to three values.
func (m *matcher) hardware() bool {
	v := m.peek()
	word, values, ok := hardwareAt(m.in.Values[m.at:])
	if rest := m.in.Values[m.at:]; !ok && len(rest) > 1 && v.Text == "ring" && rest[1].Kind != syntax.Comma {
		m.at++ // its size is the trouble
		return m.fail("value/range", "no ring is made for a stud `%s`: the sizes are M3 to M16, no8, no10, 1/4 in to 1/2 in", shown(&rest[1]))
	}
	if !ok {
		return m.fail("value/range", "`%s` wants a terminal (ring M8, tab 6.3 female, bullet 4 male, pin, socket, ferrule, butt, bare or cap), not `%s`", m.setting.Name, shown(v))
	}
	last := m.in.Values[m.at+values-1]
	return m.take(Arg{Slot: m.current.name, Type: "hardware", Word: word, Span: v.Join(last.Span)}, values)
}

var plainHardware = map[string]bool{"pin": true, "socket": true, "ferrule": true, "butt": true, "bare": true, "cap": true}

func hardwareAt(v []syntax.Value) (string, int, bool) {
	switch {
	case len(v) == 0 || v[0].Kind != syntax.Word:
		return "", 0, false
	case plainHardware[v[0].Text]:
		return v[0].Text, 1, true
	case v[0].Text == "ring" && len(v) > 1:
		size, ok := studSize(&v[1])
		return "ring " + size, 2, ok
	case (v[0].Text == "tab" || v[0].Text == "bullet") && len(v) > 2 && v[1].Kind == syntax.Number:
		gender := v[2].Text
		size := fmt.Sprintf("%s %s %s", v[0].Text, millimetres(v[1].Lo), gender)
		return size, 3, (gender == "female" || gender == "male") && lengthLike(v[1].Lo)
	}
	return "", 0, false
}

// IsDay reports whether a date is a day of the calendar: the text has the form
// of one already.
func IsDay(text string) bool {
	_, err := time.Parse(time.DateOnly, text)
	return err == nil
}

func lengthLike(q quantity.Quantity) bool {
	return (q.Dim == quantity.None || q.Dim == quantity.Length) && q.SI > 0
}

// millimetres writes a bare or metric length as bare millimetres: 6.3.
func millimetres(q quantity.Quantity) string {
	if q.Dim == quantity.Length {
		return strings.TrimSuffix(strings.TrimRight(fmt.Sprintf("%.2f", q.SI*1000), "0"), ".")
	}
	return q.Text
}

func shown(v *syntax.Value) string {
	if v.Kind == syntax.Text {
		return `"` + v.Text + `"`
	}
	return v.Text
}
