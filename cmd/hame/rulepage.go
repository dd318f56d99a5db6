package main

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"hame/check/rules"
)

// pageColumns is how wide a rule's page is.
const pageColumns = 78

// rulePage explains one rule.
func rulePage(w io.Writer, r *rules.Rule) error {
	out := bufio.NewWriter(w)
	_, _ = fmt.Fprintf(out, "%s (%s, since %s)\n\n%s\n", r.Name, r.Severity, r.Since, indented(wrapped(r.Summary)))
	section(out, "Why", wrapped(r.Why))
	section(out, "Needs", wrapped(r.Needs))
	section(out, "Limits", limitLines(r.Limits))
	section(out, "Bad", r.Bad)
	section(out, "Good", r.Good)
	section(out, "Related", strings.Join(r.Related, "\n"))
	if r.Safety() {
		section(out, "Safety", wrapped("Where this cannot be judged for want of a fact, the check fails, unless --allow-open is given."))
	}
	return out.Flush() // which keeps the first error
}

func section(w io.Writer, heading, text string) {
	if text = strings.Trim(text, "\n"); text != "" {
		_, _ = fmt.Fprintf(w, "\n%s\n\n%s\n", heading, indented(text))
	}
}

func indented(text string) string {
	var b strings.Builder
	for line := range strings.SplitSeq(text, "\n") {
		b.WriteString(strings.TrimRight("    "+line, " \t") + "\n")
	}
	return strings.TrimSuffix(b.String(), "\n")
}

// wrapped breaks paragraphs between words.
func wrapped(text string) string {
	var paragraphs []string
	for p := range strings.SplitSeq(strings.TrimSpace(text), "\n\n") {
		paragraphs = append(paragraphs, wrap(p))
	}
	return strings.Join(paragraphs, "\n\n")
}

func wrap(text string) string { return wrapTo(text, pageColumns-4) }

// wrapTo sets words in lines no wider than most, unless one word is.
func wrapTo(text string, most int) string {
	var b strings.Builder
	column := 0
	for _, word := range strings.Fields(text) {
		n := len([]rune(word))
		switch {
		case column == 0:
		case column+1+n > most:
			b.WriteByte('\n')
			column = 0
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += n
	}
	return b.String()
}

// limitLines is a line for each limit: the practice, the limit, and where it
// stands.
func limitLines(list []rules.Limit) string {
	var lines []string
	for _, l := range list {
		practice := l.Practice
		if practice == "" {
			practice = "all"
		}
		origin := strings.TrimSpace(l.Document + " " + l.Clause)
		lines = append(lines, fmt.Sprintf("%-7s  %s", practice, l.Text), "         "+strings.TrimPrefix(origin+", "+l.Mark, ", "))
	}
	return strings.Join(lines, "\n")
}
