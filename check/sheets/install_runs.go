package sheets

import (
	"strings"

	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/harness"
)

// runSteps is what is done along a bundle that new wires run in.
func (w *installWork) runSteps(b *harness.Bundle) []sheet.Step {
	steps := []sheet.Step{w.lay(b), w.clampStep(b)}
	if args, ok := b.Args("through"); ok {
		if step, any := throughStep(args.Word(""), args.Word("grommet")); any {
			steps = append(steps, step)
		}
	} else {
		steps = append(steps, sheet.Step{Words: "See what it passes through: nothing is declared. A grommet in every hole in sheet metal."})
	}
	if args, ok := b.Args("behind"); ok {
		words := "It runs behind a panel: put a guard over it."
		if args.Word("guard") != "" {
			words = "It runs behind a panel: its guard goes on."
		}
		steps = append(steps, sheet.Step{Words: words})
	}
	steps = append(steps, w.clearances(b)...)
	return append(steps, zoneSteps(b)...)
}

// lay says which wires go in and what they are covered with.
func (w *installWork) lay(b *harness.Bundle) sheet.Step {
	fresh := w.fresh(b)
	step := sheet.Step{Words: "Lay " + strings.Join(fresh, ", ") + "."}
	if b.Existing {
		step.Words = "The machine's own run: tie in " + strings.Join(fresh, ", ") + "."
	}
	var parts []string
	if b.DiameterMM > 0 {
		parts = append(parts, "bundle "+wording.To(benchDigits, b.DiameterMM)+" mm over all its wires")
	}
	switch {
	case b.Cover == nil:
		parts = append(parts, "no cover is declared")
	case b.Cover.BoreM > 0:
		parts = append(parts, "cover "+b.Cover.Name+", bore "+lengthMM(b.Cover.BoreM))
	default:
		parts = append(parts, "cover "+b.Cover.Name)
	}
	step.Detail = strings.Join(parts, "; ")
	return step
}

func (w *installWork) clampStep(b *harness.Bundle) sheet.Step {
	limit, limited := w.Facts.Practice.Limit("clamps", "")
	args, said := b.Args("clamp")
	every, known := args.SI("")
	switch {
	case said && known && every > 0:
		step := sheet.Step{Words: "Clamp every " + lengthMM(every) + " at the most"}
		if b.LengthM > 0 {
			step.Words += ": " + count(clampsOn(b.LengthM, every)) + " clamps, one by each end"
		}
		step.Words += "."
		if limited {
			step.Detail = "the practice allows " + sourceWords(limit)
		}
		return step
	case limited:
		return sheet.Step{Words: "Clamps: no spacing is declared. The practice allows " + sourceWords(limit) + "."}
	}
	return sheet.Step{Words: "Clamps: no spacing is declared."}
}

// throughStep is a hole that a bundle passes; false where it passes none.
func throughStep(what, grommet string) (sheet.Step, bool) {
	switch {
	case what == "none":
		return sheet.Step{}, false
	case grommet == "":
		return sheet.Step{Words: "Through a " + what + ": NO GROMMET is declared. Fit one before a wire goes through."}, true
	}
	return sheet.Step{Words: "Through a " + what + ": grommet of " + grommet + " bore, in the hole before a wire goes through."}, true
}

// near are the things that a bundle keeps clear of.
var near = []struct{ word, limit, things string }{
	{"hot", "clear_hot", "exhaust and hot parts"}, {"moving", "clear_moving", "moving parts"}, {"fuel", "clear_fuel", "fuel lines"},
}

func (w *installWork) clearances(b *harness.Bundle) []sheet.Step {
	var steps []sheet.Step
	var others []string
	for _, n := range near {
		limit, ok := w.Facts.Practice.Limit(n.limit, "")
		by, said := clears(b, n.word)
		switch {
		case said:
			step := sheet.Step{Words: "Keep " + lengthMM(by) + " from " + n.things + ", as declared; measure it."}
			if ok {
				step.Detail = "least: " + sourceWords(limit)
			}
			steps = append(steps, step)
		case ok:
			others = append(others, wording.Number(limit.Value)+" mm from "+n.things)
		}
	}
	if len(others) > 0 {
		steps = append(steps, sheet.Step{Words: "Look for what else is near, none is declared. Keep at least " + strings.Join(others, ", ") + "."})
	}
	return steps
}

// clears is how far a bundle is declared to run from something.
func clears(b *harness.Bundle, word string) (byM float64, said bool) {
	for _, args := range b.Given("clears") {
		if args.RepeatKey() == word {
			return args.SI("by")
		}
	}
	return 0, false
}

// zoneSteps are what the zones along a bundle ask for.
func zoneSteps(b *harness.Bundle) []sheet.Step {
	var steps []sheet.Step
	wet, abrasion := false, false
	for _, z := range b.Zones() {
		wet = wet || z.Exposed["wet"] || z.Exposed["splash"]
		abrasion = abrasion || z.Exposed["abrasion"]
	}
	if wet {
		steps = append(steps, sheet.Step{Words: "Drip loop at its lower end and ahead of every entry: water runs off the loop, not into the device."})
	}
	if abrasion {
		steps = append(steps, sheet.Step{Words: "Things rub here: the cover stays closed to within a hand of each end, and no tie stands alone on an edge."})
	}
	return steps
}
