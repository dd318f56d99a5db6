package trial

import (
	"math"

	"hame/check/network"
	"hame/lang/harness"
	"hame/lang/kinds"
)

const (
	pairMostOhm   = 0.5 // an intended pair, leads set to nothing (common practice, no source)
	apartLeastOhm = 1e6 // a pair that must not connect, in ohm (common practice, no source)
)

// bench plans what is measured with no power and everything unplugged.
func (p *planner) bench() {
	for _, w := range p.f.Harness.Wires {
		if !w.Existing && w.Ends[0].Capped && w.Ends[1].Capped {
			p.lack("%s has both ends capped, so that no probe reaches it", w.Name)
		}
		if !w.Existing && ended(w) {
			p.pair("cont:"+w.Name, w.Name, w.Ends[0].Name(), w.Ends[1].Name(), p.n.OfWire(w))
		}
	}
	for i := range p.n.Elements {
		e := &p.n.Elements[i]
		if e.Kind == network.Joint && isNew(e) && e.Device.Is(kinds.Join, "connector") && p.wired(e.A) && p.wired(e.B) {
			p.pair("cont:"+p.names[e.A], p.names[e.A], p.names[e.A], p.names[e.B], i)
		}
	}
	p.apart()
}

// wired: a wire lands on the node.
func (p *planner) wired(node int) bool {
	for _, i := range p.n.At[node] {
		if p.n.Elements[i].Wire != nil {
			return true
		}
	}
	return false
}

func (p *planner) pair(id, name, from, to string, element int) {
	ohm := p.n.Elements[element].Ohm
	p.add(Line{
		ID: id, Kind: Continuity, Name: name, From: from, To: to, Unit: Ohms,
		Expect: &ohm, Low: 0, High: max(pairMostOhm, ohm+Ohms.Tolerance(ohm)),
		Probe: Probe{Setting: -1, Element: element},
	})
}

// net is what wires and joints alone tie together.
type net struct {
	first string // its first new wire, by which it goes
	at    string // a terminal of it
	back  bool   // it is the return
}

// apart plans the pairs that must not connect: each net against the return, and
// against the one beside it in every connector, panel and bundle. That is no
// proof for any two nets: what runs side by side is what rubs through.
func (p *planner) apart() {
	tied := p.n.Tied()
	nets := p.nets(tied)
	done := map[[2]int]bool{}
	for _, w := range p.f.Harness.Wires {
		if n := p.netOf(nets, tied, w); n != nil && n.first == w.Name && !n.back {
			if ground, ok := p.groundOf(); ok {
				p.open("iso:"+n.first+":return", n.first, n.at, ground)
			}
		}
	}
	for _, row := range p.rows() {
		last := -1
		for _, w := range row {
			if n := p.netOf(nets, tied, w); n == nil || n.back {
				continue
			}
			this := tied[p.n.Elements[p.n.OfWire(w)].A]
			if last >= 0 && this != last && !done[[2]int{min(last, this), max(last, this)}] {
				done[[2]int{min(last, this), max(last, this)}] = true
				a, b := nets[last], nets[this]
				p.open("iso:"+a.first+":"+b.first, a.first, a.at, b.at)
			}
			last = this
		}
	}
}

func (p *planner) open(id, name, from, to string) {
	expect := math.Inf(1)
	p.add(Line{
		ID: id, Kind: Isolation, Name: name, From: from, To: to, Unit: Megohms,
		Expect: &expect, Low: apartLeastOhm, High: math.Inf(1), Probe: Probe{Setting: -1, Element: -1},
	})
}

// nets finds the nets that have a new wire with an end to probe.
func (p *planner) nets(tied []int) map[int]*net {
	nets := map[int]*net{}
	for _, w := range p.f.Harness.Wires {
		e := &p.n.Elements[p.n.OfWire(w)]
		if w.Existing || nets[tied[e.A]] != nil {
			continue
		}
		for _, node := range []int{e.A, e.B} {
			if node < len(p.names) && p.names[node] != "" {
				nets[tied[e.A]] = &net{first: w.Name, at: p.names[node], back: p.n.Return(e.A)}
				break
			}
		}
	}
	return nets
}

func (p *planner) netOf(nets map[int]*net, tied []int, w *harness.Wire) *net {
	if w.Existing {
		return nil
	}
	return nets[tied[p.n.Elements[p.n.OfWire(w)].A]]
}

// groundOf is where the return is probed: at a chassis, else at the grounded
// pole's terminal.
func (p *planner) groundOf() (string, bool) {
	for _, node := range p.n.Grounds() {
		if p.names[node] != "" {
			return p.names[node], true
		}
	}
	return "", false
}

// rows are the wires that lie side by side: by cavity, by way, in a bundle.
func (p *planner) rows() [][]*harness.Wire {
	var rows [][]*harness.Wire
	for _, d := range p.f.Harness.Devices {
		switch {
		case d.Is(kinds.Join, "connector"):
			rows = append(rows, landing(d, "female."), landing(d, "male."))
		case d.Is(kinds.Protection, "panel"):
			rows = append(rows, landing(d, ""))
		}
	}
	for _, b := range p.f.Harness.Bundles {
		rows = append(rows, b.Members)
	}
	return rows
}

// landing lists the wires on a device's terminals whose names begin so, in the
// terminals' order.
func landing(d *harness.Device, start string) []*harness.Wire {
	var list []*harness.Wire
	for _, t := range d.Terminals {
		if len(t.Name) > len(start) && t.Name[:len(start)] == start {
			list = append(list, t.Wires...)
		}
	}
	return list
}
