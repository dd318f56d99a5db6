package facts

import (
	"math"

	"hame/check/network"
	"hame/check/states"
)

// Balance is what the sources of one system give and take in a solved position.
type Balance struct {
	AlternatorA float64 // what the alternators give
	ChargeA     float64 // of it, what goes into batteries
	Batteries   []Giving
}

// LoadA is what the alternators would have to give for the loads alone: what
// they give without the charging, and what the batteries add.
func (b Balance) LoadA() float64 {
	sum := b.AlternatorA - b.ChargeA
	for _, g := range b.Batteries {
		sum += g.Share * max(g.Amps, 0)
	}
	return sum
}

// Giving is one battery: Amps is positive where it gives.
type Giving struct {
	Element int
	Amps    float64
	Share   float64 // its volts, of the system's: half for either battery of a string of two
}

// BalanceIn sums up a solved position. Batteries in a string carry one current,
// so each counts by its share of the alternators' volts; with no alternator, of
// the greatest battery's.
func (f *Facts) BalanceIn(p *states.Point) Balance {
	const chargeShare = 1.18 // an alternator's volts, of its system's, where not declared
	var b Balance
	systemV := 0.0
	for i := range f.Network.Elements {
		e := &f.Network.Elements[i]
		if e.Kind != network.Source {
			continue
		}
		switch e.Source.Sort {
		case "alternator":
			b.AlternatorA += p.Amps(i)
			systemV = max(systemV, e.Source.NominalV/chargeShare)
		case "battery":
			b.Batteries = append(b.Batteries, Giving{Element: i, Amps: p.Amps(i), Share: e.Source.NominalV})
		}
	}
	for k := range b.Batteries {
		if systemV == 0 {
			systemV = b.Batteries[k].Share
		}
		inString := max(1, math.Round(systemV/b.Batteries[k].Share))
		b.Batteries[k].Share = 1 / inString
		if charge := -b.Batteries[k].Amps; charge > 0 {
			b.ChargeA += charge * b.Batteries[k].Share
		}
	}
	return b
}
