package wiring

import "hame/check"

// Crossings counts the crossings and turns of a run's diagram.
func Crossings(run *check.Run) (crossings, turns int) {
	for _, v := range newScheme(run, "").fitted(Options{Scale: 1}) {
		for _, k := range []*block{v.circuits, v.low} {
			crossings, turns = crossings+k.layout.Crossings, turns+k.layout.Bends
		}
	}
	return crossings, turns
}
