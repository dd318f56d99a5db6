// Package finding has the one type in which the lexer, the parser, the binder
// and every rule say what they found. Writers for people and programs live
// where the command is; this package knows no output form.
package finding

import (
	"cmp"
	"slices"

	"hame/lang/source"
)

// Severity says how much a finding matters.
type Severity uint8

// The severities, the gravest last.
const (
	Open    Severity = iota // cannot be judged until a named fact is declared
	Advice                  // worth doing
	Warning                 // against practice, or too little margin
	Error                   // unsafe, or cannot work
)

var severityNames = [...]string{"open", "advice", "warning", "error"}

func (s Severity) String() string { return severityNames[s] }

// ParseSeverity reads the name of a severity.
func ParseSeverity(name string) (Severity, bool) {
	i := slices.Index(severityNames[:], name)
	return Severity(max(i, 0)), i >= 0
}

// Place is a span in a file.
type Place struct {
	File *source.File
	source.Span
}

// IsZero reports whether the place is nowhere.
func (p Place) IsZero() bool { return p.File == nil }

// Related is another place that matters, and why.
type Related struct {
	Place
	Message string
}

// Edit replaces the text of a place.
type Edit struct {
	Place
	Text string
}

// Fix is the smallest change that would put it right.
type Fix struct {
	Title string
	Edits []Edit
}

// Need is one fact that must be declared before a rule can judge.
type Need struct{ Name, Setting string }

// Allowed says that the author accepts a finding.
type Allowed struct{ Because, Until string }

// Finding is one thing that was found. Measured and Limit are in Unit; nil
// where the rule has no figures.
type Finding struct {
	Rule     string
	Severity Severity
	Message  string
	At       Place
	Subject  string   // the name of the declared thing it is about
	Mode     string   // the mode or switch position, where one decided
	Figures  []string // the figures that decided, a line each
	Measured *float64
	Limit    *float64
	Unit     string
	Source   string // document and clause that set the limit
	Related  []Related
	Needs    []Need   // of an open finding, or of a missing setting
	Holds    []string // of a missing setting: the rules that wait for it
	Fix      *Fix
	Allowed  *Allowed
}

// Amount is a figure for Measured or Limit.
func Amount(v float64) *float64 { return &v }

// Compare orders findings by file, place, rule, subject and message.
func Compare(a, b Finding) int {
	return cmp.Or(
		cmp.Compare(a.fileName(), b.fileName()),
		cmp.Compare(a.At.Start, b.At.Start),
		cmp.Compare(a.Rule, b.Rule),
		cmp.Compare(a.Subject, b.Subject),
		cmp.Compare(a.Mode, b.Mode),
		cmp.Compare(a.Message, b.Message),
	)
}

func (f Finding) fileName() string {
	if f.At.File == nil {
		return ""
	}
	return f.At.File.Name
}

// Sort puts findings in their one order.
func Sort(list []Finding) { slices.SortStableFunc(list, Compare) }
