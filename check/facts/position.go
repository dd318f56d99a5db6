package facts

import "hame/check/states"

// Again solves a position that the survey named once more. Where a relay held
// itself in there by its own contact, it's out here, as on a first switching on.
func (f *Facts) Again(p *states.Position) *states.Point {
	f.solving.Lock()
	defer f.solving.Unlock()
	return f.solver.Solve(*p)
}

// SolvedC is the temperature in degC at which an element was solved in a
// position: the mode's ambient, else the least on its way in the cold corner and
// the greatest in all others, its own heat left out; a room's where no zone says.
func (f *Facts) SolvedC(element int, p *states.Position) float64 {
	const roomC = 20
	leastC, mostC, known := f.Network.Elements[element].Ambients()
	switch {
	case p.AmbientC != nil:
		return *p.AmbientC
	case !known:
		return roomC
	case p.Corner == states.ColdFull:
		return leastC
	}
	return mostC
}

// OtherCorner is a position of the survey at its other corner: the other end of
// temperature and charge, everything else the same. False of a mode's own.
func (f *Facts) OtherCorner(p *states.Position) (states.Position, bool) {
	other := *p
	switch p.Corner {
	case states.ColdFull:
		other.Corner, other.Charge = states.HotLow, f.leastCharge()
	case states.HotLow:
		other.Corner, other.Charge = states.ColdFull, 1
	default:
		return other, false
	}
	return other, true
}

// leastCharge is the least charge of any mode.
func (f *Facts) leastCharge() float64 {
	least := 1.0
	for _, m := range f.Harness.Modes {
		least = min(least, m.Charge)
	}
	return least
}
