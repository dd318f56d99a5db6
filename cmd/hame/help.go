package main

import (
	"embed"
	"fmt"
	"path"
)

// helpVerb is hame help.
type helpVerb struct {
	Verb string `arg:"" optional:"" help:"The verb to explain."`
}

//go:embed help/*.txt
var helpTexts embed.FS

// helpPages are the verbs in the order that help tells them. Each has its
// page in help/VERB.txt.
var helpPages = []struct{ verb, line string }{
	{"check", "check harness files and folders of them"},
	{"why", "print the calculation note of one name"},
	{"size", "choose the gauges of wires that have none yet"},
	{"sheet", "print the sheets of a harness: cut list, ends, panel, tests and more"},
	{"readings", "take a filled-in test sheet back, and say what drifted"},
	{"draw", "draw the wiring diagram or the layout of a harness"},
	{"fmt", "set harness files in their one look"},
	{"lsp", "serve an editor over standard input and output"},
	{"rules", "list the rules, or explain one"},
	{"kinds", "list what a harness is written with, or explain one kind"},
	{"version", "print the version"},
	{"help", "explain the command, or one verb"},
}

// Run prints the overview, or a verb's page.
func (v helpVerb) Run(s *session) error {
	if v.Verb == "" {
		return s.overview()
	}
	for _, p := range helpPages {
		if p.verb == v.Verb {
			return s.helpPage(p.verb)
		}
	}
	return noVerb(v.Verb)
}

// overview is what it is, the verbs, and the rest of the page.
func (s *session) overview() error {
	if err := s.helpPage("intro"); err != nil {
		return err
	}
	for _, p := range helpPages {
		if _, err := fmt.Fprintf(s.out, "    hame %-8s  %s\n", p.verb, p.line); err != nil {
			return err
		}
	}
	return s.helpPage("outro")
}

func (s *session) helpPage(name string) error {
	text, err := helpTexts.ReadFile(path.Join("help", name+".txt"))
	if err != nil {
		return err
	}
	_, err = s.out.Write(text)
	return err
}
