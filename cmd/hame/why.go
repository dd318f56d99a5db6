package main

import (
	"fmt"
	"strings"

	"hame/check"
	"hame/check/note"
	"hame/check/report"
	"hame/lang/finding"
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
	run, err := one{verb: "hame why " + v.Name, path: v.Path, stdinName: v.StdinName}.harness(s)
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
