package sheets

import (
	"math"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
)

// state says whether something is live in all settings of the switches that a
// column leaves open.
type state uint8

// The states. A thing that may be live is live in one setting and dead in another,
// or cannot be told.
const (
	dead state = iota
	mayBe
	live
)

// column is a position of the key with what the engine may do in it.
type column struct {
	key     string
	engines []string
}

var keyColumns = []column{
	{"off", []string{"off"}},
	{"acc", []string{"off"}},
	{"on", []string{"off", "idle", "running"}},
	{"start", []string{"cranking"}},
}

// power is which nodes are live in a column: surely, and possibly. It never
// counts as dead what a setting of the switches makes live.
type power struct {
	f      *facts.Facts
	column column
	forced map[*harness.Device]int // switches that are held on a throw; 0 is open
	sure   map[int]bool            // coils that pull in wherever they are fed
	inMay  map[int]bool            // coils whose relay may be in
	inMust map[int]bool            // and those whose relay surely is

	may, must         []bool // by node
	coldMay, coldMust []bool // by node: it leads to a source's other pole
}

// powerIn works a column out. Relays follow their coils: at first each may be in
// or out, and what is so found of their coils narrows that down.
func powerIn(f *facts.Facts, c column, sure map[int]bool, forced map[*harness.Device]int) *power {
	w := &power{f: f, column: c, forced: forced, sure: sure, inMay: map[int]bool{}, inMust: map[int]bool{}}
	coils := coilsOf(f)
	for _, i := range coils {
		w.inMay[i] = true
	}
	for again := true; again; {
		w.reach()
		again = false
		for _, i := range coils {
			e := &f.Network.Elements[i]
			may := w.may[e.A] && w.coldMay[e.B] || w.may[e.B] && w.coldMay[e.A]
			must := sure[i] && (w.must[e.A] && w.coldMust[e.B] || w.must[e.B] && w.coldMust[e.A])
			if may != w.inMay[i] || must != w.inMust[i] {
				w.inMay[i], w.inMust[i], again = may, must, true
			}
		}
	}
	return w
}

func coilsOf(f *facts.Facts) []int {
	var coils []int
	for i := range f.Network.Elements {
		if l := f.Network.Elements[i].Load; l != nil && l.Coil != nil {
			coils = append(coils, i)
		}
	}
	return coils
}

// reach finds what is live with the relays as they are taken to be. A converter's
// output waits for its input, so that it may take more than one round.
func (w *power) reach() {
	n := w.f.Network.Nodes
	w.may, w.must = make([]bool, n), make([]bool, n)
	w.coldMay, w.coldMust = make([]bool, n), make([]bool, n)
	_, cold := w.poles(false)
	w.spread(w.coldMay, cold, w.back(mayBe))
	w.spread(w.coldMust, cold, w.back(live))
	for range len(w.f.Sources()) + 1 {
		hot, _ := w.poles(true)
		w.spread(w.may, hot, w.on(mayBe))
		hot, _ = w.poles(false)
		w.spread(w.must, hot, w.on(live))
	}
}

// poles are the live poles of the sources that may give (or surely do), and all
// their other poles.
func (w *power) poles(may bool) (hot, cold []int) {
	for _, i := range w.f.Sources() {
		e := &w.f.Network.Elements[i]
		pole := w.f.Network.Hot(i)
		cold = append(cold, e.A+e.B-pole)
		if s := w.gives(e); s == live || may && s == mayBe {
			hot = append(hot, pole)
		}
	}
	return hot, cold
}

func (w *power) gives(e *network.Element) state {
	switch {
	case e.Source.Sort == "alternator":
		return w.whenever(func(engine string) bool { return engine == "idle" || engine == "running" })
	case e.Source.Sort == "converter" && e.Source.Input >= 0:
		in := w.f.Network.Elements[e.Source.Input]
		switch {
		case w.must[in.A] && w.coldMust[in.B]:
			return live
		case !w.may[in.A]:
			return dead
		}
		return mayBe
	}
	return live
}

// whenever is live where something holds whatever the engine does, and dead where
// it never does.
func (w *power) whenever(holds func(engine string) bool) state {
	yes := 0
	for _, engine := range w.column.engines {
		if holds(engine) {
			yes++
		}
	}
	switch yes {
	case 0:
		return dead
	case len(w.column.engines):
		return live
	}
	return mayBe
}

// contact is how a contact stands: live is closed, dead is open.
func (w *power) contact(e *network.Element) state {
	throw, held := w.forced[e.Device]
	switch e.Gate.By {
	case network.Hand:
		switch {
		case !held:
			return mayBe
		case throw > 0 && throw == e.Gate.Throw:
			return live
		}
		return dead
	case network.Relay:
		return w.relay(e)
	}
	return w.whenever(func(engine string) bool { return e.Gate.Stands(w.column.key, engine, 0) })
}

