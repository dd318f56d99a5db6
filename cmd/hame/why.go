package main

import (
	"errors"
	"fmt"
	"strings"

	"hame/check"
	"hame/check/note"
	"hame/check/report"
	"hame/lang/finding"
	"hame/lang/source"
)

// whyVerb is hame why.
type whyVerb struct {
	Name      string `arg:"" help:"A wire, load, protective device, panel way, switch, relay or supply."`
	Path      string `arg:"" optional:"" help:"The harness file, its folder, or - for standard input."`
	Mode      string `placeholder:"MODE" help:"The mode that the way is followed in."`
	Format    string `enum:"text,json" default:"text" help:"text or json."`
	StdinName string `name:"stdin-name" default:"stdin.hame" placeholder:"PATH" help:"The name that standard input goes by."`
}

// Run prints the calculation note of a name.
func (v *whyVerb) Run(s *session) error {
	v.Name, v.Mode = onOneLine(v.Name), onOneLine(v.Mode)
	run, err := v.harness(s)
	if err != nil {
		return err
	}
	n, err := note.For(run, v.Name, v.Mode)
	if err != nil {
		return err
	}
	if err := v.write(s, n); err != nil {
		return fmt.Errorf("the note cannot be written: %w", err)
	}
	v.warn(s, run)
	return nil
}

// onOneLine keeps what was typed from parting a message. No name has a line's
// end in it.
func onOneLine(word string) string { return strings.ReplaceAll(word, "\n", `\n`) }

func (v *whyVerb) write(s *session, n *note.Note) error {
	if v.Format == "json" {
		return note.WriteJSON(s.out, check.Version, n)
	}
	return note.WriteText(s.out, n)
}

// harness checks the one harness that the path means.
func (v *whyVerb) harness(s *session) (*check.Run, error) {
	inputs, err := v.inputs()
	if err != nil {
		return nil, err
	}
	var found []*check.Run
	var names []string
	for _, in := range inputs {
		text, err := in.read(s.in)
		if err != nil {
			return nil, err
		}
		if run := check.File(source.New(in.name, text), check.Options{Read: in.library}); run.Harness != nil {
			found, names = append(found, run), append(names, report.Plain(in.name))
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return nil, fmt.Errorf("no harness in %s, only parts; name the file of a harness", report.Plain(inputs[0].name))
	}
	return nil, fmt.Errorf("there are %d harnesses; name one: hame why %s %s\nharnesses: %s", len(found), v.Name, names[0], strings.Join(names, ", "))
}

// inputs are the files that the path means; without one, those of the current
// folder itself.
func (v *whyVerb) inputs() ([]input, error) {
	if v.Path != "" {
		return gather([]string{v.Path}, v.StdinName)
	}
	all, err := gather([]string{"."}, v.StdinName)
	if err != nil {
		return nil, fmt.Errorf("%w: hame why %s FILE", err, v.Name)
	}
	var here []input
	for _, in := range all {
		if !strings.Contains(in.name, "/") {
			here = append(here, in)
		}
	}
	if len(here) == 0 {
		return nil, errors.New("no .hame file in this folder itself; name one: hame why " + v.Name + " FILE")
	}
	return here, nil
}

// warn says on standard error that a harness has errors, because a note stands
// on what could be read and bound.
func (v *whyVerb) warn(s *session, run *check.Run) {
	wrong := 0
	for _, f := range run.Findings {
		if f.Severity == finding.Error && f.Allowed == nil {
			wrong++
		}
	}
	if wrong == 0 {
		return
	}
	what := "1 error"
	if wrong > 1 {
		what = fmt.Sprintf("%d errors", wrong)
	}
	_, _ = fmt.Fprintf(s.err, "hame: the harness has %s: hame check %s\n", what, report.Plain(run.Files[0].Name))
}
