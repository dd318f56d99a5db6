package readings

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"strings"

	"hame/check/report"
)

// WriteText writes a report for a terminal.
func WriteText(to io.Writer, harness string, r *Report) error {
	w := &writer{Writer: bufio.NewWriter(to), r: r, items: map[string]Item{}}
	for _, i := range r.Items {
		w.items[i.Line.ID] = i
	}
	w.line("Readings of %s: %s", harness, r.verdict())
	for n, f := range r.Findings {
		w.finding(n+1, f)
	}
	w.byThemselves()
	w.group("Out, and no single fault of the model explains it: measure again, then along its way", r.Lost)
	w.unreadable()
	w.listed("Not judged, for facts are missing that the figure hangs on", Unjudged)
	w.listed("Not measured", Blank)
	w.remarks()
	w.line("")
	w.line("%s", r.tally())
	w.line("A pattern points, it proves nothing: look at the suspect, mend it, measure again. hame advises; it certifies nothing.")
	return w.Flush()
}

type writer struct {
	*bufio.Writer
	r     *Report
	items map[string]Item
}

// line writes a line; whatever may come from a file is made plain.
func (w *writer) line(format string, args ...any) {
	for i, a := range args {
		if text, ok := a.(string); ok {
			args[i] = report.Plain(text)
		}
	}
	_, _ = fmt.Fprintf(w, format+"\n", args...) // Flush keeps the first error
}

func (r *Report) verdict() string {
	switch counts := r.Counts(); {
	case counts[Drifted] > 0:
		return "something is out"
	case r.Proved():
		return "all within their bands"
	case counts[Within] == 0:
		return "nothing was measured that can be judged"
	}
	return "nothing is out, and not all was measured"
}

func (w *writer) finding(n int, f Finding) {
	w.line("")
	w.line("%d. %s", n, f.Suspects[0].Words())
	for _, s := range f.Suspects[1:] {
		w.line("   or %s", s.Words())
	}
	if len(f.Suspects) > 1 {
		w.apart(f)
	}
	for _, id := range f.Explains {
		w.reading(id)
	}
}

// apart says what would tell the suspects from each other.
func (w *writer) apart(f Finding) {
	if len(f.Measure) == 0 {
		w.line("   These cannot be told apart by what the plan measures: measure across each by itself.")
		return
	}
	w.line("   These cannot be told apart without measuring:")
	for _, id := range f.Measure {
		l := w.items[id].Line
		in := ""
		if l.Mode != "" {
			in = " in " + l.Mode
		}
		w.line("     %s: %s to %s%s", id, l.From, l.To, in)
	}
}

func (w *writer) reading(id string) {
	i := w.items[id]
	books := ""
	if i.Line.Limit > 0 && i.SI > i.Line.Limit {
		books = fmt.Sprintf("; above the books' %s", figureOf(i.Line, i.Line.Limit))
	}
	w.line("     %s reads %s, not %s%s", id, figureOf(i.Line, i.SI), bandOf(i.Line), books)
}

// byThemselves tells what points to something with no pattern.
func (w *writer) byThemselves() {
	first := true
	for _, i := range w.r.Items {
		if i.State != Drifted || i.Why == "" {
			continue
		}
		if first {
			w.line("")
			w.line("By itself")
		}
		first = false
		w.line("     %s", i.Why)
		w.reading(i.Line.ID)
	}
}

func (w *writer) group(head string, ids []string) {
	if len(ids) == 0 {
		return
	}
	w.line("")
	w.line("%s", head)
	for _, id := range ids {
		w.reading(id)
	}
}

func (w *writer) unreadable() {
	first := true
	for _, i := range w.r.Items {
		if i.State != Unreadable {
			continue
		}
		if first {
			w.line("")
			w.line("Not readable")
		}
		first = false
		w.line("     line %d, %s: %s", i.Row, i.Line.ID, i.Why)
	}
}

// listed names the lines of a state, spare ones left out where they are blank.
func (w *writer) listed(head string, state State) {
	var ids, needs []string
	for _, i := range w.r.Items {
		if i.State != state || state == Blank && i.Line.Spare {
			continue
		}
		ids = append(ids, i.Line.ID)
		for _, n := range i.Line.Needs {
			if state == Unjudged && !slices.Contains(needs, n) {
				needs = append(needs, n)
			}
		}
	}
	if len(ids) == 0 {
		return
	}
	const most = 12
	more := ""
	if len(ids) > most {
		more = fmt.Sprintf(" and %d more", len(ids)-most)
		ids = ids[:most]
	}
	w.line("")
	w.line("%s", head)
	w.line("     %s%s", strings.Join(ids, ", "), more)
	if len(needs) > 0 {
		w.line("     missing: %s", strings.Join(needs, ", "))
	}
}

func (w *writer) remarks() {
	if len(w.r.Remarks) == 0 {
		return
	}
	w.line("")
	w.line("The form")
	for _, text := range w.r.Remarks {
		w.line("     %s", text)
	}
}

// tally counts the lines of each state.
func (r *Report) tally() string {
	counts := r.Counts()
	var parts []string
	sum := 0
	for _, s := range []State{Within, Drifted, Unjudged, Unreadable, Blank} {
		sum += counts[s]
		if counts[s] > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", counts[s], s))
		}
	}
	return fmt.Sprintf("%d lines: %s", sum, strings.Join(parts, ", "))
}
