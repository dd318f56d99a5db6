package harness

import (
	"container/heap"
	"fmt"
	"slices"
	"strings"

	"hame/lang/kinds"
	"hame/lang/slab"
)

// route finds every wire's path through the bundles and its length, then the
// members and the diameter of every bundle.
func (b *binder) route() {
	r := router{trees: map[*Place]map[*Place]hop{}}
	for _, w := range b.h.Wires {
		args, via := w.Args("via")
		switch {
		case via && unread(args):
			w.Via, w.unsaid = true, true
		case via:
			b.via(w, args.All(""))
		default:
			r.shortest(w)
		}
		b.cutLength(w)
	}
	b.zoneWires()
	b.gather()
	for _, bundle := range b.h.Bundles {
		bundle.DiameterMM = diameterMM(bundle.Members)
	}
}

// cutLength: a length that is said is the cut length; a routed wire is its
// route and slack at both ends.
func (b *binder) cutLength(w *Wire) {
	if w.LengthSaid || !w.Reached || b.unsaid(w) {
		return
	}
	slack := b.h.SlackM
	if v, ok := w.SI("slack"); ok {
		slack = v
	}
	w.LengthM = 2 * slack
	for _, bundle := range w.Route {
		w.LengthM += bundle.LengthM
	}
	w.HasLength = w.LengthM > 0
}

// unsaid reports whether a wire's length hangs on what is given with a mistake:
// its own length, the slack, or the length of a bundle on its way.
func (b *binder) unsaid(w *Wire) bool {
	slack := b.h.mistaken[fact{w.Name, "slack"}] || !w.Has("slack") && b.h.mistaken[fact{b.h.Name, "slack"}]
	w.unsaid = w.unsaid || slack || slices.ContainsFunc(w.Route, func(x *Bundle) bool { return x.unmeasured })
	return w.unsaid
}

// via follows the bundles that the wire names, in their order.
func (b *binder) via(w *Wire, names []kinds.Arg) {
	w.Via = true
	for _, a := range names {
		e := b.h.names[a.Word]
		if e == nil || as[Bundle](e) == nil { // said as an unknown name
			w.Route, w.unsaid = nil, true
			return
		}
		w.Route = append(w.Route, as[Bundle](e))
	}
	at, ok := follow(w.Route, w.Ends[0].Place())
	last := w.Ends[1].Place()
	switch {
	case ok && (last == nil || at == nil || at == last):
		w.Reached = true
	case w.Misplaced() || slices.ContainsFunc(w.Route, func(x *Bundle) bool { return x.From == nil || x.To == nil }):
		w.Route, w.unsaid = nil, true
	default:
		span := names[0].Span.Join(names[len(names)-1].Span)
		w.unsaid = true
		f := b.say(w.Origin.File, span, "graph/unreachable", w.Name, "the bundles of `via` do not lead from %s to %s one after another: %s", whereOf(w.Ends[0]), whereOf(w.Ends[1]), breaks(w))
		f.Figures = append(f.Figures, "via "+bundleNames(w.Route))
		w.Route = nil
	}
}

// follow walks bundles from a place; from nowhere, it takes the end that fits.
func follow(route []*Bundle, at *Place) (*Place, bool) {
	if at == nil && len(route) > 0 && route[0].From != nil {
		if end, ok := follow(route, route[0].From); ok {
			return end, true
		}
		at = route[0].To
	}
	for _, bundle := range route {
		switch at {
		case bundle.From:
			at = bundle.To
		case bundle.To:
			at = bundle.From
		default:
			return nil, false
		}
	}
	return at, true
}

// breaks says which bundle of a route does not go on from the one before it, or
// where the last one leads.
func breaks(w *Wire) string {
	at := w.Ends[0].Place()
	if at == nil {
		at = w.Route[0].From
	}
	for _, bundle := range w.Route {
		switch at {
		case bundle.From:
			at = bundle.To
		case bundle.To:
			at = bundle.From
		default:
			return fmt.Sprintf("`%s`, from `%s` to `%s`, does not touch `%s`", bundle.Name, bundle.From.Name, bundle.To.Name, at.Name)
		}
	}
	return fmt.Sprintf("`%s` leads to `%s`", w.Route[len(w.Route)-1].Name, at.Name)
}

func whereOf(e End) string {
	if p := e.Place(); p != nil {
		return "`" + p.Name + "` (" + e.Name() + ")"
	}
	return e.Name()
}

func bundleNames(route []*Bundle) string {
	var names []string
	for _, b := range route {
		names = append(names, b.Name)
	}
	return strings.Join(names, ", ")
}

// router keeps the shortest paths from each place that was asked for.
type router struct {
	trees map[*Place]map[*Place]hop
	room  slab.Of[*Bundle]
}

// hop is how a place is reached: over which bundle, and how far it is in all.
type hop struct {
	from    *Place
	over    *Bundle
	lengthM float64
	bundles int
}

// shortest routes a wire between the places of its ends. Of equal lengths the
// one of fewer bundles wins, then the one that is declared first.
func (r *router) shortest(w *Wire) {
	from, to := w.Ends[0].Place(), w.Ends[1].Place()
	if from == nil || to == nil {
		return
	}
	if from == to {
		w.Reached = true
		return
	}
	tree, ok := r.trees[from]
	if !ok {
		tree = paths(from)
		r.trees[from] = tree
	}
	if _, w.Reached = tree[to]; !w.Reached {
		return
	}
	w.Route = r.room.Take(tree[to].bundles)
	for at, i := to, len(w.Route)-1; at != from; at, i = tree[at].from, i-1 {
		w.Route[i] = tree[at].over
	}
}

// paths finds the shortest way from one place to all others (Dijkstra).
func paths(from *Place) map[*Place]hop {
	done := map[*Place]hop{}
	best := map[*Place]hop{from: {}}
	q := &queue{{place: from}}
	for q.Len() > 0 {
		next := heap.Pop(q).(step)
		if _, ok := done[next.place]; ok {
			continue
		}
		done[next.place] = best[next.place]
		for _, b := range next.place.Bundles {
			other := b.From
			if other == next.place {
				other = b.To
			}
			if other == nil {
				continue
			}
			h := hop{next.place, b, done[next.place].lengthM + b.LengthM, done[next.place].bundles + 1}
			if old, ok := best[other]; !ok || shorter(h, old) {
				best[other] = h
				heap.Push(q, step{other, h, len(done)})
			}
		}
	}
	return done
}

func shorter(a, b hop) bool {
	if a.lengthM != b.lengthM {
		return a.lengthM < b.lengthM
	}
	return a.bundles < b.bundles
}

// step is a place that waits to be visited.
type step struct {
	place *Place
	hop   hop
	order int
}

type queue []step

func (q queue) Len() int      { return len(q) }
func (q queue) Swap(i, j int) { q[i], q[j] = q[j], q[i] }
func (q queue) Less(i, j int) bool {
	if q[i].hop.lengthM != q[j].hop.lengthM || q[i].hop.bundles != q[j].hop.bundles {
		return shorter(q[i].hop, q[j].hop)
	}
	return q[i].order < q[j].order
}
func (q *queue) Push(x any) { *q = append(*q, x.(step)) }
func (q *queue) Pop() any {
	last := (*q)[len(*q)-1]
	*q = (*q)[:len(*q)-1]
	return last
}
