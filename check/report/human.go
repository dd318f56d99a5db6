package report

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"hame/lang/finding"
)

// Human writes for a person: a paragraph for each finding and a line that
// sums up.
func Human(w io.Writer, runs []Run, o Options) error {
	h := human{out: bufio.NewWriter(w), palette: newPalette(o.Colour)}
	for _, f := range together(runs) {
		h.paragraph(f)
	}
	h.summary(tallyOf(runs))
	return h.out.Flush()
}

// Line writes the first line of each finding alone.
func Line(w io.Writer, runs []Run, o Options) error {
	h := human{out: bufio.NewWriter(w), palette: newPalette(o.Colour)}
	for _, f := range together(runs) {
		h.first(f)
	}
	return h.out.Flush()
}

type human struct {
	out *bufio.Writer
	palette
}

// print cannot fail: the writer keeps its first error for Flush.
func (h human) print(parts ...string) {
	for _, p := range parts {
		_, _ = h.out.WriteString(p)
	}
}

// first writes FILE:LINE:COL: SEVERITY: MESSAGE [RULE], the form that
// compilers share (GNU Coding Standards, "Formatting Error Messages").
func (h human) first(f finding.Finding) {
	h.print(h.place(located(f.At)), ": ", h.severity[f.Severity](f.Severity.String()), ": ",
		allowedMark(f)+plain(f.Message), " ", h.quiet("["+plain(f.Rule)+"]"), "\n")
}

// allowedMark stands before the message of a finding that does not count.
func allowedMark(f finding.Finding) string {
	if f.Allowed == nil {
		return ""
	}
	return "(allowed) "
}

func located(p finding.Place) string {
	at := regionOf(p).from
	return fmt.Sprintf("%s:%d:%d", plain(p.File.Name), at.Line, at.Column)
}

func (h human) paragraph(f finding.Finding) {
	h.first(f)
	h.excerpt(f)
	h.row("measured", measuredText(f)...)
	h.row(figuresLabel(f), f.Figures...)
	h.row("source", notEmpty(f.Source)...)
	h.row("see", relatedTexts(f.Related)...)
	h.row("needs", needTexts(f.Needs)...)
	h.row("fix", fixTexts(f)...)
	h.row("allowed", allowedText(f.Allowed)...)
	h.print("\n")
}

// excerpt writes the source line with the span marked. A file without text
// has none.
func (h human) excerpt(f finding.Finding) {
	if f.At.File.Text == "" {
		return
	}
	e := excerptOf(f.At)
	number := fmt.Sprintf("%5d", e.line)
	h.print("  ", h.quiet(number+" |"), strings.TrimRight(" "+e.text, " "), "\n")
	h.print("  ", h.quiet(strings.Repeat(" ", len(number))+" |"), " ", h.mark(f, e.marks), "\n")
}

func (h human) mark(f finding.Finding, marks string) string {
	blank := len(marks) - len(strings.TrimLeft(marks, " "))
	return marks[:blank] + h.severity[f.Severity](marks[blank:])
}

// row writes a label and its lines, one below the other.
func (h human) row(label string, lines ...string) {
	for i, text := range lines {
		if i > 0 {
			label = ""
		}
		h.print("    ", h.label(fmt.Sprintf("%-8s", label)), "  ", plain(text), "\n")
	}
}

// figuresLabel is honest about rules that have no figures and tell what is
// expected instead.
func figuresLabel(f finding.Finding) string {
	if f.Measured == nil && f.Limit == nil {
		return "note"
	}
	return "figures"
}

func notEmpty(text string) []string {
	if text == "" {
		return nil
	}
	return []string{text}
}

// measuredText sets what was measured against what is allowed.
func measuredText(f finding.Finding) []string {
	var parts []string
	unit := strings.TrimRight(" "+f.Unit, " ")
	switch {
	case f.Measured != nil && f.Limit != nil:
		m, l := amounts(*f.Measured, *f.Limit)
		parts = append(parts, m+unit, "allowed "+l+unit)
	case f.Measured != nil:
		parts = append(parts, amount(*f.Measured, 4)+unit)
	case f.Limit != nil:
		parts = append(parts, "not known", "allowed "+amount(*f.Limit, 4)+unit)
	}
	if f.Mode != "" {
		parts = append(parts, "in "+f.Mode)
	}
	return notEmpty(strings.Join(parts, ", "))
}

func relatedTexts(list []finding.Related) []string {
	var lines []string
	for _, r := range list {
		if r.IsZero() {
			lines = append(lines, r.Message)
			continue
		}
		lines = append(lines, located(r.Place)+": "+r.Message)
	}
	return lines
}

func needTexts(list []finding.Need) []string {
	var lines []string
	for _, n := range list {
		lines = append(lines, "`"+n.Setting+"` of `"+n.Name+"`")
	}
	return lines
}

func allowedText(a *finding.Allowed) []string {
	if a == nil {
		return nil
	}
	return []string{becauseText(a)}
}

func becauseText(a *finding.Allowed) string {
	if a.Until == "" {
		return a.Because
	}
	return a.Because + " (until " + a.Until + ")"
}
