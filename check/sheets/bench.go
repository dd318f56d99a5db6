package sheets

import (
	"math"
	"strconv"
	"strings"

	"hame/check/draw"
	"hame/check/sheet"
	"hame/lang/harness"
	"hame/lang/tables"
)

// gauge is a wire's size as it is bought.
func gauge(w *harness.Wire) string {
	switch {
	case w.Auto:
		return "auto"
	case w.AreaMM2 == 0:
		return unknown
	}
	return w.Size.String()
}

// insulation is a wire's cable designation.
func insulation(w *harness.Wire) string {
	if w.Insulation == "" {
		return unknown
	}
	return w.Insulation
}

// colour is a wire's colour and stripe.
func colour(w *harness.Wire) string {
	switch {
	case w.Colour == "":
		return unknown
	case w.Stripe == "":
		return w.Colour
	}
	return w.Colour + "/" + w.Stripe
}

// colourCell is a wire's colour with a patch of it beside its name.
func colourCell(w *harness.Wire) sheet.Cell {
	c := sheet.Is(colour(w))
	for _, name := range []string{w.Colour, w.Stripe} {
		if name != "" {
			c.Swatch = append(c.Swatch, draw.OfWire(name))
		}
	}
	return c
}

// millimetres writes a length in m as mm, to a tenth where it is no whole one.
func millimetres(lengthM float64) string {
	return strconv.FormatFloat(math.Round(lengthM*1e4)/10, 'f', -1, 64)
}

// metres writes a length in m with two decimals.
func metres(lengthM float64) string { return strconv.FormatFloat(lengthM, 'f', 2, 64) }

// placeOfEnd is where an end lies.
func placeOfEnd(e harness.End) string {
	switch {
	case e.Capped:
		return "loose"
	case e.Terminal == nil:
		return unknown
	}
	return placeOf(e.Terminal.Device)
}

// hardware is what is crimped on an end.
func hardware(e harness.End) string {
	if e.Hardware == "" {
		return unknown
	}
	return e.Hardware
}

// count is a whole number.
func count(n int) string { return strconv.Itoa(n) }

// waterproof reports whether a degree of protection is declared that keeps
// water out: a second digit of 1 or more (IEC 60529, from memory).
func waterproof(d *harness.Device) bool {
	for _, s := range []string{"seal", "sealed"} {
		if code := d.Word(s); len(code) > 3 && strings.Trim(code[3:], "0XK") != "" {
			return true
		}
	}
	return false
}

// protectionCode is the degree of protection that is declared, or "".
func protectionCode(d *harness.Device) string {
	if code := d.Word("seal"); code != "" {
		return code
	}
	return d.Word("sealed")
}

// diameter is a wire's outside diameter in mm in words.
func diameter(w *harness.Wire) string {
	mm, ok := w.OutsideDiameterMM()
	if !ok {
		return unknown
	}
	return strconv.FormatFloat(mm, 'f', 1, 64)
}

// thinFirst orders sizes by their copper; what is not known comes last.
func thinFirst(a, b *harness.Wire) int {
	area := func(w *harness.Wire) float64 {
		if w.AreaMM2 == 0 {
			return math.Inf(1)
		}
		return w.AreaMM2
	}
	switch x, y := area(a), area(b); {
	case x < y:
		return -1
	case x > y:
		return 1
	}
	return strings.Compare(gauge(a), gauge(b))
}

// roundUp takes a figure up to whole steps; only what a binary figure cannot hold
// is taken off first.
func roundUp(v, step float64) float64 {
	const dust = 1e-9
	return math.Ceil(v/step-dust) * step
}

// either joins words: "acc or on".
func either(words []string) string { return strings.Join(words, " or ") }

// small is a line of sources.
func small(words string) sheet.Text { return sheet.Text{Words: words, Weight: sheet.Small} }

// spread is a torque or another range with one figure's words.
func spread(low, high float64) string {
	text := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	return text(low) + ".." + text(high)
}

// stud finds the stud that an end lands on; false where it lands on none.
func stud(e harness.End) (tables.Stud, bool) {
	name, ring := strings.CutPrefix(e.Hardware, "ring ")
	if !ring {
		return tables.Stud{}, false
	}
	return tables.StudNamed(name)
}
