package trial

import (
	"slices"
	"sort"
)

// Stage is lines that are measured in the same way.
type Stage struct {
	Title string
	How   string // in a sentence or two
	Kinds []Kind
	// Usual is a note of its lines that How says already: for those who read a line
	// by itself.
	Usual string
}

const (
	unpluggedNote = "load unplugged; the sign counts"
	ammeterNote   = "ammeter in the negative lead; wait until modules sleep; never crank through it"
	clampNote     = "clamp, arrow away from the post: charging reads below zero"
	warmNote      = "after half an hour; hands off what is live"
)

// Stages are all of them in the order of measuring, which is that of safety. How
// each is done is common practice.
var Stages = []Stage{
	{"Continuity", "No power; modules, lamps, coils and diodes unplugged. Ohmmeter, its leads set to nothing: both ends of one wire are joined.", []Kind{Continuity}, ""},
	{"Isolation", "Still no power and all unplugged. Ohmmeter in its highest range: these two are not joined.", []Kind{Isolation}, ""},
	{"Polarity", "Power on, one circuit after the other. Voltmeter at the load's unplugged connector: the sign counts.", []Kind{Polarity}, unpluggedNote},
	{"Key-off draw", "Ammeter in the battery's negative lead, or a clamp where more flows than the meter bears. Wait until modules sleep; never crank.", []Kind{KeyOff}, ammeterNote},
	{"Volts at sources", "Voltmeter across the posts, everything plugged in.", []Kind{SourceVolts}, ""},
	{"Volts at loads", "Voltmeter at the load's own terminals while it runs, plug mated: probe from behind.", []Kind{LoadVolts}, ""},
	{"Drop along the whole feed and return", "Millivolts under load, after a minute at full load: one probe at the source, the other at the load.", []Kind{Feed, Return}, ""},
	{"Drop of single parts", "Only where a whole way above is out: then these on the same way tell which part of it.", []Kind{Part}, ""},
	{"One fuse pulled at a time", "Voltmeter behind the empty way. What the note names is dead and nothing else; put the fuse back before the next.", []Kind{Pulled}, ""},
	{"Charge balance", "Clamp round the battery's cable, its arrow away from the post, engine turning: charging reads below zero.", []Kind{Charge}, clampNote},
	{"Warm joints", "After half an hour at full load: by how many K the joint is warmer than the air beside it. Hands off what is live.", []Kind{Warm}, warmNote},
}

// StageOf is the number of a kind's stage.
func StageOf(k Kind) int {
	return slices.IndexFunc(Stages, func(s Stage) bool { return slices.Contains(s.Kinds, k) })
}

// inOrder puts lines by stage, and within it by what is set: with nothing turning
// first, for modes are set less often so than by each line's own.
func (p *planner) inOrder() {
	turn := map[int]int{-1: -1}
	for i, s := range p.calmFirst() {
		turn[s] = i
	}
	lines := p.plan.Lines
	sort.SliceStable(lines, func(a, b int) bool {
		if x, y := StageOf(lines[a].Kind), StageOf(lines[b].Kind); x != y {
			return x < y
		}
		return turn[lines[a].Probe.Setting] < turn[lines[b].Probe.Setting]
	})
}
