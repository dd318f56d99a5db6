package note

import (
	"fmt"
	"strings"

	"hame/check/figures"
	"hame/check/network"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// where is a position in words.
func where(p *figures.Position) string {
	parts := []string{"key " + p.Key, "engine " + p.Engine}
	if len(p.Closed) > 0 {
		parts = append(parts, strings.Join(p.Closed, ", ")+" closed")
	} else {
		parts = append(parts, "all switches open")
	}
	return strings.Join(append(parts, p.Corner), ", ")
}

// corners say what the corners stand for.
var corners = map[string]string{
	"cold and full": "battery full, every zone at its least ambient",
	"hot and low":   "battery at the least charge of any mode, every zone at its greatest ambient",
	"as stated":     "as the mode states it",
}

// cited is a source with its mark, where that is weaker than seen.
func cited(s tables.Source) string {
	text := s.String()
	switch {
	case s.Mark == tables.Memory:
		return text + " (from memory)"
	case s.Mark == tables.Estimate:
		return strings.TrimSpace(text + " (estimate)")
	case s.Mark == tables.CommonPractice && !strings.HasPrefix(text, "common practice"):
		return strings.TrimSpace(text + " (common practice)")
	}
	return text
}

// called is an element as a way's line has it.
func (w *work) called(i int) string {
	e := &w.n.Elements[i]
	switch e.Kind {
	case network.Wire:
		return e.Name + ", " + wireWords(e)
	case network.Fuse:
		return e.Name + ", " + deviceWords(e.Fuse)
	case network.Contact:
		return e.Name + ", " + contactWords(e)
	case network.Diode:
		forward, _ := e.Device.SI("forward")
		return fmt.Sprintf("%s, diode of %s V", e.Name, short(forward))
	case network.Load:
		return e.Name + ", in the way"
	case network.Source:
		return e.Name + ", in the string"
	}
	return e.Name + ", " + jointWords(e)
}

func wireWords(e *network.Element) string {
	size, length := "gauge unknown", "length unknown"
	if e.Wire.AreaMM2 > 0 {
		size = e.Wire.Size.String()
	}
	if e.Wire.HasLength {
		length = short(e.Wire.LengthM) + " m"
	}
	return size + ", " + length
}

// deviceWords is a protective device's sort and size.
func deviceWords(d *network.Device) string {
	switch {
	case d.Sort == "link":
		return fmt.Sprintf("link of %s mm2", short(d.LinkMM2))
	case d.RatingA == 0:
		return d.Sort + " of unknown rating"
	case d.Sort == "breaker":
		return fmt.Sprintf("breaker %s A, reset %s", short(d.RatingA), d.Family)
	}
	return fmt.Sprintf("%s fuse %s A", d.Family, short(d.RatingA))
}

func contactWords(e *network.Element) string {
	switch e.Gate.By {
	case network.Relay:
		if e.Gate.Rest {
			return "relay contact 30-87a"
		}
		return "relay contact 30-87"
	case network.Key:
		return "key contact " + strings.Join(e.Gate.Key, " or ")
	case network.Tap:
		return "own switch"
	}
	if e.Gate.Throw > 1 {
		return fmt.Sprintf("contact, throw %d", e.Gate.Throw)
	}
	return "contact"
}

func jointWords(e *network.Element) string {
	switch {
	case e.Device == nil:
		return "joint"
	case e.Device.Is(kinds.Supply, "tap"):
		return "own wire"
	case e.Device.Is(kinds.Join, "connector"):
		return "mated contact " + strings.TrimPrefix(e.Terminal.Name, "female.")
	case e.Device.Is(kinds.Load):
		return "through its case"
	}
	return "bond to the chassis"
}