func (w *power) relay(e *network.Element) state {
	in := mayBe
	switch {
	case w.inMust[e.Gate.Coil]:
		in = live
	case !w.inMay[e.Gate.Coil]:
		in = dead
	}
	if e.Gate.Rest {
		return live - in
	}
	return in
}

// on leads on what is live: through wires, protection, diodes forwards, contacts
// that stand at least so; and through a load, where nothing beyond it ties to the
// other pole. The return side is not entered.
func (w *power) on(least state) func(i, from, to int) bool {
	cold := w.coldMay
	if least == mayBe {
		cold = w.coldMust
	}
	return func(i, from, to int) bool {
		e := &w.f.Network.Elements[i]
		switch {
		case w.f.Network.Return(to):
			return false
		case e.Kind == network.Load:
			return !cold[to] && w.conducts(e) >= least
		}
		return w.passes(e, from == e.A, least)
	}
}

// back leads from a source's other pole against the current.
func (w *power) back(least state) func(i, from, to int) bool {
	return func(i, from, _ int) bool {
		e := &w.f.Network.Elements[i]
		return e.Kind != network.Load && w.passes(e, from == e.B, least)
	}
}

func (w *power) passes(e *network.Element, forwards bool, least state) bool {
	switch e.Kind {
	case network.Source, network.Load:
		return false
	case network.Diode:
		return forwards
	case network.Contact:
		return w.contact(e) >= least
	}
	return true
}

// conducts: a load that draws only while the engine does something is open else.
func (w *power) conducts(e *network.Element) state {
	switch e.Load.When {
	case network.KeyOff:
		return w.whenever(func(string) bool { return w.column.key == "off" })
	case network.KeyOn:
		return w.whenever(func(string) bool { return w.column.key != "off" })
	case network.EngineOn:
		return w.whenever(func(engine string) bool { return engine == "idle" || engine == "running" })
	case network.Cranking:
		return w.whenever(func(engine string) bool { return engine == "cranking" })
	}
	return live
}

func (w *power) spread(seen []bool, from []int, passes func(i, from, to int) bool) {
	var todo []int
	for _, node := range from {
		if !seen[node] {
			seen[node] = true
			todo = append(todo, node)
		}
	}
	for len(todo) > 0 {
		at := todo[len(todo)-1]
		todo = todo[:len(todo)-1]
		for _, i := range w.f.Network.At[at] {
			e := &w.f.Network.Elements[i]
			if next := e.A + e.B - at; !seen[next] && passes(i, at, next) {
				seen[next] = true
				todo = append(todo, next)
			}
		}
	}
}

// of is the state of the gravest of some nodes.
func (w *power) of(nodes []int) state {
	worst := dead
	for _, n := range nodes {
		switch {
		case w.must[n]:
			return live
		case w.may[n]:
			worst = mayBe
		}
	}
	return worst
}

// sureCoils are those that no position was found for in which they are fed and do
// not pull in: hot, with the battery low, all switches open and all closed.
func sureCoils(f *facts.Facts, c column) map[int]bool {
	coils, sure := coilsOf(f), map[int]bool{}
	if len(coils) == 0 {
		return sure
	}
	closed := map[*harness.Device]int{}
	for _, d := range handSwitches(f) {
		closed[d] = 1
	}
	charge := 1.0
	for _, m := range f.Harness.Modes {
		charge = min(charge, m.Charge)
	}
	for _, i := range coils {
		sure[i] = true
	}
	for _, engine := range c.engines {
		for _, throws := range []map[*harness.Device]int{nil, closed} {
			p := f.Again(&states.Position{Key: c.key, Engine: engine, Throws: throws, Corner: states.HotLow, Charge: charge})
			for _, i := range coils {
				sure[i] = sure[i] && (p.In[i] || unfed(f, p, i))
			}
		}
	}
	return sure
}

// unfed: a coil gets next to nothing, so that it need not pull in.
func unfed(f *facts.Facts, p *states.Point, coil int) bool {
	const nothing = 0.1 // of what it pulls in at
	return math.Abs(p.Across(coil)) < nothing*f.Network.Elements[coil].Load.Coil.PullsV
}

// handSwitches lists the switches that an operator works, in the order of the
// text.
func handSwitches(f *facts.Facts) []*harness.Device {
	has := map[*harness.Device]bool{}
	for i := range f.Network.Elements {
		if e := &f.Network.Elements[i]; e.Kind == network.Contact && e.Gate.By == network.Hand {
			has[e.Device] = true
		}
	}
	var all []*harness.Device
	for _, d := range f.Harness.Devices {
		if has[d] {
			all = append(all, d)
		}
	}
	return all
}
