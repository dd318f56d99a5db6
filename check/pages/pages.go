// Package pages makes the reference pages of the rules from the rules
// themselves. The files beside this one are its output: a test fails where
// they are stale and names the command that writes them anew.
package pages

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"hame/check/rules"
)

// Name is the file name of a rule's page: "wire-undersized.md".
func Name(rule string) string { return strings.ReplaceAll(rule, "/", "-") + ".md" }

// Page is a rule's page in Markdown.
func Page(r *rules.Rule) string {
	var b strings.Builder
	fmt.Fprintf(&b, "# %s\n\n%s · since %s\n\n%s.\n", r.Name, r.Severity, r.Since, sentence(r.Summary))
	section(&b, "Why it matters", r.Why)
	section(&b, "What must be declared", r.Needs)
	section(&b, "Limits", limits(r))
	section(&b, "Broken", example(r.Bad, r.BadWith))
	section(&b, "Put right", example(r.Good, r.GoodWith))
	section(&b, "Related", related(r))
	if r.Safety() {
		section(&b, "Where it cannot be judged", "The check fails, unless `--allow-open` is given: this is a rule of safety.")
	}
	return b.String()
}

// Index is the table of all rules in Markdown.
func Index() string {
	var b strings.Builder
	b.WriteString("# The rules\n\nMade from the rules themselves; `hame rules NAME` prints the same. Before any of it: " +
		"disconnect the battery, and check against the machine's maker, the local codes and licensed practice. hame advises; it certifies nothing.\n\n" +
		"| rule | gravest | broken when |\n| --- | --- | --- |\n")
	for _, r := range rules.All() {
		fmt.Fprintf(&b, "| [%s](%s) | %s | %s |\n", r.Name, Name(r.Name), r.Severity, cell(r.Summary))
	}
	return b.String()
}

func section(b *strings.Builder, heading, text string) {
	if text = strings.TrimSpace(text); text != "" {
		fmt.Fprintf(b, "\n## %s\n\n%s\n", heading, text)
	}
}

func sentence(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}

func limits(r *rules.Rule) string {
	if len(r.Limits) == 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString("| practice | limit | document | clause | mark |\n| --- | --- | --- | --- | --- |\n")
	for _, l := range r.Limits {
		practice := l.Practice
		if practice == "" {
			practice = "all"
		}
		fmt.Fprintf(&b, "| %s | %s | %s | %s | %s |\n", practice, cell(l.Text), cell(l.Document), cell(l.Clause), cell(l.Mark))
	}
	return b.String()
}

// cell keeps a text from breaking out of its cell.
func cell(s string) string {
	return strings.NewReplacer("|", "\\|", "\n", " ").Replace(s)
}

func example(text string, with map[string]string) string {
	var b strings.Builder
	fmt.Fprintf(&b, "```hame\n%s```\n", text)
	for _, name := range slices.Sorted(maps.Keys(with)) {
		fmt.Fprintf(&b, "\n`%s`:\n\n```hame\n%s```\n", name, with[name])
	}
	return b.String()
}

func related(r *rules.Rule) string {
	var links []string
	for _, name := range r.Related {
		links = append(links, fmt.Sprintf("[%s](%s)", name, Name(name)))
	}
	return strings.Join(links, ", ")
}
