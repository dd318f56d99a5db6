package sheets

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hame/check/facts"
	"hame/check/figures"
	"hame/check/network"
	"hame/check/rules"
	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// part is what one part may carry and what it does.
type part struct {
	kind, item, place string
	capacity          *float64 // A; nil where it is not known
	used              float64
	bound             bool   // it carries no more than used
	by                string // whose word the capacity is
	brief             string // what it carries for seconds, beside that
	existing          bool
	beyond            bool   // it lies ahead of a converter, and its amperes are counted behind it
	lacks             string // the fact that the capacity waits for
}

func (r part) left() float64 { return *r.capacity - r.used }

func (r part) usedCell() sheet.Cell {
	if r.bound {
		return atMost(r.used)
	}
	return figure(r.used)
}

func (r part) leftCell() sheet.Cell {
	if r.capacity == nil {
		return sheet.Is(unknown)
	}
	return figure(r.left())
}

// roomWork is what the sheet is made from.
type roomWork struct {
	*Pack
	asked     rules.Asked
	rails     *facts.Rails
	rows      []part
	byElement map[int]int // of wires, devices and contacts: their row
	byNode    map[int]int // of studs, buses, splices and panels' feeds: their row
	charging  int         // the row of the alternator in its worst mode; -1 where there is none
	cited     []string    // where what is published comes from, each once
}

func newRoomWork(p *Pack) *roomWork {
	w := &roomWork{Pack: p, asked: rules.Ask(p.Facts), rails: p.Facts.Rails(), byElement: map[int]int{}, byNode: map[int]int{}, charging: -1}
	w.elements(network.Fuse, w.fuse)
	w.panels()
	w.elements(network.Wire, w.wire)
	w.elements(network.Contact, w.contact)
	w.elements(network.Joint, w.cavity)
	w.points()
	w.elements(network.Source, w.converter)
	w.alternators()
	return w
}

func (w *roomWork) add(r part) int {
	w.rows = append(w.rows, r)
	return len(w.rows) - 1
}

// elements adds a row for each element of a kind that has one.
func (w *roomWork) elements(kind network.Kind, row func(i int, e *network.Element) (part, bool)) {
	for i := range w.Facts.Network.Elements {
		if e := &w.Facts.Network.Elements[i]; e.Kind == kind {
			if r, ok := row(i, e); ok {
				w.byElement[i] = w.add(r)
			}
		}
	}
}

func (w *roomWork) steady(i int) (amps float64, bound bool) {
	worst := w.Facts.Steady(i)
	return worst.Amps, worst.Bound
}

func (w *roomWork) fuse(i int, e *network.Element) (part, bool) {
	d := e.Fuse
	r := part{kind: sortOf(d), item: d.Name, place: unknown, lacks: "a rating", existing: d.Of.Existing}
	if d.AtPlace != nil {
		r.place = d.AtPlace.Name
	}
	r.used, r.bound = w.steady(i)
	if d.Of.Is(kinds.Supply, "tap") {
		r.kind = "tap"
	}
	if d.RatingA > 0 {
		share, from := w.asked.SteadyShare(d)
		capacity := d.RatingA * share
		r.capacity = &capacity
		r.by = fmt.Sprintf("%s %% of %s A", wording.Number(100*share), wording.Number(d.RatingA))
		w.cited = once(w.cited, fmt.Sprintf("%s %% of a device's rating: %s", wording.Number(100*share), wording.Cited(from)))
	} else if d.Sort == "link" {
		r.by, r.lacks = "a link has no rating", "a rating (a link has none)"
	}
	return r, true
}

func (w *roomWork) panels() {
	for n, d := range w.Harness.Devices {
		if !d.Is(kinds.Protection, "panel") {
			continue
		}
		r := part{kind: "panel", item: d.Name, place: placeOf(d), by: "its own limit", lacks: "`limit`", existing: d.Existing}
		if limit, ok := d.SI("limit"); ok {
			r.capacity = &limit
		}
		if fd := w.Figures.Devices[n]; fd.WorstA != nil {
			r.used, r.bound = *fd.WorstA, fd.Worst != nil && fd.Worst.Bound
		}
		w.byNode[d.Terminal("feed").Index] = w.add(r)
	}
}

