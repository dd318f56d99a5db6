package report

import (
	"fmt"
	"slices"
	"strings"

	"hame/check/figures"
	"hame/lang/finding"
)

// tally is what the last line counts.
type tally struct {
	severity  [finding.Error + 1]int // those that are not allowed
	allowed   int
	unread    int            // mistakes of text and names: what they stand in was not judged
	open      map[string]int // open findings by rule
	uncounted int            // harnesses without figures
	unsaid    int            // harnesses that do not say their system
	practices []string
	harnesses int
	libraries int
	empty     int // files in which nothing is declared
	wires     int
	modes     int
	positions float64
	shorted   int // solved positions with a dead short
	methods   []string
}

func tallyOf(runs []Run) tally {
	t := tally{open: map[string]int{}}
	for _, f := range together(runs) {
		t.count(f)
	}
	for _, r := range runs {
		t.cover(r)
	}
	slices.Sort(t.practices)
	slices.Sort(t.methods)
	t.practices, t.methods = slices.Compact(t.practices), slices.Compact(t.methods)
	return t
}

func (t *tally) count(f finding.Finding) {
	if f.Allowed != nil {
		t.allowed++
		return
	}
	t.severity[f.Severity]++
	switch {
	case f.Severity == finding.Open:
		t.open[f.Rule]++
	case f.Rule == "text/syntax":
		t.unread++
	}
}

func (t *tally) cover(r Run) {
	if r.Harness == nil {
		if strings.TrimSpace(r.root().Text) == "" {
			t.empty++
			return
		}
		t.libraries++
		return
	}
	t.harnesses++
	t.wires += len(r.Harness.Wires)
	t.modes += len(r.Harness.Modes)
	t.practices = append(t.practices, r.Harness.Practice)
	if !r.Harness.SystemSaid {
		t.unsaid++
	}
	if r.Figures == nil {
		t.uncounted++
		return
	}
	t.positions += r.Figures.Coverage.SwitchPositions
	t.shorted += r.Figures.Coverage.Shorted
	switch m := r.Figures.Coverage.Method; m {
	case "":
	case "bound":
		t.methods = append(t.methods, "bounded")
	default:
		t.methods = append(t.methods, m)
	}
}

// summary writes the last line.
func (h human) summary(t tally) {
	h.print(h.found(t), "; ", h.notJudged(t), "; ", plain(t.covered()), "\n")
}

// found counts the findings by severity. A clean run is never called safe.
func (h human) found(t tally) string {
	var parts []string
	for s := finding.Error; s > finding.Open; s-- {
		if n := t.severity[s]; n > 0 {
			parts = append(parts, h.severity[s](plural(n, s.String(), severityPlurals[s])))
		}
	}
	text := strings.Join(parts, ", ")
	if text == "" {
		text = h.good(plain(t.clean()))
	}
	if t.allowed > 0 {
		text += fmt.Sprintf(", %d allowed", t.allowed)
	}
	return text
}

var severityPlurals = [...]string{
	finding.Advice: "advice", finding.Warning: "warnings", finding.Error: "errors",
}

// clean says by whose limits nothing was found. Where something stays open it
// does not say that there is no finding.
func (t tally) clean() string {
	text := "no finding"
	if t.severity[finding.Open] > 0 {
		text = "no error, warning or advice"
	}
	switch len(t.practices) {
	case 0:
		return text
	case 1:
		return text + " under practice " + t.practices[0]
	}
	return text + " under practices " + strings.Join(t.practices, ", ")
}

// notJudged says what stays open, by rule, and what could not be read.
func (h human) notJudged(t tally) string {
	var parts []string
	if n := t.severity[finding.Open]; n > 0 {
		parts = append(parts, h.severity[finding.Open](fmt.Sprintf("%d open", n))+" ("+plain(t.openRules())+")")
	}
	if t.unread > 0 {
		parts = append(parts, plural(t.unread, "unread statement", "unread statements"))
	}
	if t.uncounted > 0 {
		parts = append(parts, "the currents of "+plural(t.uncounted, "harness", "harnesses"))
	}
	if t.shorted > 0 {
		parts = append(parts, "currents in "+plural(t.shorted, "solved position", "solved positions")+" with a dead short")
	}
	if len(parts) == 0 {
		return "not judged: nothing"
	}
	return "not judged: " + strings.Join(parts, ", ")
}

func (t tally) openRules() string {
	var list []string
	for rule, n := range t.open {
		list = append(list, fmt.Sprintf("%s %d", rule, n))
	}
	slices.Sort(list)
	return strings.Join(list, ", ")
}

// covered says what was looked at.
func (t tally) covered() string {
	var parts []string
	if t.harnesses > 0 {
		parts = append(parts, plural(t.harnesses, "harness", "harnesses"))
	}
	if t.libraries > 0 {
		parts = append(parts, plural(t.libraries, "library", "libraries"))
	}
	if t.empty > 0 {
		parts = append(parts, plural(t.empty, "empty file, in which nothing is declared", "empty files, in which nothing is declared"))
	}
	if t.harnesses > 0 {
		parts = append(parts, plural(t.wires, "wire", "wires"), plural(t.modes, "mode", "modes"), t.positionsText())
	}
	if t.unsaid > 0 {
		parts = append(parts, "12 V taken where no `system` is said")
	}
	return strings.Join(parts, ", ")
}

func (t tally) positionsText() string {
	text := "more than 9e15 positions"
	if t.positions < figures.ManyPositions {
		text = plural(int(t.positions), "position", "positions")
	}
	if len(t.methods) > 0 {
		text += " (" + strings.Join(t.methods, ", ") + ")"
	}
	return text
}
