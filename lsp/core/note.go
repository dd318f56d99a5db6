package core

import (
	"fmt"
	"math"
	"strings"

	"hame/check/figures"
	"hame/check/rules"
)

// Note is a short text with parts: written once, shown as Markdown or plain.
type Note struct{ parts []part }

type part struct {
	form byte // p a paragraph, h a heading, i an item, c code
	text string
}

func (n *Note) head(format string, args ...any) { n.put('h', format, args...) }
func (n *Note) para(format string, args ...any) { n.put('p', format, args...) }
func (n *Note) item(format string, args ...any) { n.put('i', format, args...) }

func (n *Note) code(text string) { n.parts = append(n.parts, part{'c', strings.Trim(text, "\n")}) }

func (n *Note) put(form byte, format string, args ...any) {
	if text := strings.TrimSpace(fmt.Sprintf(format, args...)); text != "" {
		n.parts = append(n.parts, part{form, text})
	}
}

// Empty reports whether there is nothing to show.
func (n *Note) Empty() bool { return n == nil || len(n.parts) == 0 }

// Plain is the note as plain text.
func (n *Note) Plain() string {
	return n.write(func(p part) string {
		switch p.form {
		case 'i':
			return "- " + strings.ReplaceAll(p.text, "\n", "\n  ")
		case 'c':
			return "    " + strings.ReplaceAll(p.text, "\n", "\n    ")
		}
		return p.text
	})
}

// Markdown is the note as Markdown. Nothing in what a harness says is taken for
// markup.
func (n *Note) Markdown() string {
	return n.write(func(p part) string {
		switch p.form {
		case 'h':
			return "**" + escaped(p.text) + "**"
		case 'i':
			return "- " + strings.ReplaceAll(escaped(p.text), "\n", "\n  ")
		case 'c':
			fence := "```"
			for strings.Contains(p.text, fence) {
				fence += "`"
			}
			return fence + "hame\n" + p.text + "\n" + fence
		}
		return strings.ReplaceAll(escaped(p.text), "\n", "  \n")
	})
}

func (n *Note) write(show func(part) string) string {
	var b strings.Builder
	for i, p := range n.parts {
		switch {
		case i == 0:
		case p.form == 'i' && n.parts[i-1].form == 'i':
			b.WriteString("\n")
		default:
			b.WriteString("\n\n")
		}
		b.WriteString(show(p))
	}
	return b.String()
}

// escaped keeps what stands in backquotes, and takes the meaning from all signs
// of Markdown outside of them.
func escaped(text string) string {
	pieces := strings.Split(text, "`")
	whole := len(pieces)%2 == 1 // every backquote has its mate
	for i := range pieces {
		if i%2 == 0 || !whole {
			pieces[i] = markup.Replace(pieces[i])
		}
	}
	if !whole {
		return strings.Join(pieces, "\\`")
	}
	return strings.Join(pieces, "`")
}

var markup = strings.NewReplacer(
	`\`, `\\`, "*", `\*`, "_", `\_`, "<", "&lt;", "&", "&amp;", "[", `\[`, "]", `\]`, "#", `\#`, "|", `\|`, "~", `\~`, "!", `\!`,
)

// RulePage is a rule's page.
func RulePage(r *rules.Rule) *Note {
	n := &Note{}
	n.head("%s (%s, since %s)", r.Name, r.Severity, r.Since)
	n.para("%s", r.Summary)
	n.para("%s", r.Why)
	if r.Needs != "" {
		n.para("Needs: %s", r.Needs)
	}
	for _, l := range r.Limits {
		n.item("%s", limitLine(l))
	}
	if r.Bad != "" {
		n.para("Bad:")
		n.code(r.Bad)
	}
	if r.Good != "" {
		n.para("Good:")
		n.code(r.Good)
	}
	return n
}

func limitLine(l rules.Limit) string {
	practice := l.Practice
	if practice == "" {
		practice = "all"
	}
	origin := strings.TrimSpace(l.Document + " " + l.Clause)
	return fmt.Sprintf("%s: %s (%s)", practice, l.Text, strings.TrimPrefix(origin+", "+l.Mark, ", "))
}

// amount is a figure with its unit, three digits of it; "not known" of nil.
func amount(v *float64, unit string) string {
	if v == nil {
		return "not known"
	}
	return number(*v) + " " + unit
}

// worst is a worst current. One that is a bound says so: no position carries more,
// but none that was solved as much.
func worst(v *float64, at *figures.Position) string {
	if at != nil && at.Bound {
		return amount(v, "A") + " (bound)"
	}
	return amount(v, "A")
}

func number(v float64) string {
	switch a := math.Abs(v); {
	case math.IsInf(v, 0) || math.IsNaN(v):
		return "no figure"
	case a >= 100 || a == math.Trunc(a):
		return fmt.Sprintf("%.0f", v)
	case a >= 10:
		return fmt.Sprintf("%.1f", v)
	case a >= 1:
		return fmt.Sprintf("%.2f", v)
	}
	return fmt.Sprintf("%.3g", v)
}

// where is a position in words.
func where(p *figures.Position) string {
	if p == nil {
		return ""
	}
	words := []string{"key " + p.Key, "engine " + p.Engine}
	const few = 6
	switch {
	case len(p.Closed) > few:
		words = append(words, fmt.Sprintf("%d switches closed", len(p.Closed)))
	case len(p.Closed) > 0:
		words = append(words, strings.Join(p.Closed, ", ")+" closed")
	}
	if p.Corner != "" {
		words = append(words, p.Corner)
	}
	if p.Bound {
		return strings.Join(words, ", ") + " comes nearest of what was solved"
	}
	return strings.Join(words, ", ")
}

func quoted(names []string) string {
	var list []string
	for _, n := range names {
		list = append(list, "`"+n+"`")
	}
	return strings.Join(list, ", ")
}
