package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "bundle/fill",
	Severity: finding.Error,
	Summary:  "a bundle thicker than the bore of its cover or grommet",
	Why: "It goes in at the bench, with soap and force, and never on the machine. What is forced stays tight: the grommet " +
		"cuts, the split loom gapes, and no wire can be added or drawn.",
	Needs: "The bore that the cover or grommet was bought in. Where none is said one is taken to be chosen that fits. The gauge and " +
		"insulation of every wire in the bundle. The wires' outside diameters are those of their cable, greatest where a standard " +
		"gives a range; a grommet is judged without the loom, which may end at it.",
	Limits: []Limit{
		{"", "the bore; up to 20 like wires in the least circle round them", "geometry", "circle packing", "seen"},
		{"", "else 1.2 √(Σd²)", "common practice", "mixed bundle", "common practice"},
	},
	Since:   "0.1.0",
	Related: []string{"bundle/bare", "wire/hot"},
	Bad:     run("", "cover loom_pa 4.5 mm; clamp every 400 mm", "  # want bundle/fill", ""),
	Good:    run("", "cover loom_pa 8.5 mm; clamp every 400 mm", "", ""),
	Check:   checkFill,
})

func checkFill(c *Context) {
	for _, b := range c.Harness.Bundles {
		list := bored(b)
		if len(list) == 0 || len(b.Members) == 0 || !c.thicknessKnown(b) {
			continue
		}
		tight := list[:0]
		for _, o := range list {
			if b.DiameterMM > o.mm*(1+1e-9) {
				tight = append(tight, o)
			}
		}
		if len(tight) > 0 {
			c.fill(b, tight)
		}
	}
}

// opening is something that a bundle goes through, with its bore.
type opening struct {
	what string
	mm   float64
	arg  kinds.Arg
}

// bored lists what a bundle goes through that has a bore.
func bored(b *harness.Bundle) []opening {
	var list []opening
	for _, o := range []struct{ setting, slot, what string }{{"cover", "bore", "cover"}, {"through", "grommet", "grommet"}} {
		args, _ := b.Args(o.setting)
		if m, ok := args.SI(o.slot); ok {
			arg, _ := args.Get(o.slot)
			list = append(list, opening{o.what, m * 1000, arg})
		}
	}
	return list
}

// thicknessKnown waits for the gauge or insulation of a wire that lacks it.
func (c *Context) thicknessKnown(b *harness.Bundle) bool {
	for _, w := range b.Members {
		if _, ok := w.OutsideDiameterMM(); !ok {
			c.waitForCable(b.Name, w)
			return false
		}
	}
	return true
}

// waitForCable says which of a wire's gauge and insulation a subject lacks.
func (c *Context) waitForCable(subject string, w *harness.Wire) {
	if w.AreaMM2 == 0 {
		c.Wait(subject, finding.Need{Name: w.Name, Setting: "gauge"}, w.Origin.Place())
		return
	}
	c.Wait(subject, finding.Need{Name: c.Harness.Name, Setting: "wire"}, c.Harness.Origin.Place())
}

func (c *Context) fill(b *harness.Bundle, tight []opening) {
	var ods []float64
	for _, w := range b.Members {
		od, _ := w.OutsideDiameterMM()
		ods = append(ods, od)
	}
	diameter, from := tables.BundleDiameterMM(ods)
	diameterM, boreM := diameter/1000, tight[0].mm/1000
	f := finding.Finding{
		At: b.Origin.Place(), Subject: b.Name,
		Message:  fmt.Sprintf("the %d wires of `%s` are %s thick, and the bore of its %s is %s", len(ods), b.Name, millimetres(diameterM), tight[0].what, millimetres(boreM)),
		Measured: &diameterM, Limit: &boreM, Unit: "m", Source: source(from),
	}
	for _, o := range tight[1:] {
		f.Figures = append(f.Figures, "nor do they go through its "+o.what+" of "+millimetres(o.mm/1000))
	}
	fits, _, ok := tables.BoreFor(diameter)
	if !ok {
		f.Figures = append(f.Figures, "no usual bore takes them: split the bundle")
		c.Report(f)
		return
	}
	size := millimetres(fits / 1000)
	f.Figures = append(f.Figures, "the least usual bore that takes them is "+size)
	f.Fix = &finding.Fix{Title: "take a bore of " + size}
	for _, o := range tight {
		f.Fix.Edits = append(f.Fix.Edits, finding.Edit{Place: finding.Place{File: b.Origin.File, Span: o.arg.Span}, Text: size})
	}
	c.Report(f)
}
