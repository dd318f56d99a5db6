// Package trial is the measuring plan of a harness as data: what is measured, in
// which state, with the probes where, and between which two figures a reading
// must lie. The figures come from the solved network, so that a plan cannot
// disagree with the check.
package trial

import (
	"math"

	"hame/check/facts"
	"hame/check/states"
)

// Kind is what a line proves.
type Kind string

// The kinds, in the order in which they are measured.
const (
	Continuity  Kind = "continuity"
	Isolation   Kind = "isolation"
	Polarity    Kind = "polarity"
	KeyOff      Kind = "key-off draw"
	SourceVolts Kind = "volts at source"
	LoadVolts   Kind = "volts at load"
	Feed        Kind = "drop along feed"
	Return      Kind = "drop along return"
	Part        Kind = "drop of one part"
	Pulled      Kind = "fuse pulled"
	Charge      Kind = "charge balance"
	Warm        Kind = "warm joint"
)

// Line is one thing to measure. Figures are in SI, rounded as they are printed,
// so that what a paper says is what a reading is held to.
type Line struct {
	ID   string // made of names alone: what else the harness has does not move it
	Kind Kind
	Name string // what of the harness it proves: w15, aux.2
	Mode string // what is set before, "" with no power
	From string // the red probe
	To   string // the black probe
	Unit Unit
	// Expect is what the model has; nil where facts are missing, and then Needs
	// names them. +Inf is open.
	Expect    *float64
	Low, High float64 // ±Inf for none
	// Limit is the greatest that the trade's books allow, in V; 0 for none.
	Limit float64
	// Spare lines are measured only where one that sums them up is out.
	Spare bool
	Note  string
	Needs []string
	Probe Probe
}

// Probe is what a line measures in the model.
type Probe struct {
	Setting int  // of the plan; -1 with no power
	Amps    bool // the current of Element, else the volts from A to B
	A, B    int
	Element int   // whose current, or with no power whose resistance; -1 for none
	Open    []int // elements that are open: a pulled fuse, an unplugged load
}

// Setting is what is set before measuring: a mode, or all off.
type Setting struct {
	Name string
	// Mode is the number of the harness's mode; -1 for none.
	Mode     int
	Position states.Position
}

// Plan is the lines in the order of measuring.
type Plan struct {
	Lines    []Line
	Settings []Setting
	Lacks    []string // what could not be planned, and why
	Model    *Model
}

// Of makes the plan of a harness's facts.
func Of(f *facts.Facts) *Plan {
	p := newPlanner(f)
	p.bench()
	p.polarities()
	p.keyOff()
	p.sources()
	p.loads()
	p.drops()
	p.parts()
	p.pulled()
	p.charging()
	p.warm()
	p.unknown()
	p.inOrder()
	return p.plan
}

// Find is the line of an id.
func (p *Plan) Find(id string) (Line, bool) {
	for _, l := range p.Lines {
		if l.ID == id {
			return l, true
		}
	}
	return Line{}, false
}

// LowText is the lower end of the band as papers print it: "" where it has no end
// on that side.
func (l Line) LowText() string { return bound(l.Unit, l.Low) }

// HighText is the upper end of the band.
func (l Line) HighText() string { return bound(l.Unit, l.High) }

// ExpectText is the expected figure as papers print it, "?" where it is not known.
func (l Line) ExpectText() string {
	if l.Expect == nil {
		return "?"
	}
	return l.Unit.Text(*l.Expect)
}

func bound(u Unit, v float64) string {
	if math.IsInf(v, 0) {
		return ""
	}
	return u.Text(v)
}
