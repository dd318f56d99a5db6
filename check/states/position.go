// Package states solves a harness's network in the positions that the operator
// can make: which switches stand where, the key, the engine, and the corner of
// temperature and charge that it is judged at.
package states

import (
	"fmt"
	"sort"

	"hame/check/figures"
	"hame/lang/harness"
)

// Corner is where temperature and charge stand.
type Corner uint8

// The corners.
const (
	ColdFull Corner = iota // battery full, zones at their least
	HotLow                 // zones at their greatest, battery at its least charge
	AsStated               // as a mode states it
)

func (c Corner) String() string {
	return [...]string{"cold and full", "hot and low", "as stated"}[c]
}

// Position is one setting of everything that the operator can set.
type Position struct {
	Key      string                  // off, acc, on, start
	Engine   string                  // off, idle, running, cranking
	Throws   map[*harness.Device]int // 1 is closed; 0 or absent is open
	Corner   Corner
	Charge   float64  // 0 to 1
	AmbientC *float64 // of every zone, where a mode states it
}

// OfMode is the position that a mode states.
func OfMode(m *harness.Mode) Position {
	p := Position{
		Key: m.Key, Engine: m.Engine, Corner: AsStated, Charge: m.Charge,
		AmbientC: m.AmbientC, Throws: map[*harness.Device]int{},
	}
	for _, d := range m.Closed {
		p.Throws[d] = 1
	}
	for d, n := range m.Throws {
		p.Throws[d] = n
	}
	return p
}

// Figure is the position as reports print it.
func (p Position) Figure() *figures.Position {
	f := &figures.Position{Key: p.Key, Engine: p.Engine, Corner: p.Corner.String(), Closed: []string{}}
	for d, throw := range p.Throws {
		if throw == 0 {
			continue
		}
		name := d.Name
		if n, _ := d.SI("throws"); n > 1 {
			name = fmt.Sprintf("%s %d", d.Name, throw)
		}
		f.Closed = append(f.Closed, name)
	}
	sort.Strings(f.Closed)
	return f
}
