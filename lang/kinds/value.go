package kinds

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"

	"hame/lang/quantity"
	"hame/lang/syntax"
)

// typed matches one value against one type of its slot.
func (m *Matcher) typed(s *slot, t *slotType, v *syntax.Value) bool {
	switch {
	case t.shape != nil:
		return t.shape(m)
	case t.dim == quantity.None && t.as.Type != "count":
		return m.wordLike(s, t, v)
	default:
		return m.number(s, t, v)
	}
}

var ipCode = regexp.MustCompile(`^IP[0-6X]K?[0-9X]K?$`)

// wordLike matches names, texts, dates and the words of the tables.
func (m *Matcher) wordLike(s *slot, t *slotType, v *syntax.Value) bool {
	ok, rule := v.Kind == syntax.Word, "text/syntax"
	var known func() []string // the words that it may have been
	switch t.as.Type {
	case "text":
		ok = v.Kind == syntax.Text
	case "date":
		ok = v.Kind == syntax.Date && IsDay(v.Text)
	case "colour":
		rule, ok, known = "value/range", IsColour(v.Text), Colours
	case "cover":
		rule, ok, known = "value/range", ok && IsCover(v.Text), Covers
	case "insulation":
		rule, ok, known = "value/range", ok && IsInsulation(v.Text), Insulations
	case "ip":
		rule, ok = "value/range", ok && ipCode.MatchString(v.Text)
	}
	if ok {
		return m.take(Arg{As: t.as, Word: v.Text, Span: v.Span}, 1)
	}
	hint := ""
	if known != nil {
		hint = DidYouMean(v.Text, known())
	}
	return m.fail(rule, "`%s` wants %s, not `%s`%s", m.setting.Name, s.expects(), shown(v), hint)
}

// number matches quantities, ranges and counts.
func (m *Matcher) number(s *slot, t *slotType, v *syntax.Value) bool {
	ranged := v.Kind == syntax.Range
	if v.Kind != syntax.Number && !ranged || ranged && !t.ranged {
		return m.fail("text/syntax", "%s, not `%s`", m.wants(s.expects()), shown(v))
	}
	lo, ok := m.quantity(s, t, v, v.Lo)
	if !ok {
		return false
	}
	a := Arg{As: t.as, Word: v.Text, Lo: lo, Span: v.Span}
	if ranged { // a single gauge or temperature is a range of its own
		hi, ok := m.quantity(s, t, v, *v.Hi)
		if !ok {
			return false
		}
		if hi.SI < lo.SI {
			return m.fail("value/range", "the range `%s` runs downwards", v.Text)
		}
		a.high = &hi
	}
	return m.take(a, 1)
}

// quantity checks the unit of a number and how great it is.
func (m *Matcher) quantity(s *slot, t *slotType, v *syntax.Value, q quantity.Quantity) (quantity.Quantity, bool) {
	if t.bareMM && q.Dim == quantity.None {
		q = quantity.Quantity{Text: q.Text, Unit: "mm", Dim: quantity.Length, SI: q.SI / 1000}
	}
	return q, m.unit(s, t, v, q) && m.inRange(t, q)
}

func (m *Matcher) unit(s *slot, t *slotType, v *syntax.Value, q quantity.Quantity) bool {
	if t.as.Type == "count" && (q.Dim != quantity.None || q.SI != math.Trunc(q.SI)) {
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
func (m *Matcher) noUnit(s *slot, t *slotType, v *syntax.Value) bool {
	switch next := m.next(); {
	case t.ranged && (next == "to" || next == "-"):
		return m.fail("unit/wrong", "a range is written with two points: %s", m.wants(s.expects()))
	case next != "":
		return m.fail("unit/wrong", "`%s %s` has no unit that is known: %s%s", v.Text, next, m.wants(s.expects()), DidYouMean(next, quantity.Units(t.dim)))
	}
	return m.fail("unit/wrong", "`%s` has no unit: %s", v.Text, m.wants(s.expects()))
}

// wants says what is expected: a setting is named, a header's part is not.
func (m *Matcher) wants(what string) string {
	if m.setting.header {
		return "expected " + what
	}
	return "`" + m.setting.Name + "` wants " + what
}

func (m *Matcher) next() string {
	if m.at+1 < len(m.values) && m.values[m.at+1].Kind == syntax.Word {
		return m.values[m.at+1].Text
	}
	return ""
}

func (m *Matcher) inRange(t *slotType, q quantity.Quantity) bool {
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
	case t.dim == quantity.Area && !KnownGauge(q):
		return m.fail("value/range", "no wire is made as `%s`: %s", q, NearGauges(q))
	}
	return true
}

var studWord = regexp.MustCompile(`^(M(3|4|5|6|8|10|12|14|16)|no8|no10|taper)$`)

var studInch = map[string]bool{"1/4": true, "5/16": true, "3/8": true, "7/16": true, "1/2": true}

// size matches a stud's size.
func (m *Matcher) size() bool {
	v := m.peek()
	text, ok := studSize(v)
	if !ok {
		return m.fail("value/range", "`%s` wants a stud size (M3 to M16, no8, no10, 1/4 in to 1/2 in, taper), not `%s`", m.setting.Name, shown(v))
	}
	return m.take(Arg{As: m.current.types[0].as, Word: text, Span: v.Span}, 1)
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
func (m *Matcher) hardware() bool {
	v := m.peek()
	word, values, ok := hardwareAt(m.values[m.at:])
	if rest := m.values[m.at:]; !ok && len(rest) > 1 && v.Text == "ring" && rest[1].Kind != syntax.Comma {
		m.at++ // its size is the trouble
		return m.fail("value/range", "no ring is made for a stud `%s`: the sizes are M3 to M16, no8, no10, 1/4 in to 1/2 in", shown(&rest[1]))
	}
	if !ok {
		return m.fail("value/range", "`%s` wants a terminal (ring M8, tab 6.3 female, bullet 4 male, pin, socket, ferrule, butt, bare or cap), not `%s`", m.setting.Name, shown(v))
	}
	last := m.values[m.at+values-1]
	return m.take(Arg{As: m.current.types[0].as, Word: word, Span: v.Join(last.Span)}, values)
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
		return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(q.SI*1000, 'f', 2, 64), "0"), ".")
	}
	return q.Text
}

func shown(v *syntax.Value) string {
	if v.Kind == syntax.Text {
		return `"` + v.Text + `"`
	}
	return v.Text
}
