package sheets

import (
	"slices"
	"strings"

	"hame/check/report"
)

// howTo is how a fact is found out, in a few words of the trade: by the kind and
// the setting, else by the setting, else by what its value is.
func howTo(l report.Lack) string {
	if l.Kind != nil {
		if way, ok := ways[l.Kind.Name+" "+l.Need.Setting]; ok {
			return way
		}
	}
	if way, ok := ways[l.Need.Setting]; ok {
		return way
	}
	if l.Row != nil {
		for _, slots := range l.Row.Slots() {
			for _, slot := range slots {
				if i := slices.IndexFunc(slot.Types, func(t string) bool { return waysByType[strings.TrimSuffix(t, "+")] != "" }); i >= 0 {
					return waysByType[strings.TrimSuffix(slot.Types[i], "+")]
				}
			}
		}
	}
	return "look at it, or ask its maker"
}

// waysByType serve what no setting is named for.
var waysByType = map[string]string{
	"V": "its plate, or a meter across it while it works", "A": "its plate, else a clamp meter on its wire",
	"W": "its plate, or volts times amperes", "ohm": "ohmmeter, unplugged and at room temperature", "m": "tape", "mm": "calliper",
	"degC": "thermometer", "count": "count", "size": "ring gauge or calliper across the thread", "ip": "its label or data sheet",
	"place": "note where it sits", "gauge": "print on its insulation, else a wire gauge on the bare strands",
}

// ways are common practice, with no source.
var ways = map[string]string{
	// Supplies.
	"battery capacity":     "its label: Ah at the 20 hour rate",
	"battery cranking":     "its label: cold cranking amperes (CCA)",
	"battery resistance":   "battery tester, or its data sheet",
	"battery accepts":      "its data sheet; or clamp meter on its lead while it charges half empty",
	"battery sags":         "meter across its posts while the engine cranks",
	"battery standby":      "key off for 30 min, clamp meter for milliamperes on the negative lead",
	"battery post":         "ring gauge or calliper; a cone is a taper post",
	"alternator output":    "its plate",
	"alternator idle":      "clamp meter on its output lead at idle, all loads on; or its curve",
	"alternator volts":     "meter across its posts, engine fast, battery full",
	"alternator already":   "clamp meter on its output lead, engine fast, battery full, nothing of ours on",
	"converter output":     "its plate",
	"converter gives":      "its plate, or a meter at its output under load",
	"converter efficiency": "its data sheet",
	"tap behind":           "pull the circuit's fuse to prove which it is; read its number, note where it sits",
	"tap carries":          "clamp meter on the circuit's wire with all of its loads on",
	"tap live":             "test lamp at the tap in each key position and while cranking",
	"tap serves":           "pull its fuse and see what stops; the machine's wiring diagram",
	"tap drive":            "meter and scope at the tap: steady volts, or chopped; ask whether a module watches it",
	"tap of":               "trace which supply feeds it",
	"tap gauge":            "print on its insulation, else a wire gauge on the bare strands",
	"tap run":              "tape along the wire from its fuse to the tap",
	// Protection.
	"fuse rating": "read the number on it", "fuse family": "look at its body", "fuse fitted": "read the fuse that is in it now",
	"holder": "its data sheet or its body", "breaker rating": "read its body", "breaks": "its data sheet: breaking capacity at the system's volts",
	"breaker reset": "its data sheet, or see whether it has a button", "link gauge": "print on its insulation; ask the machine's maker",
	"panel limit": "its data sheet: the whole panel", "each": "its data sheet: one way", "way": "read the numbers on its fuses",
	// Switches.
	"rating": "read its body, else its data sheet", "contacts": "its case, else its data sheet", "for": "its data sheet: resistive, lamp, motor or inductive",
	"coil": "ohmmeter across 85 and 86, relay unplugged, at room temperature", "pulls": "its data sheet", "releases": "its data sheet",
	"relay suppress": "look at its case for a diode or resistor across 85 and 86; its data sheet", "suppress": "its data sheet, or look for a diode or resistor across it",
	// Loads.
	"draws": "its plate, else a clamp meter on its feed while it works hard", "starts": "clamp meter that holds the peak; time it",
	"stalls": "its data sheet; never stall it to measure", "least": "its data sheet", "most": "its data sheet",
	"polarity": "its data sheet or marks at its terminals", "standby": "milliammeter in its feed, key off", "expects": "plates of what will be plugged in",
	"lead": "print on its own lead, else a wire gauge on the bare strands", "fuse": "its plate or data sheet: the greatest fuse", "input": "its data sheet, each input",
	// Joins and grounds.
	"limit": "its data sheet: greatest current", "takes": "data sheet of its contacts or barrel", "ways": "count", "holds": "its data sheet; count the rings that the thread holds under its nut",
	"to": "trace its bond: ohmmeter to the frame, battery off", "resistance": "volts between two bonds at a known current, divided",
	// Places, runs and wires.
	"ambient": "thermometer there at full work on the hottest day, and on the coldest morning; ask the machine's maker", "exposure": "look for oil, water, sun, rubbing and fuel",
	"wire": "print on the insulation", "at": "note where it sits", "via": "follow the wire from end to end, note each bundle", "length": "tape along the run, bends too",
	"gauge": "print on its insulation, else a wire gauge on the bare strands", "clamp": "count the clamps and tape between them", "through": "look where it passes sheet metal; calliper on the hole",
	"clears": "tape to the nearest hot or moving part or fuel line, at both ends of its travel", "cover": "look at it; its data sheet for the temperature", "rated": "the cover's data sheet: temperature",
	"mode": "ask who works the machine: what is on together, and for how long", "system": "meter across the battery's posts",
}
