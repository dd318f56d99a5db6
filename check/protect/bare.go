package protect

import (
	"slices"

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
	below := make([]Below, len(r.order)) // by place in the order
	for k := len(r.order) - 1; k >= 0; k-- {
		own := r.ends(r.order[k].node)
		own.join(&below[k]) // what lies beyond comes after
		below[k] = own
		if before := r.before(k); before >= 0 {
			below[before].join(&below[k])
		}
	}
	return r.wires(below)
}

func (b *Below) join(o *Below) {
	b.Loads = append(b.Loads, o.Loads...)
	b.Fuses = append(b.Fuses, o.Fuses...)
	b.Starter = b.Starter || o.Starter
}

// before is the place of the node that one is reached from; -1 of the source's own.
func (r *Reach) before(k int) int {
	at := r.order[k]
	if at.via < 0 {
		return -1
	}
	e := &r.n.Elements[at.via]
	return int(r.at[e.A+e.B-at.node]) - 1
}

// ends is what a node leads to by itself.
func (r *Reach) ends(node int) Below {
	var b Below
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
func (r *Reach) wires(below []Below) ([]*harness.Wire, map[*harness.Wire]*Below) {
	var list []*harness.Wire
	found := map[*harness.Wire]*Below{}
	for k, at := range r.order {
		if at.via < 0 || r.n.Elements[at.via].Wire == nil {
			continue
		}
		w := r.n.Elements[at.via].Wire
		below[k].Upstream = r.upstream(r.before(k))
		list = append(list, w)
		found[w] = &below[k]
	}
	return list, found
}

// upstream is the wire next to a place in the order on the way to the source, or
// nil.
func (r *Reach) upstream(k int) *harness.Wire {
	for ; r.order[k].via >= 0; k = r.before(k) {
		if w := r.n.Elements[r.order[k].via].Wire; w != nil {
			return w
		}
	}
	return nil
}

// WayTo lists the wires from the source to a node, the source's end first, and
// the distance along them.
func (r *Reach) WayTo(node int) (way []*harness.Wire, distM float64, known bool) {
	end := r.visit(node)
	for at := end; at.via >= 0; {
		e := &r.n.Elements[at.via]
		if e.Wire != nil {
			way = append(way, e.Wire)
		}
		at = r.visit(e.A + e.B - at.node)
	}
	slices.Reverse(way)
	return way, end.distM, !end.unknown
}