// wire is a row for a feeder or a shared return; others have one for the sake of
// the ways that lead through them, and are not listed.
func (w *roomWork) wire(i int, e *network.Element) (part, bool) {
	wire := e.Wire
	fw := w.Facts.Wire(wire)
	if !w.shared(wire, fw.Side) {
		return part{}, false
	}
	r := part{kind: "feeder", item: wire.Name, place: runWords(wire), lacks: "gauge, insulation or an ambient", existing: wire.Existing}
	if fw.Side == figures.Return {
		r.kind = "return"
	}
	r.used, r.bound = w.steady(i)
	if worst := w.Facts.Survey.Worst[i]; worst.Amps > r.used*1.001 {
		r.brief = "; " + figure(worst.Amps).Words + " A while the engine cranks"
	}
	if fw.Ampacity != nil {
		r.capacity, r.by = &fw.Ampacity.Amps, sizeWords(wire)
		w.cited = once(w.cited, "a wire's ampacity, after the ambient's factor: "+wording.Cited(fw.Ampacity.Source))
	}
	return r, true
}

// shared reports whether a wire lies between what serves several loads: neither
// of its ends is a load's own terminal.
func (w *roomWork) shared(wire *harness.Wire, side figures.Side) bool {
	if side == figures.Return {
		return w.Facts.Shared(wire)
	}
	return !slices.ContainsFunc(wire.Ends[:], func(e harness.End) bool {
		return e.Terminal == nil || len(e.Terminal.Wires) == 1 && (e.Terminal.Device.Is(kinds.Load) || e.Terminal.Device.Is(kinds.Switch, "relay") && strings.HasPrefix(e.Terminal.Name, "8") && len(e.Terminal.Name) == 2 && e.Terminal.Name != "87")
	})
}

// runWords is from where to where a wire runs.
func runWords(w *harness.Wire) string {
	from, to := placeOfEnd(w.Ends[0]), placeOfEnd(w.Ends[1])
	switch {
	case from == to, to == unknown:
		return from
	case from == unknown:
		return to
	}
	return from + " to " + to
}

func (w *roomWork) contact(i int, e *network.Element) (part, bool) {
	if e.Gate.By == network.Tap {
		return part{}, false
	}
	c := w.asked.Contact(i, w.rails)
	r := part{kind: e.Device.Kind.Name + " contact", item: contactName(w.Facts.Network, e), place: placeOf(e.Device), capacity: c.RatingA, used: c.AsksA, bound: c.Bound, lacks: "a rating", existing: e.Device.Existing}
	if c.RatingA != nil {
		r.by = "rated for " + c.For + " loads"
	}
	return r, true
}

// contactName is a contact by the terminal that it leads to: "k1.87".
func contactName(n *network.Network, e *network.Element) string {
	for _, t := range e.Device.Terminals {
		if t.Index == e.B && len(e.Device.Terminals) > 2 {
			return t.FullName()
		}
	}
	return e.Name
}

func (w *roomWork) cavity(i int, e *network.Element) (part, bool) {
	if e.Device == nil || !e.Device.Is(kinds.Join, "connector") {
		return part{}, false
	}
	r := part{kind: "connector contact", item: e.Device.Name + strings.TrimPrefix(e.Terminal.Name, "female"), place: placeOf(e.Device), by: "its own limit", lacks: "`limit`", existing: e.Device.Existing}
	worst := w.Facts.Survey.Worst[i]
	if r.used, r.bound = worst.Amps, worst.Bound; r.used == 0 && len(e.Terminal.Wires) == 0 {
		return part{}, false
	}
	if limit, ok := e.Device.SI("limit"); ok {
		r.capacity = &limit
	}
	return r, true
}

