package harness

import (
	"fmt"
	"slices"
	"strings"

	"hame/lang/kinds"
	"hame/lang/tables"
)

// special checks what the table's ranges cannot say: a setting whose values
// hang on another's.
func (b *binder) special(d *Device) {
	switch {
	case d.Is(kinds.Protection, "fuse"):
		for _, s := range []string{"rating", "fitted"} {
			if args, ok := d.Args(s); ok {
				b.made(d, args, "")
			}
		}
	case d.Is(kinds.Protection, "panel"):
		for _, args := range d.Given("way") {
			if args.Word("device") == "fuse" {
				b.made(d, args, "")
			}
		}
	case d.Is(kinds.Join, "connector"):
		b.cavities(d)
	}
}

// made says when a fuse's rating is not made in its family.
func (b *binder) made(d *Device, args kinds.Args, slot string) {
	a, ok := args.Get(slot)
	family, known := tables.Fuse(d.Word("family"))
	if !ok || !known || family.Made(a.Lo.SI) || b.options.ExistingOnly {
		return
	}
	var list []string
	for _, r := range family.RatingsA {
		list = append(list, fmt.Sprintf("%g", r))
	}
	f := b.say(d.Origin.File, a.Span, "value/range", d.Name, "no %s fuse is made as `%s`", family.Name, a.Lo)
	f.Figures = append(f.Figures, "it is made as: "+strings.Join(list, ", ")+" A ("+family.Source.String()+")")
}

// cavities says when a way's number is above the number of ways.
func (b *binder) cavities(d *Device) {
	ways, ok := d.SI("ways")
	for _, args := range d.Given("way") {
		n, given := args.SI("way")
		if ok && given && n > ways {
			b.say(d.Origin.File, args.List[0].Span, "value/range", d.Name, "`way %g` is above the %g ways of `%s`", n, ways, d.Name)
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
