// Package readings takes a filled-in test sheet back: it holds each reading to
// its band and, where some are out, asks the model which one fault explains them
// best. A resistance is put into every wire, joint, contact and device in turn
// and the network is solved again; whichever comes nearest is named with its
// size, and whatever comes as near is named as its rival.
package readings

import (
	"hame/check/trial"
)

// State is what became of a line of the plan.
type State string

// The states of a line.
const (
	Within     State = "within"
	Drifted    State = "drifted"
	Blank      State = "not measured"
	Unreadable State = "not readable"
	Unjudged   State = "not judged" // facts are missing that its band hangs on
)

// Item is one line of the plan with what was read.
type Item struct {
	Line  trial.Line
	State State
	Row   int     // of the file, from 1; 0 where the file has no such line
	Text  string  // as it was written
	SI    float64 // as it was read, in SI; +Inf for open
	Why   string  // what is wrong with it, or what it points to by itself
}

// Report is what a filled-in sheet says.
type Report struct {
	Items    []Item
	Remarks  []string // on the file: ids that are not in the plan, figures of another state
	Findings []Finding
	Lost     []string // ids that drifted and that no finding explains
}

// Finding is one fault that explains readings.
type Finding struct {
	Suspects []Suspect // the first explains best, the others as well as far as was measured
	Explains []string  // ids of readings that were out and are not with it
	Measure  []string  // ids of lines that would tell the suspects apart
}

// Suspect is something that may be at fault.
type Suspect struct {
	Sort     string   // wire, joint, ground, contact, device, load, source, stuck contact, meter
	Name     string   // w15, k1.87, aux.2, main
	From, To string   // its two ends, where it has two
	Existing bool     // it is the machine's own
	AddedOhm *float64 // the resistance that it has more than it should; nil where none was fitted
	Open     bool     // AddedOhm stands for no connection
	Share    *float64 // by which it is off: a load's draw, a source's volts, a meter's scale
	Then     string   // what a stuck contact has drawing
}

// Counts are how many lines there are of each state; spare lines that are blank
// are left out.
func (r *Report) Counts() map[State]int {
	counts := map[State]int{}
	for _, i := range r.Items {
		if i.State != Blank || !i.Line.Spare {
			counts[i.State]++
		}
	}
	return counts
}

// Proved reports whether all that must be measured was, and is within its band.
func (r *Report) Proved() bool {
	counts := r.Counts()
	return len(counts) == 1 && counts[Within] > 0
}

// Judge holds a sheet's rows to a plan.
func Judge(plan *trial.Plan, sheet *Sheet) *Report {
	r := &Report{}
	r.match(plan, sheet)
	newDetective(plan, r).run()
	return r
}
