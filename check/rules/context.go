package rules

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hame/check/facts"
	"hame/check/figures"
	"hame/check/states"
	"hame/lang/beside"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/tables"
)

// Context is what a rule judges with.
type Context struct {
	*facts.Facts
	*shared
	rule    *Rule
	found   []finding.Finding
	waiting []*waiting
	kept    any                         // what the rule's Watch keeps for its Check
	limits  map[limitsOf][]tables.Limit // of drops, as they were asked for
}

// Session judges one harness by every rule.
type Session struct {
	contexts []*Context
	begin    []*Context // in the order in which they are begun, the long ones first
}

// NewSession begins with all rules that judge.
func NewSession() *Session {
	s := &Session{}
	var others []*Context
	for _, r := range All() {
		if r.Check == nil && r.Watch == nil {
			continue
		}
		c := &Context{rule: r}
		s.contexts = append(s.contexts, c)
		if r.Long {
			s.begin = append(s.begin, c)
		} else {
			others = append(others, c)
		}
	}
	s.begin = append(s.begin, others...)
	return s
}

// Observe gives the rules their facts before anything is solved, and answers
// with what must see every position.
func (s *Session) Observe(f *facts.Facts) func(*states.Point) {
	var watchers, always []func(*states.Point)
	shared := newShared(f)
	for _, c := range s.contexts {
		c.Facts, c.shared = f, shared
		switch {
		case c.rule.Watch == nil:
		case c.rule.Shorts:
			always = append(always, c.rule.Watch(c))
		default:
			watchers = append(watchers, c.rule.Watch(c))
		}
	}
	return func(p *states.Point) {
		list := always
		if !f.Shorted(p) {
			list = append(list[:len(list):len(list)], watchers...)
		}
		for _, w := range list {
			w(p)
		}
	}
}

// Judge runs every rule, once everything is solved: rules only read the facts and
// write to their own Context, so as many run at once as there are processors.
// Findings come in the order of the rules. Stop, which may be nil, is asked
// before each rule, by several goroutines at once; where it says so the rest is
// left out.
func (s *Session) Judge(stop func() bool) []finding.Finding {
	beside.Each(len(s.begin), 1, func() func(int) {
		return func(k int) {
			if stop == nil || !stop() {
				s.begin[k].judge()
			}
		}
	})
	var all []finding.Finding
	for _, c := range s.contexts {
		all = append(all, c.found...)
	}
	return all
}

func (c *Context) judge() {
	if c.rule.Check != nil {
		c.rule.Check(c)
	}
	c.flush()
}

// Report adds a finding of the rule that is running, at its severity unless
// the finding has one of its own.
func (c *Context) Report(f finding.Finding) {
	f.Rule = c.rule.Name
	if f.Severity == finding.Open && len(f.Needs) == 0 {
		f.Severity = c.rule.Severity
	}
	c.found = append(c.found, f)
}

// waiting is one fact that is not declared, and the subjects that wait for it.
type waiting struct {
	need     finding.Need
	at       finding.Place
	subjects []string
}

// Wait says that a subject cannot be judged until a fact is declared. One fact
// gives one open finding, however many wait for it. Of one that is declared, but
// with a mistake, that is said already.
func (c *Context) Wait(subject string, need finding.Need, at finding.Place) {
	if c.Harness.Mistaken(need.Name, need.Setting) {
		return
	}
	for _, w := range c.waiting {
		if w.need == need {
			if !slices.Contains(w.subjects, subject) {
				w.subjects = append(w.subjects, subject)
			}
			return
		}
	}
	c.waiting = append(c.waiting, &waiting{need, at, []string{subject}})
}

func (c *Context) flush() {
	for _, w := range c.waiting {
		c.Report(finding.Finding{
			Severity: finding.Open, At: w.at, Subject: w.need.Name, Needs: []finding.Need{w.need},
			Message: fmt.Sprintf("%s cannot be judged until `%s` of `%s` is declared", enumerate(w.subjects), w.need.Setting, w.need.Name),
			Figures: c.howToSay(w.need),
		})
	}
}

