package tables

import (
	"math"
	"slices"
)

// FuseFamily is a family of fuses or breakers.
type FuseFamily struct {
	Name         string // blade … glass; breaker_auto, breaker_power, breaker_manual
	Breaker      bool
	RatingsA     []float64 // made, rising
	Volts        float64   // of the common part
	VoltsMade    []float64
	GatesStandIn bool // gates of the nearest family: none are known for it
	Source       Source
	gates        string
}

// Gate is the opening time of a device at one share of its rating.
type Gate struct {
	Percent float64 // of the rating
	MinS    float64 // fastest
	MaxS    float64 // slowest; +Inf where it must hold
	Source  Source
}

var fuseFamilies = mustLoad("fuse-families.csv", func(r *row) FuseFamily {
	return FuseFamily{
		Name: r.text("family"), Breaker: r.text("kind") == "breaker", RatingsA: r.nums("ratings"),
		Volts: r.num("volts"), VoltsMade: r.nums("volts_made"), GatesStandIn: r.yes("gates_stand_in"),
		Source: r.source(), gates: r.text("gates"),
	}
})

// Fuse finds a family of fuses by its name in the language.
func Fuse(family string) (FuseFamily, bool) {
	return familyNamed(family, false)
}

// Breaker finds breakers by reset: auto, power or manual (SAE J553 types I,
// II and III).
func Breaker(reset string) (FuseFamily, bool) {
	return familyNamed("breaker_"+reset, true)
}

func familyNamed(name string, breaker bool) (FuseFamily, bool) {
	found := rowOf(name, breaker)
	if found == nil {
		return FuseFamily{}, false
	}
	f := *found
	f.RatingsA, f.VoltsMade = slices.Clone(f.RatingsA), slices.Clone(f.VoltsMade)
	return f, true
}

// rowOf finds a family in the table itself, nil where there is none.
func rowOf(name string, breaker bool) *FuseFamily {
	for i := range fuseFamilies {
		if f := &fuseFamilies[i]; f.Name == name && f.Breaker == breaker {
			return f
		}
	}
	return nil
}

// FuseMade tells whether a family of fuses is made in a rating in A; known is
// false where there is no such family.
func FuseMade(family string, ratingA float64) (made, known bool) {
	f := rowOf(family, false)
	return f != nil && f.Made(ratingA), f != nil
}

// FuseNames lists the families of fuses (not breakers) in order.
func FuseNames() []string {
	var names []string
	for _, f := range fuseFamilies {
		if !f.Breaker {
			names = append(names, f.Name)
		}
	}
	slices.Sort(names)
	return names
}

// Made tells whether the family is made in a rating.
func (f FuseFamily) Made(ratingA float64) bool {
	return slices.Contains(f.RatingsA, ratingA)
}

// breaking is a family's breaking capacity up to a voltage.
type breaking struct {
	family      string
	volts, amps float64
	source      Source
}

var breakings = mustLoad("fuse-breaking.csv", func(r *row) breaking {
	return breaking{r.text("family"), r.num("at_volts"), r.num("breaking_a"), r.source()}
})

// BreaksA gives the breaking capacity in A of the family at a voltage; false
// where none is given (glass fuses, breakers) or the voltage is above all.
func (f FuseFamily) BreaksA(volts float64) (float64, Source, bool) {
	for _, b := range breakings {
		if b.family == f.Name && volts <= b.volts {
			return b.amps, b.source, true
		}
	}
	return 0, Source{}, false
}

var gates = loadGates()

func loadGates() map[string][]Gate {
	all := map[string][]Gate{}
	type named struct {
		family string
		Gate
	}
	for _, g := range mustLoad("fuse-gates.csv", func(r *row) named {
		return named{r.text("family"), Gate{r.num("percent"), r.num("min_s"), r.numOrInf("max_s"), r.source()}}
	}) {
		all[g.family] = append(all[g.family], g.Gate)
	}
	return all
}

// Gates lists the family's opening-time gates, from the least current up.
func (f FuseFamily) Gates() []Gate { return slices.Clone(gates[f.gates]) }

// fuseOhm holds the cold resistance of blade fuses by rating, in mohm.
var fuseOhm = mustLoad("fuse-resistance.csv", func(r *row) keyed {
	return keyed{r.num("rating_a"), r.num("cold_mohm"), r.source()}
})

// FuseOhm gives the cold resistance in ohm of a fuse of a rating: the blade
// fuses' figures for all families (no others are known), on logarithms
// between ratings; beyond them the drop at rated current holds.
func FuseOhm(ratingA float64) (float64, Source) {
	return byRating(fuseOhm, ratingA) / 1000, fuseOhm[0].source
}

// byRating interpolates a resistance by rating in mohm.
func byRating(list []keyed, ratingA float64) float64 {
	first, last := list[0], list[len(list)-1]
	switch {
	case !(ratingA > 0):
		return math.Inf(1)
	case ratingA <= first.key:
		return first.factor * first.key / ratingA
	case ratingA >= last.key:
		return last.factor * last.key / ratingA
	}
	i := 1
	for list[i].key < ratingA {
		i++
	}
	return logLog(list[i-1].key, list[i-1].factor, list[i].key, list[i].factor, ratingA)
}
