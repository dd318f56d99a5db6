package report

import (
	"github.com/fatih/color"

	"hame/lang/finding"
)

// paint colours a text, or leaves it as it is.
type paint func(text string) string

// palette has the colours of the form for a person. Nothing is said by colour
// alone.
type palette struct {
	place, quiet, label, good paint
	severity                  [finding.Error + 1]paint
}

func newPalette(colour bool) palette {
	return palette{
		place: painter(colour, color.Bold),
		quiet: painter(colour, color.Faint),
		label: painter(colour, color.FgBlue),
		good:  painter(colour, color.FgGreen, color.Bold),
		severity: [...]paint{
			finding.Open:    painter(colour, color.FgMagenta, color.Bold),
			finding.Advice:  painter(colour, color.FgCyan, color.Bold),
			finding.Warning: painter(colour, color.FgYellow, color.Bold),
			finding.Error:   painter(colour, color.FgRed, color.Bold),
		},
	}
}

// painter asks nobody but the caller whether to colour: whether there is a
// terminal is the command's business.
func painter(colour bool, attributes ...color.Attribute) paint {
	if !colour {
		return func(text string) string { return text }
	}
	c := color.New(attributes...)
	c.EnableColor()
	return func(text string) string { return c.Sprint(text) }
}
