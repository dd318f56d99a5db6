// Package figures has what is computed of a harness, as rules read it and
// reports print it. Figures are in SI with degC and mm2; an unknown one is nil.
package figures

import (
	"hame/lang/harness"
	"hame/lang/tables"
)

// Figures is everything that was computed of one harness.
type Figures struct {
	Wires    []*Wire   // in the harness's order
	Devices  []*Device // in the harness's order
	Modes    []*Mode   // in the harness's order
	Coverage Coverage
}

// Side says on which side of the loads a wire lies.
type Side string

// The sides of a wire.
const (
	Feed    Side = "feed"
	Return  Side = "return"
	Between Side = "between"
)

// Wire is the figures of a wire; those of its worst position where they hang
// on one.
type Wire struct {
	Wire          *harness.Wire
	Side          Side
	ResistanceOhm *float64       // cold, at 20 degC
	Ampacity      *tables.Rating // after factors
	AmbientC      *float64       // the greatest on its way
	TemperatureC  *float64
	WorstA        *float64 // nil where no position could be judged
	Worst         *Position
	ProtectedBy   []string // names of devices, the one next to the source first
	UnprotectedM  *float64 // length from the source that no device protects
	Modes         []WireMode
}

// AmpacityA is the ampacity in A, nil where it is not known.
func (w *Wire) AmpacityA() *float64 {
	if w.Ampacity == nil {
		return nil
	}
	return &w.Ampacity.Amps
}

// WireMode is a wire's current in a mode, positive from its first end to its
// second, and its own drop.
type WireMode struct {
	Mode     string
	CurrentA *float64
	DropV    *float64
}

// Position is one setting of everything that the operator can set, at one
// corner.
type Position struct {
	Key    string
	Engine string
	Closed []string // switches; "s2 2" is a switch on its second throw
	Corner string   // cold and full, or hot and low
	// Bound: what is said of it is a bound that no position exceeds, and this is
	// the solved one that comes nearest.
	Bound bool
}

// Device is the figures of a device.
type Device struct {
	Device *harness.Device
	WorstA *float64
	Worst  *Position
	Modes  []DeviceMode
}

// DeviceMode is a device in a mode: volts across a load, at a supply, across a
// relay's coil.
type DeviceMode struct {
	Mode     string
	Volts    *float64
	CurrentA *float64
	On       bool
}

// Mode is the balance of a mode.
type Mode struct {
	Mode        *harness.Mode
	SupplyA     *float64 // the sum of the loads
	BatteryA    *float64 // over all batteries, positive when they give
	HoursToFlat *float64
}

// Coverage says how many positions were judged and how.
type Coverage struct {
	SwitchPositions float64 // settings of the switches; ManyPositions stands for more too
	Method          string  // all, or bound
	Shorted         int     // solved positions that a dead short leaves nothing to say of
}

// ManyPositions is where counting ends: up to it every whole number has a
// float64 of its own.
const ManyPositions = 1 << 53

// Amount is a known figure.
func Amount(v float64) *float64 { return &v }
