package main

import (
	"fmt"
	"io"
	"path/filepath"
	"time"

	"hame/check"
	"hame/check/sizing"
	"hame/lang/source"
)

// sizeVerb is hame size.
type sizeVerb struct {
	Path      string   `arg:"" optional:"" help:"The harness file, its folder, or - for standard input."`
	Wire      []string `placeholder:"NAME" sep:"none" help:"A wire to size afresh whatever its gauge; may be given again."`
	Write     bool     `help:"Put the gauges into the file; of standard input, print the text in the table's stead."`
	Format    string   `enum:"text,json" default:"text" help:"text or json."`
	StdinName string   `name:"stdin-name" default:"stdin.hame" placeholder:"PATH" help:"The name that standard input goes by."`
}

// Run sizes the wires of one harness.
func (v *sizeVerb) Run(s *session) error {
	for i := range v.Wire {
		v.Wire[i] = onOneLine(v.Wire[i])
	}
	today := time.Now().Format(time.DateOnly)
	run, err := one{verb: "hame size", path: v.Path, stdinName: v.StdinName, today: today}.harness(s)
	if err != nil {
		return err
	}
	in, file, text, err := v.again(run.Files[0])
	if err != nil {
		return err
	}
	r, err := sizing.Of(source.New(in.name, text), sizing.Options{
		Options: check.Options{Read: in.library, Today: today}, Names: v.Wire,
	})
	if err != nil {
		return err
	}
	if err := v.put(s, in, file, r); err != nil {
		return err
	}
	if r.Unsized() > 0 {
		return status(statusFindings)
	}
	return nil
}

// again is the harness's file as it is to be written back: looked at before it
// is read, so that no other program's change is lost.
func (v *sizeVerb) again(f *source.File) (in input, file target, text string, err error) {
	in, text = input{name: f.Name, path: filepath.FromSlash(f.Name)}, f.Text
	switch {
	case v.Path == "-":
		in.path = "-"
	case v.Write:
		if file, err = targetOf(in.path); err == nil {
			text, err = in.read(nil)
		}
	}
	return in, file, text, err
}

// put writes the file, where that is asked for, and then what came out.
func (v *sizeVerb) put(s *session, in input, file target, r *sizing.Result) error {
	switch {
	case v.Write && in.path == "-":
		if _, err := io.WriteString(s.out, r.Text()); err != nil {
			return fmt.Errorf("the text cannot be written: %w", err)
		}
		return nil
	case v.Write && len(r.Edits()) > 0:
		if err := file.replace(r.Text()); err != nil {
			return err
		}
	}
	write := func() error { return sizing.WriteText(s.out, r) }
	if v.Format == "json" {
		write = func() error { return sizing.WriteJSON(s.out, check.Version, r) }
	}
	if err := write(); err != nil {
		return fmt.Errorf("the sizes cannot be written: %w", err)
	}
	return nil
}
