package core

import (
	"errors"
	"fmt"
	"time"

	"hame/check"
	"hame/check/sizing"
	"hame/lang/harness"
	"hame/lang/source"
)

// Filling is an offer to choose the gauges of wires that are `auto`.
type Filling struct {
	Title string
	Wires []string
}

// Fillings lists what is offered where a span touches wires that are `auto`:
// each of them by itself, and all of the harness.
func Fillings(f *File, within source.Span, p *Pass) []Filling {
	if p.Run.Harness == nil || p.Root.Path != f.Path {
		return nil
	}
	var list []Filling
	var all []string
	for _, w := range p.Run.Harness.Wires {
		if !w.Auto {
			continue
		}
		all = append(all, w.Name)
		if meets(w, within) {
			list = append(list, Filling{"Fill the auto gauge of `" + w.Name + "`", []string{w.Name}})
		}
	}
	if len(list) > 0 && len(all) > 1 {
		list = append(list, Filling{fmt.Sprintf("Fill all %d auto gauges", len(all)), all})
	}
	return list
}

func meets(w *harness.Wire, s source.Span) bool {
	return w.Origin.Decl.Start <= s.End && s.Start <= w.Origin.Decl.End
}

// Sizing is the sizes of one harness's wires.
type Sizing struct {
	root   *File
	result *sizing.Result
}

// Size sizes the wires of a harness that are `auto`. Stop is asked between
// checks; where it answers true, the work ends with ErrStale.
func (v *View) Size(root *File, stop func() bool) (*Sizing, error) {
	p := &Pass{Root: root, read: map[string]*File{}}
	o := sizing.Options{Options: check.Options{Read: p.reader(v), Today: time.Now().Format(time.DateOnly), Stop: stop}}
	r, err := sizing.Of(source.New(base(root.Path), root.Text), o)
	if err == nil && stop() {
		err = ErrStale
	}
	return &Sizing{root, r}, err
}

// Fill is the change that puts sizes in. The error says why there is none.
func (s *Sizing) Fill(f Filling) (Action, error) {
	a := Action{Title: f.Title}
	why := errors.New("the wire is no longer `auto`")
	asked := map[string]bool{}
	for _, name := range f.Wires {
		asked[name] = true
	}
	first := true
	for _, w := range s.result.Wires {
		switch {
		case !asked[w.Name]:
		case w.Sized:
			e := w.Edit(s.result.File)
			a.Edits = append(a.Edits, Edit{s.root, e.Span, e.Text})
		case first:
			first, why = false, fmt.Errorf("`%s` cannot be sized: %s", w.Name, w.Reason)
		}
	}
	if len(a.Edits) == 0 {
		return a, why
	}
	return a, nil
}
