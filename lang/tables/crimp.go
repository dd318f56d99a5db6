package tables

import (
	"math"
	"slices"
)

const newtonsPerPoundForce = 4.4482216

// PullTable is one of the tables of least pull-out forces, which differ up to
// sevenfold.
type PullTable struct {
	Name   string // ul486a, mil7928, abyc, nasa
	Title  string // UL 486A
	Doubt  string // what is to be known of its figures; may be empty
	Source Source
}

var pullTables = mustLoad("pull-tables.csv", func(r *row) PullTable {
	return PullTable{r.text("table"), r.text("title"), r.text("doubt"), r.source()}
})

// PullTables lists the tables: first the one whose figures were read.
func PullTables() []PullTable { return slices.Clone(pullTables) }

// pullRow is one gauge's pull-out forces in lbf, 0 where a table has none.
type pullRow struct {
	awg   int
	force map[string]float64
}

// pulls are from thin to thick.
var pulls = mustLoad("pull-force.csv", func(r *row) pullRow {
	force := map[string]float64{}
	for _, t := range pullTables {
		force[t.Name] = r.numOr(t.Name, 0)
	}
	return pullRow{r.gauge("awg"), force}
})

// PullForceN gives the least pull-out force in N of a crimp on a gauge, by one
// of four tables that differ up to sevenfold: ul486a, mil7928, abyc or nasa.
func PullForceN(table string, awg int) (float64, Source, bool) {
	for _, p := range pulls {
		if p.awg == awg && p.force[table] > 0 {
			return p.force[table] * newtonsPerPoundForce, pullSource(table), true
		}
	}
	return 0, Source{}, false
}

func pullSource(table string) Source {
	i := slices.IndexFunc(pullTables, func(t PullTable) bool { return t.Name == table })
	return pullTables[i].Source
}

// Pull is the least pull-out force of a crimp on a conductor.
type Pull struct {
	ForceN    float64
	Thin, Fat int // the AWG rows that it lies between; one and the same where it has a row
}

// PullFor gives the least pull-out force by a named table. A size that has no
// row, as all metric ones, lies between the rows of the next thinner and the
// next thicker gauge and takes its share of the step by its area: the thinner
// row would pass a crimp too weak for the wire, the thicker would refuse a sound
// one. False beyond the ends of the table.
func PullFor(table string, s Size) (Pull, bool) {
	area := s.AreaMM2()
	thin := -1
	for i, p := range pulls {
		if p.force[table] == 0 || area == 0 {
			continue
		}
		at := AWGAreaMM2(p.awg)
		switch {
		case math.Abs(at-area) < 1e-9:
			return Pull{p.force[table] * newtonsPerPoundForce, p.awg, p.awg}, true
		case at < area:
			thin = i
		case thin < 0:
			return Pull{}, false
		default:
			return between(table, pulls[thin], p, area), true
		}
	}
	return Pull{}, false
}

func between(table string, thin, fat pullRow, area float64) Pull {
	least, most := AWGAreaMM2(thin.awg), AWGAreaMM2(fat.awg)
	share := (area - least) / (most - least)
	lbf := thin.force[table] + share*(fat.force[table]-thin.force[table])
	return Pull{lbf * newtonsPerPoundForce, thin.awg, fat.awg}
}

// strip is how much insulation comes off for a terminal.
type strip struct {
	hardware string
	mostMM2  float64
	mm       float64
	source   Source
}

var strips = mustLoad("strip-lengths.csv", func(r *row) strip {
	return strip{r.text("hardware"), r.num("max_mm2"), r.num("strip_mm"), r.source()}
})

// StripMM gives how much insulation in mm comes off for a ring, tab, bullet,
// butt, pin, socket, ferrule or cap whose barrel holds so much copper in mm2;
// false for other terminals and above the table.
func StripMM(hardware string, copperMM2 float64) (float64, Source, bool) {
	for _, s := range strips {
		if s.hardware == hardware && copperMM2 > 0 && copperMM2 <= s.mostMM2 {
			return s.mm, s.source, true
		}
	}
	return 0, Source{}, false
}
