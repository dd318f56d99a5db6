package harness

import (
	"fmt"
	"slices"
	"strings"

	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/tables"
)

// special checks what the table's ranges cannot say: a setting whose values
// hang on another's.
func (r *reader) special(d *Device) {
	switch {
	case d.Is(kinds.Protection, "fuse"):
		for _, s := range []string{"rating", "fitted"} {
			if args, ok := d.Args(s); ok {
				r.made(d, args, "")
			}
		}
	case d.Is(kinds.Protection, "panel"):
		for _, args := range d.Given("way") {
			if args.Word("device") == "fuse" {
				r.made(d, args, "")
			}
		}
	case d.Is(kinds.Join, "connector"):
		r.cavities(d)
	case d.Is(kinds.Switch, "relay"):
		r.apart(d, "releases", "pulls")
	case d.Is(kinds.Load):
		r.apart(d, "least", "most")
		r.eitherDraws(d)
	}
}

// sayOnce is say for what a part may have said wrong: all devices of it would
// say it again.
func (r *reader) sayOnce(file *source.File, span source.Span, rule, subject, format string, args ...any) *finding.Finding {
	at := finding.Place{File: file, Span: span}
	if r.quiet() || slices.ContainsFunc(r.out, func(f finding.Finding) bool { return f.At == at && f.Rule == rule }) {
		return &finding.Finding{}
	}
	return r.say(file, span, rule, subject, format, args...)
}

// apart says when the lesser of two voltages is not below the greater one. It
// is said of the one that stands second.
func (r *reader) apart(d *Device, lesser, greater string) {
	low, ok := d.SI(lesser)
	high, known := d.SI(greater)
	if !ok || !known || low < high || !d.Has(lesser) || !d.Has(greater) || r.options.ExistingOnly {
		return
	}
	first, _ := d.Args(lesser)
	second, _ := d.Args(greater)
	if first.Key.Start > second.Key.Start {
		first, second = second, first
	}
	a, _ := second.Get("")
	value, _ := first.Get("")
	f := r.sayOnce(second.File, a.Span, "value/range", d.Name, "`%s` must be above `%s`: `%s %s` stands against `%s %s`",
		greater, lesser, second.Setting.Name, a.Lo, first.Setting.Name, value.Lo)
	f.Related = []finding.Related{{Place: finding.Place{File: first.File, Span: first.Span}, Message: "against this"}}
	r.mistake(d.Name, lesser)
	r.mistake(d.Name, greater)
}

// eitherDraws says when a load draws in all and by its inputs too.
func (r *reader) eitherDraws(d *Device) {
	draws, whole := d.Args("draws")
	inputs := d.Given("input")
	if !whole || len(inputs) == 0 || unread(draws) || r.options.ExistingOnly {
		return
	}
	f := r.sayOnce(draws.File, draws.Key.Span, "setting/repeated", d.Name, "`%s` has `input`s, each with its own draw: `draws` says it a second time", d.Name)
	f.Related = []finding.Related{{Place: finding.Place{File: inputs[0].File, Span: inputs[0].Span}, Message: "an input"}}
}

// made says when a fuse's rating is not made in its family.
func (r *reader) made(d *Device, args kinds.Args, slot string) {
	a, ok := args.Get(slot)
	made, known := tables.FuseMade(d.Word("family"), a.Lo.SI)
	if !ok || !known || made || r.options.ExistingOnly {
		return
	}
	family, _ := tables.Fuse(d.Word("family"))
	var list []string
	for _, a := range family.RatingsA {
		list = append(list, fmt.Sprintf("%g", a))
	}
	f := r.sayOnce(args.File, a.Span, "value/range", d.Name, "no %s fuse is made as `%s`", family.Name, a.Lo)
	f.Figures = append(f.Figures, "it is made as: "+strings.Join(list, ", ")+" A ("+family.Source.String()+")")
}

// cavities says when a way's number is above the number of ways.
func (r *reader) cavities(d *Device) {
	ways, ok := d.SI("ways")
	for _, args := range d.Given("way") {
		n, given := args.SI("way")
		if ok && given && n > ways {
			r.sayOnce(args.File, args.List[0].Span, "value/range", d.Name, "`way %g` is above the %g ways of `%s`", n, ways, d.Name)
		}
	}
}

// wayTerminals is the terminal list in words, shortened where it is long.
func terminalList(d *Device) string {
	var names []string
	for _, t := range d.Terminals {
		names = append(names, t.FullName())
	}
	if len(names) > 16 {
		names = slices.Concat(names[:15], []string{"… " + names[len(names)-1]})
	}
	return strings.Join(names, ", ")
}