// howToSay is how a missing fact is written, from the table of kinds.
func (c *Context) howToSay(need finding.Need) []string {
	if need.Setting == "gauge" && c.isAuto(need.Name) {
		return []string{"it says `auto`: `hame size` chooses a gauge, and so does an editor"}
	}
	_, row := c.Harness.Whereabouts(need.Name)
	if row == nil {
		return nil
	}
	s, ok := row.Setting(need.Setting)
	if !ok {
		return nil
	}
	return []string{"expected: " + s.Usage(), need.Setting + ": " + s.Doc}
}

func (c *Context) isAuto(name string) bool {
	return slices.ContainsFunc(c.Harness.Wires, func(w *harness.Wire) bool { return w.Auto && w.Name == name })
}

// enumerate lists a few names and counts the rest.
func enumerate(names []string) string {
	const most = 4
	var quoted []string
	for _, n := range names[:min(len(names), most)] {
		quoted = append(quoted, "`"+n+"`")
	}
	if len(names) > most {
		return fmt.Sprintf("%s and %d more", strings.Join(quoted, ", "), len(names)-most)
	}
	if len(quoted) > 1 {
		return strings.Join(quoted[:len(quoted)-1], ", ") + " and " + quoted[len(quoted)-1]
	}
	return quoted[0]
}

// WaitForAmpacity says which facts a wire's ampacity lacks: all of them, so
// that one walk round the machine is enough.
func (c *Context) WaitForAmpacity(w *harness.Wire) {
	if w.AreaMM2 == 0 {
		c.Wait(w.Name, finding.Need{Name: w.Name, Setting: "gauge"}, w.Origin.Place())
	}
	if _, insulated := w.Cable(); !insulated {
		c.Wait(w.Name, finding.Need{Name: c.Harness.Name, Setting: "wire"}, c.Harness.Origin.Place())
	}
	if len(w.Zones()) == 0 {
		c.waitForPlace(w)
	}
	c.waitForAmbient(w)
}

// waitForPlace: where a place is said, but not known, no other fact is missing.
func (c *Context) waitForPlace(w *harness.Wire) {
	if w.Misplaced() {
		return
	}
	for _, e := range w.Ends {
		if e.Terminal != nil && e.Terminal.Device.At == nil {
			d := e.Terminal.Device
			c.Wait(w.Name, finding.Need{Name: d.Name, Setting: "at"}, d.Origin.Place())
			return
		}
	}
	c.Wait(w.Name, finding.Need{Name: w.Name, Setting: "via"}, w.Origin.Place())
}

func (c *Context) waitForAmbient(w *harness.Wire) {
	for _, z := range w.Zones() {
		if !z.Known {
			c.Wait(w.Name, finding.Need{Name: z.Name, Setting: "ambient"}, z.Origin.Place())
		}
	}
}

// where is a position in words: "key on, engine running, s_front closed, cold
// and full".
func where(p *figures.Position) string {
	if p == nil {
		return "in every position"
	}
	parts := []string{"key " + p.Key, "engine " + p.Engine}
	switch {
	case len(p.Closed) > 6:
		parts = append(parts, fmt.Sprintf("%d switches closed", len(p.Closed)))
	case len(p.Closed) > 0:
		parts = append(parts, strings.Join(p.Closed, ", ")+" closed")
	}
	text := strings.Join(append(parts, p.Corner), ", ")
	if p.Bound {
		text += " (a bound; no position that was solved comes nearer)"
	}
	return text
}

// source is a limit's document, clause and mark: "33 CFR 183.455 (b)(1)".
func source(s tables.Source) string {
	if s.Mark == tables.Memory {
		return s.String() + " (from memory)"
	}
	return s.String()
}

// amps, and the others below, are figures with their unit as messages print
// them: three digits, no exponent.
func amps(v float64) string { return number(v) + " A" }

func millimetres(m float64) string { return number(m*1000) + " mm" }

func number(v float64) string {
	switch a := math.Abs(v); {
	case a >= 100 || a == math.Trunc(a):
		return fmt.Sprintf("%.0f", v)
	case a >= 10:
		return fmt.Sprintf("%.1f", v)
	case a >= 1:
		return fmt.Sprintf("%.2f", v)
	}
	return fmt.Sprintf("%.3g", v)
}
