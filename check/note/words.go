package note

import (
	"fmt"
	"strings"

	"hame/check/network"
	"hame/check/wording"
	"hame/lang/kinds"
)

// corners say what the corners stand for.
var corners = map[string]string{
	"cold and full": "battery full, every zone at its least ambient",
	"hot and low":   "battery at the least charge of any mode, every zone at its greatest ambient",
	"as stated":     "as the mode states it",
}

// called is an element as a way's line has it.
func (w *work) called(i int) string {
	e := &w.n.Elements[i]
	switch e.Kind {
	case network.Wire:
		return e.Name + ", " + wording.Wire(e.Wire)
	case network.Fuse:
		return e.Name + ", " + wording.Protection(e.Fuse)
	case network.Contact:
		return e.Name + ", " + contactWords(e)
	case network.Diode:
		forward, _ := e.Device.SI("forward")
		return fmt.Sprintf("%s, diode of %s V", e.Name, wording.Number(forward))
	case network.Load:
		return e.Name + ", in the way"
	case network.Source:
		return e.Name + ", in the string"
	}
	return e.Name + ", " + jointWords(e)
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
