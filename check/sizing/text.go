package sizing

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"hame/check/report"
	"hame/check/wording"
	"hame/lang/finding"
)

// columns is how wide a result is printed.
const columns = 100

// WriteText writes a result for a person: a wire to a line, with what decided
// its size, and below it what speaks against the next smaller one.
func WriteText(to io.Writer, r *Result) error {
	p := &printer{out: bufio.NewWriter(to)}
	h := r.Run.Harness
	p.wrapped("", 4, fmt.Sprintf("harness %s, practice %s; sizes in %s", wording.Named(h.Name), h.Practice, r.System))
	if len(r.Wires) == 0 {
		p.line("no wire is `auto`; --wire NAME sizes one afresh")
		return p.out.Flush()
	}
	p.line("")
	p.table(r.Wires)
	p.line("")
	p.tail(r)
	return p.out.Flush() // which keeps the first error
}

type printer struct{ out *bufio.Writer }

func (p *printer) line(format string, args ...any) {
	text := strings.TrimRight(report.Plain(fmt.Sprintf(format, args...)), " ")
	_, _ = p.out.WriteString(text + "\n") // the writer keeps its error
}

// table writes the wires in columns.
func (p *printer) table(list []Wire) {
	name, length, size := len("wire"), len("length"), len("gauge")
	for _, w := range list {
		name, length, size = max(name, len(w.Name)), max(length, len(w.length())), max(size, len(w.gauge()))
	}
	indent := name + length + size + 6
	p.line("%-*s  %*s  %*s  %s", name, "wire", length, "length", size, "gauge", "what decided")
	for _, w := range list {
		head := fmt.Sprintf("%-*s  %*s  %*s  ", name, w.Name, length, w.length(), size, w.gauge())
		p.wrapped(head, indent, w.words())
		if w.Smaller != nil {
			p.wrapped(strings.Repeat(" ", indent), indent, w.Smaller.words())
		}
	}
}

func (s *Smaller) words() string {
	does := "is too thin"
	if s.Finding.Severity == finding.Advice {
		does = "is advised against"
	}
	return fmt.Sprintf("%s %s: %s [%s]", s.Size, does, s.Says, s.Finding.Rule)
}

func (w *Wire) length() string {
	if w.LengthM == 0 {
		return "?"
	}
	return amount(&w.LengthM, "m")
}

func (w *Wire) gauge() string {
	if !w.Sized {
		return "none"
	}
	return w.Size.String()
}

func (w *Wire) words() string {
	if w.Sized {
		return w.Decides
	}
	text := w.Reason + " [" + w.Rule + "]"
	if w.Rule == "" {
		text = w.Reason
	}
	if w.Helps != "" {
		text += "; what would help: " + w.Helps
	}
	return text
}

// wrapped writes a text behind a head, its further lines indented.
func (p *printer) wrapped(head string, indent int, text string) {
	at := head
	room := max(columns-indent, 30)
	line := ""
	for _, word := range strings.Fields(text) {
		if line != "" && len(line)+1+len(word) > room {
			p.line("%s%s", at, line)
			at, line = strings.Repeat(" ", indent), ""
		}
		if line != "" {
			line += " "
		}
		line += word
	}
	p.line("%s%s", at, line)
}

// tail is what the sizes do not answer for.
func (p *printer) tail(r *Result) {
	sized := len(r.Wires) - r.Unsized()
	for _, f := range r.Open {
		if sized == 0 {
			break // the wires have said it
		}
		p.wrapped("not judged: ", 4, f.Message+" ["+f.Rule+"]")
	}
	if r.Ended {
		p.wrapped("", 4, "the work was cut short: a size may be more than is needed")
	}
	p.wrapped("", 4, fmt.Sprintf("%d of %d wires sized; the harness was checked %d times; %s",
		sized, len(r.Wires), r.Checks, found(r.Run.Findings)))
	p.wrapped("", 4, "hame advises, it certifies nothing: what the file does not say, these sizes do not know")
}

// found counts what the check finds with the sizes in the text.
func found(list []finding.Finding) string {
	counts := map[finding.Severity]int{}
	for _, f := range list {
		if f.Allowed == nil {
			counts[f.Severity]++
		}
	}
	var words []string
	for _, s := range []finding.Severity{finding.Error, finding.Warning, finding.Advice, finding.Open} {
		if n := counts[s]; n > 0 {
			words = append(words, fmt.Sprintf("%d %s", n, plural(s, n)))
		}
	}
	if len(words) == 0 {
		return "with what is sized it finds nothing"
	}
	return "with what is sized it finds " + strings.Join(words, ", ")
}

func plural(s finding.Severity, n int) string {
	if n == 1 || s == finding.Advice || s == finding.Open {
		return s.String()
	}
	return s.String() + "s"
}
