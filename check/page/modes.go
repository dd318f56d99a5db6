package page

import (
	"math"

	"hame/check/facts"
	"hame/check/figures"
	"hame/check/sheets"
	"hame/check/states"
	"hame/check/wording"
	"hame/lang/harness"
)

// told is what the script is given.
type told struct {
	Modes []mode `json:"modes"`
}

// mode tells what is live in a mode, and the figures of each name in it.
type mode struct {
	Name  string           `json:"name"`
	State string           `json:"state"` // how everything stands in it
	Names map[string]state `json:"names"`
}

// state is one name in one mode. The figures are words, and empty where nothing
// is known.
type state struct {
	Live bool   `json:"live"`
	Flow bool   `json:"flow"` // a wire that carries current, on its way back too
	Says string `json:"says"`
}

func tell(p *sheets.Pack) told {
	t := told{Modes: []mode{}}
	for i, m := range p.Harness.Modes {
		if i >= len(p.Facts.Survey.Modes) {
			break
		}
		at := p.Facts.Survey.Modes[i]
		in := mode{Name: m.Name, State: wording.Position(at.Position.Figure()), Names: map[string]state{}}
		for _, w := range p.Figures.Wires {
			in.Names[w.Wire.Name] = state{Live: facts.WireUnderVoltage(at, w.Wire), Flow: flows(w, i), Says: wireSays(w, i)}
		}
		for _, d := range p.Figures.Devices {
			in.Names[d.Device.Name] = state{Live: facts.DeviceUnderVoltage(at, d.Device), Says: deviceSays(d, i)}
		}
		for _, b := range p.Harness.Bundles {
			in.Names[b.Name] = bundleState(at, b)
		}
		t.Modes = append(t.Modes, in)
	}
	return t
}

func bundleState(at *states.Point, b *harness.Bundle) state {
	live := 0
	for _, w := range b.Members {
		if facts.WireUnderVoltage(at, w) {
			live++
		}
	}
	return state{Live: live > 0, Says: wording.Number(float64(live)) + " of " + wording.Number(float64(len(b.Members))) + " wires live"}
}

// leastA is a current that is more than the solver's last digits.
const leastA = 1e-4

func flows(w *figures.Wire, i int) bool {
	return i < len(w.Modes) && w.Modes[i].CurrentA != nil && math.Abs(*w.Modes[i].CurrentA) > leastA
}

func wireSays(w *figures.Wire, i int) string {
	if i >= len(w.Modes) {
		return ""
	}
	return amounts(amount{w.Modes[i].CurrentA, "A"}, amount{w.Modes[i].DropV, "V drop"})
}

func deviceSays(d *figures.Device, i int) string {
	if i >= len(d.Modes) {
		return ""
	}
	return amounts(amount{d.Modes[i].Volts, "V"}, amount{d.Modes[i].CurrentA, "A"})
}

// amount is a figure that may not be known.
type amount struct {
	value *float64
	unit  string
}

// digits are as many as a meter shows.
const digits = 3

func amounts(list ...amount) string {
	words := ""
	for _, a := range list {
		if a.value == nil {
			continue
		}
		if words != "" {
			words += ", "
		}
		words += wording.To(digits, *a.value) + " " + a.unit
	}
	return words
}