// converter is a row for what a converter gives.
func (w *roomWork) converter(i int, e *network.Element) (part, bool) {
	if e.Source.Sort != "converter" {
		return part{}, false
	}
	r := part{kind: "converter", item: e.Name, place: placeOf(e.Device), by: "its output", lacks: "`output`", existing: e.Device.Existing}
	r.used, r.bound = w.steady(i)
	if e.Source.OutputA > 0 {
		output := e.Source.OutputA
		r.capacity = &output
	}
	return r, true
}

// points adds studs, buses and splices: what goes through one is at most half of
// all that its wires bring and take at their worst.
func (w *roomWork) points() {
	for _, d := range w.Harness.Devices {
		if !d.Is(kinds.Join, "stud", "bus", "splice") && !d.Is(kinds.Ground, "stud", "bus") {
			continue
		}
		node := d.Terminals[0].Index
		r := part{kind: d.Kind.Title(), item: d.Name, place: placeOf(d), by: "its own limit", lacks: "`limit`", existing: d.Existing}
		for _, i := range w.Facts.Network.At[node] {
			r.used += w.Facts.Survey.Worst[i].Amps / 2
		}
		if limit, ok := d.SI("limit"); ok {
			r.capacity = &limit
		} else {
			r.by = ""
		}
		r.bound = r.used > 0
		w.byNode[node] = w.add(r)
	}
}

// alternators adds what the alternators have left in the mode in which that is
// the least, cranking and shorted ones left out.
func (w *roomWork) alternators() {
	least := math.Inf(1)
	var worst part
	for n, m := range w.Harness.Modes {
		output, known := w.alternatorA(m)
		if m.Engine != "idle" && m.Engine != "running" || output == 0 || w.unsolved(n) != "" {
			continue
		}
		capacity := output * w.alternatorShare()
		r := part{kind: "alternator", item: w.alternatorNames() + " in " + m.Name, place: "", capacity: &capacity, used: w.Facts.BalanceIn(w.Facts.Survey.Modes[n]).LoadA(), lacks: "`idle`"}
		r.by = fmt.Sprintf("%s %% of %s A, engine %s", wording.Number(100*w.alternatorShare()), wording.Number(output), m.Engine)
		if !known {
			r.capacity = nil
		}
		if left := capacity - r.used; left < least {
			least, worst = left, r
		}
	}
	if l, ok := w.Facts.Practice.Limit("alternator_load", ""); ok && !math.IsInf(least, 1) {
		w.cited = once(w.cited, wording.Number(l.Value)+" % of an alternator's output, charging left out: "+wording.Cited(l.Source))
	}
	if !math.IsInf(least, 1) {
		w.charging = w.add(worst)
	}
}

func (w *roomWork) alternatorNames() string {
	var names []string
	for _, i := range w.Facts.Sources() {
		if e := &w.Facts.Network.Elements[i]; e.Source.Sort == "alternator" {
			names = append(names, e.Name)
		}
	}
	return strings.Join(names, " and ")
}

// landings counts what lands on a stud or bus or in a connector against what it
// holds; holds is 0 where nobody says.
func (w *roomWork) landings(d *harness.Device) (holds, used int, counted, by string, ok bool) {
	switch {
	case d.Is(kinds.Ground, "stud"), d.Is(kinds.Join, "stud"):
		n, by, _ := w.asked.RingsHeld(d)
		return int(n), len(d.Terminals[0].Wires), "rings", by, true
	case d.Is(kinds.Ground, "bus"), d.Is(kinds.Join, "bus"):
		n, _ := d.SI("ways")
		return int(n), len(d.Terminals[0].Wires), "ways", "its own ways", true
	case d.Is(kinds.Join, "connector"):
		n, _ := d.SI("ways")
		wired := map[string]bool{}
		for _, t := range d.Terminals {
			if _, cavity, _ := strings.Cut(t.Name, "."); len(t.Wires) > 0 {
				wired[cavity] = true
			}
		}
		return int(n), len(wired), "cavities", "its own ways", true
	}
	return 0, 0, "", "", false
}
