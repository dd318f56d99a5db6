package report

import (
	"strings"

	"hame/lang/finding"
)

// longestEdit is how much of an edit's text is told to a person.
const longestEdit = 60

// fixTexts tells the smallest change that puts it right, an edit a line.
func fixTexts(f finding.Finding) []string {
	if f.Fix == nil {
		return nil
	}
	lines := []string{f.Fix.Title}
	for _, e := range f.Fix.Edits {
		if !e.IsZero() {
			lines = append(lines, located(e.Place)+": "+editText(e))
		}
	}
	return lines
}

func editText(e finding.Edit) string {
	old := e.File.Slice(e.Span)
	switch {
	case old == "":
		return "add " + quoted(e.Text)
	case e.Text == "":
		return "take out " + quoted(old)
	}
	return "write " + quoted(e.Text) + " for " + quoted(old)
}

// quoted is a text in backquotes, its first line, not too long.
func quoted(text string) string {
	text = strings.Trim(text, "\r\n")
	first, _, more := strings.Cut(text, "\n")
	shown, _ := show(strings.TrimSpace(first), longestEdit)
	if more || len(shown) < len(strings.TrimSpace(first)) {
		shown += " …"
	}
	return "`" + shown + "`"
}
