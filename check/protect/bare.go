package protect

import (
	"hame/check/network"
	"hame/lang/harness"
)

// Below is what a wire that a source reaches with no device leads to, seen
// from the source.
type Below struct {
	Loads    []int // Load elements, other sources and dead ends that nothing protects
	Fuses    []int // Fuse elements that the wire feeds
	Starter  bool  // it leads to a starter
	Upstream *harness.Wire
}

// Bare lists the wires that the source reaches with no device between, with
// what each leads to, in the order of their distance.
func (r *Reach) Bare() ([]*harness.Wire, map[*harness.Wire]*Below) {
	below := map[int]*Below{} // by node
	for i := len(r.order) - 1; i >= 0; i-- {
		node := r.order[i]
		b := r.ends(node)
		for _, child := range below[node].children() {
			b.join(child)
		}
		r.settle(below, node, b)
	}
	return r.wires(below)
}

func (b *Below) children() []*Below {
	if b == nil {
		return nil
	}
	return []*Below{b}
}

func (b *Below) join(o *Below) {
	b.Loads = append(b.Loads, o.Loads...)
	b.Fuses = append(b.Fuses, o.Fuses...)
	b.Starter = b.Starter || o.Starter
}

// settle keeps what a node and all beyond it lead to, and adds it to the node
// before.
func (r *Reach) settle(below map[int]*Below, node int, b *Below) {
	below[node] = b
	via := r.via[node]
	if via < 0 {
		return
	}
	e := r.n.Elements[via]
	before := e.A + e.B - node
	if below[before] == nil {
		below[before] = &Below{}
	}
	below[before].join(b)
}

// ends is what a node leads to by itself.
func (r *Reach) ends(node int) *Below {
	b := &Below{}
	touching := r.n.At[node]
	for _, i := range touching {
		e := &r.n.Elements[i]
		switch {
		case i == r.Source || e.Kind == network.Load && e.Load.Hidden():
		case e.Kind == network.Fuse:
			b.Fuses = append(b.Fuses, i)
		case e.Kind == network.Load && e.Load.Sort == "starter":
			b.Starter = true
		case e.Kind == network.Load, e.Kind == network.Source:
			b.Loads = append(b.Loads, i)
		}
	}
	if len(touching) == 1 && r.n.Elements[touching[0]].Kind == network.Wire {
		b.Loads = append(b.Loads, touching[0])
	}
	return b
}

// wires lists the wires by which nodes are reached, and those that close a
// ring, which lead to nothing of their own.
func (r *Reach) wires(below map[int]*Below) ([]*harness.Wire, map[*harness.Wire]*Below) {
	var list []*harness.Wire
	found := map[*harness.Wire]*Below{}
	for _, node := range r.order {
		via := r.via[node]
		if via < 0 || r.n.Elements[via].Wire == nil {
			continue
		}
		w := r.n.Elements[via].Wire
		b := *below[node]
		b.Upstream = r.upstream(r.n.Elements[via].A + r.n.Elements[via].B - node)
		list = append(list, w)
		found[w] = &b
	}
	return list, found
}

// upstream is the wire next to a node on the way to the source, or nil.
func (r *Reach) upstream(node int) *harness.Wire {
	for r.via[node] >= 0 {
		e := r.n.Elements[r.via[node]]
		if e.Wire != nil {
			return e.Wire
		}
		node = e.A + e.B - node
	}
	return nil
}

// WayTo lists the wires from the source to a node, the source's end first, and
// the distance along them.
func (r *Reach) WayTo(node int) (way []*harness.Wire, distM float64, known bool) {
	distM, known = r.distM[node], !r.unknown[node]
	for r.via[node] >= 0 {
		e := r.n.Elements[r.via[node]]
		if e.Wire != nil {
			way = append([]*harness.Wire{e.Wire}, way...)
		}
		node = e.A + e.B - node
	}
	return way, distM, known
}
