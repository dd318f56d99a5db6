package main

import (
	"fmt"
	"slices"
	"strings"

	"hame/check"
	"hame/check/report"
	"hame/lang/finding"
	"hame/lang/source"
	"hame/lang/syntax"
)

// one is how a verb that works on one harness was asked for it.
type one struct {
	verb      string // the command up to the path, for messages: hame why w15
	path      string // of the harness file or its folder; "" takes this folder itself
	stdinName string
	today     string // the day that allowances are judged by; "" lets none expire
}

// harness checks the one harness that the path means.
func (o one) harness(s *session) (*check.Run, error) {
	inputs, err := o.inputs()
	if err != nil {
		return nil, err
	}
	var found []*check.Run
	var names []string
	unread := ""
	for _, in := range inputs {
		text, err := in.read(s.in)
		if err != nil {
			return nil, err
		}
		run := check.File(source.New(in.name, text), check.Options{Read: in.library, Today: o.today})
		switch {
		case run.Harness != nil:
			found, names = append(found, run), append(names, report.Plain(in.name))
		case unread == "" && slices.ContainsFunc(run.Findings, func(f finding.Finding) bool { return f.Rule == syntax.Rule }):
			unread = report.Plain(in.name)
		}
	}
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) == 0 && unread != "":
		return nil, fmt.Errorf("no harness can be read in %[1]s; what is wrong there is told by: hame check %[1]s", unread)
	case len(found) == 0:
		return nil, fmt.Errorf("no harness in %s, only parts; name the file of a harness", report.Plain(inputs[0].name))
	}
	return nil, fmt.Errorf("there are %d harnesses; name one: %s %s\nharnesses: %s", len(found), o.verb, names[0], strings.Join(names, ", "))
}

// inputs are the files that the path means; without one, those of the current
// folder itself.
func (o one) inputs() ([]input, error) {
	if o.path != "" {
		return gather([]string{o.path}, o.stdinName)
	}
	all, err := gather([]string{"."}, o.stdinName)
	if err != nil {
		return nil, fmt.Errorf("%w: %s FILE", err, o.verb)
	}
	var here []input
	for _, in := range all {
		if !strings.Contains(in.name, "/") {
			here = append(here, in)
		}
	}
	if len(here) == 0 {
		return nil, fmt.Errorf("no .hame file in this folder itself; name one: %s FILE", o.verb)
	}
	return here, nil
}
