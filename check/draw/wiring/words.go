package wiring

import (
	"fmt"
	"strings"

	"hame/check/draw"
	"hame/check/draw/symbols"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// mostWordsMM is how long words beside a symbol may be.
const mostWordsMM = 30

// letters is a colour in letters by IEC 60757 (tan's are common practice); "" where
// there are none. The key of every sheet tells those that it uses.
func letters(colour string) string {
	code, _, known := tables.ColourCode(colour)
	if !known {
		return ""
	}
	return code
}

// colourOf is a wire's colour in letters, "" where none is said.
func colourOf(w *harness.Wire) string {
	text := letters(w.Colour)
	if w.Stripe != "" {
		text += "/" + letters(w.Stripe)
	}
	return text
}

// gaugeOf is a wire's gauge: a bare number is mm2.
func gaugeOf(w *harness.Wire) string {
	switch {
	case w.Auto:
		return "auto"
	case w.Gauge.Text == "":
		return "?"
	case w.Gauge.Unit == "mm2":
		return w.Gauge.Text
	}
	return w.Gauge.String()
}

func cut(words string, sizeMM float64, bold bool) string {
	return draw.Cut(words, sizeMM, bold, mostWordsMM)
}

// wordsOf is what stands beside a device.
func (s *scheme) wordsOf(b *box) symbols.Words {
	d := b.device
	w := symbols.Words{Name: cut(d.Name, symbols.NameMM, true), Rows: s.rowWords(d)}
	if b.part > 0 {
		w.Name = cut(fmt.Sprintf("%s, %d of %d", d.Name, b.part, b.parts), symbols.NameMM, true)
	}
	for _, text := range []string{ratingOf(d), d.Word("label"), placeOf(d), s.mode.device(d)} {
		if text != "" {
			w.Details = append(w.Details, cut(text, symbols.DetailMM, false))
		}
	}
	return w
}

func placeOf(d *harness.Device) string {
	if d.At == nil {
		return ""
	}
	return "at " + d.At.Name
}

// setting is a setting as it was given, "" where it was not.
func setting(d *harness.Device, name string) string {
	a, ok := d.Args(name)
	if !ok {
		return ""
	}
	if v, ok := a.Get(""); ok {
		return v.Lo.String()
	}
	return ""
}

// ratingOf is what a device is rated for, in a few words.
func ratingOf(d *harness.Device) string {
	switch d.Kind.Title() {
	case "supply battery":
		return joined(setting(d, "volts"), setting(d, "capacity"))
	case "supply alternator":
		return setting(d, "output")
	case "supply converter":
		return joined("gives", setting(d, "gives"), setting(d, "output"))
	case "supply tap":
		a, _ := d.Args("behind")
		if v, ok := a.Get(""); ok {
			return joined("behind", a.Word("device"), v.Lo.String())
		}
	case "protection fuse":
		return joined(setting(d, "rating"), d.Word("family"))
	case "protection link":
		return setting(d, "gauge")
	case "protection panel":
		return prefixed("limit", setting(d, "limit"))
	case "switch relay":
		return setting(d, "contacts")
	case "load outlet":
		if e := setting(d, "expects"); e != "" {
			return e
		}
		return setting(d, "rating")
	}
	switch d.Kind.Family {
	case kinds.Load:
		return setting(d, "draws")
	case kinds.Ground:
		return prefixed("on", d.Word("to"))
	}
	return setting(d, "rating")
}

func joined(words ...string) string {
	var list []string
	for _, w := range words {
		if w != "" {
			list = append(list, w)
		}
	}
	return strings.Join(list, " ")
}

// prefixed is a word before another, nothing where that is missing.
func prefixed(word, text string) string {
	if text == "" {
		return ""
	}
	return word + " " + text
}

// rowWords is what stands in the rows of panels and connectors.
func (s *scheme) rowWords(d *harness.Device) map[string]string {
	rows := map[string]string{}
	for _, a := range d.Given("way") {
		text := ""
		for _, v := range a.List[min(1, len(a.List)):] {
			if v.Lo.Text != "" {
				text = joined(text, v.Lo.String())
			} else {
				text = joined(text, v.Word)
			}
		}
		rows[a.RepeatKey()] = joined(cut(text, symbols.DetailMM, false), s.mode.way(d, a.RepeatKey()))
	}
	return rows
}

// amps is a current as it stands beside a wire.
func amps(v float64) string { return wording.To(3, v) + " A" }

// volts is a voltage as it stands beside a device.
func volts(v float64) string { return wording.To(3, v) + " V" }
