package main

import (
	"bufio"
	"fmt"
	"io"
	"strings"

	"hame/lang/kinds"
	"hame/lang/parts"
)

// kindsVerb is hame kinds.
type kindsVerb struct {
	Names []string `arg:"" optional:"" name:"kind" help:"A family, a family and a kind, or a form such as bundle."`
}

// Run lists what the language knows, from its one table.
func (v kindsVerb) Run(s *session) error {
	out := bufio.NewWriter(s.out)
	switch len(v.Names) {
	case 0:
		allKinds(out)
	default:
		if err := kindPages(out, v.Names); err != nil {
			return err
		}
	}
	return out.Flush() // which keeps the first error
}

func allKinds(w io.Writer) {
	for _, f := range append([]kinds.Family{""}, kinds.Families...) {
		heading := string(f)
		if f == "" {
			heading = "forms that take a block"
		}
		_, _ = fmt.Fprintln(w, heading)
		for _, k := range kinds.Of(f) {
			_, _ = fmt.Fprintf(w, "    %-12s %s\n", k.Name, k.Doc)
		}
		_, _ = fmt.Fprintln(w)
	}
	for _, l := range []struct {
		what string
		list []string
	}{
		{"insulations", kinds.Insulations()}, {"covers", kinds.Covers()}, {"colours", kinds.Colours()}, {"libraries of parts", parts.Names()},
	} {
		_, _ = fmt.Fprintf(w, "%s\n%s\n\n", l.what, indented(wrap(strings.Join(l.list, ", "))))
	}
	_, _ = fmt.Fprintln(w, "hame kinds switch relay explains one.")
}

// kindPages explains a family's kinds, one kind, or a form.
func kindPages(w io.Writer, names []string) error {
	found := kindsNamed(names)
	if len(found) == 0 {
		return fmt.Errorf("there is no kind `%s`%s", strings.Join(names, " "), kinds.DidYouMean(names[len(names)-1], kindWords()))
	}
	for i, k := range found {
		if i > 0 {
			_, _ = fmt.Fprintln(w)
		}
		kindPage(w, k)
	}
	return nil
}

func kindsNamed(names []string) []*kinds.Kind {
	var found []*kinds.Kind
	for _, k := range kinds.All() {
		whole := k.Title() == strings.Join(names, " ")
		if whole || len(names) == 1 && (string(k.Family) == names[0] || k.Name == names[0]) {
			found = append(found, k)
		}
	}
	return found
}

func kindWords() []string {
	var words []string
	for _, k := range kinds.All() {
		words = append(words, k.Name)
		if k.Family != "" {
			words = append(words, string(k.Family))
		}
	}
	return words
}

func kindPage(w io.Writer, k *kinds.Kind) {
	_, _ = fmt.Fprintf(w, "%s: %s\n", k.Title(), k.Doc)
	if k.TerminalDoc != "" {
		_, _ = fmt.Fprintf(w, "    terminals: %s\n", k.TerminalDoc)
	}
	for _, s := range k.Settings {
		_, _ = fmt.Fprintf(w, "    %s\n        %s\n", s.Usage()+standing(s), s.Doc)
	}
}

// standing says whether a setting is required, and its default.
func standing(s *kinds.Setting) string {
	switch {
	case s.Required:
		return "    (required)"
	case s.Default.Text != "":
		return "    [" + s.Default.Text + "]"
	case s.Default.Factor == 1:
		return "    [" + s.Default.Of + "]"
	case s.Default.Factor != 0:
		return fmt.Sprintf("    [%.3g x %s]", s.Default.Factor, s.Default.Of)
	case s.Default.Words != "":
		return "    [" + s.Default.Words + "]"
	}
	return ""
}
