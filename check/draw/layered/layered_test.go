package layered_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"hame/check/draw/layered"
)

// random makes a graph of boxes with one to four rows, wires between any of them,
// loops too; each end on a place of its own.
func random(r *rand.Rand, nodes, wires, layers int) *layered.Graph {
	g := &layered.Graph{}
	for range nodes {
		n := layered.Node{Layer: r.IntN(layers), WidthMM: float64(10 + 2*r.IntN(8))}
		for range 1 + r.IntN(4) {
			n.Rows = append(n.Rows, layered.Row{UpMM: float64(2 + 2*r.IntN(3)), DownMM: float64(2 + 2*r.IntN(3))})
		}
		g.Nodes = append(g.Nodes, n)
	}
	landed := map[[3]int]int{}
	end := func() layered.End {
		n := r.IntN(nodes)
		e := layered.End{Node: n, Row: r.IntN(len(g.Nodes[n].Rows)), Right: r.IntN(2) == 0, Pool: r.IntN(3)}
		side := 0
		if e.Right {
			side = 1
		}
		key := [3]int{n, e.Row, side}
		e.OffsetMM = float64(4 * landed[key])
		if landed[key]++; landed[key] > 1 {
			row := &g.Nodes[n].Rows[e.Row]
			row.DownMM = max(row.DownMM, e.OffsetMM+2)
		}
		return e
	}
	for range wires {
		g.Wires = append(g.Wires, layered.Wire{Ends: [2]layered.End{end(), end()}, LabelMM: float64(r.IntN(14))})
	}
	return g
}

// stretch is a piece of a wire.
type stretch struct {
	wire int
	a, b layered.Point
}

func stretches(l *layered.Layout) (level, upright []stretch) {
	for w, p := range l.Wires {
		for i := 1; i < len(p.Points); i++ {
			a, b := p.Points[i-1], p.Points[i]
			s := stretch{w, layered.Point{X: min(a.X, b.X), Y: min(a.Y, b.Y)}, layered.Point{X: max(a.X, b.X), Y: max(a.Y, b.Y)}}
			switch {
			case a == b:
			case a.Y == b.Y:
				level = append(level, s)
			default:
				upright = append(upright, s)
			}
		}
	}
	return level, upright
}

// faults lists what must never be: a slanting line, wires that share a stretch,
// wires through boxes, boxes on each other, ends off their rows.
func faults(g *layered.Graph, l *layered.Layout) []string {
	var list []string
	say := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	level, upright := stretches(l)
	for i, s := range upright {
		if s.a.X != s.b.X {
			say("wire %d slants", s.wire)
		}
		for _, o := range upright[:i] {
			if s.wire != o.wire && math.Abs(s.a.X-o.a.X) < 1 && s.a.Y < o.b.Y+0.9 && o.a.Y < s.b.Y+0.9 {
				say("wires %d and %d share an upright", s.wire, o.wire)
			}
		}
	}
	for i, s := range level {
		for _, o := range level[:i] {
			if s.wire != o.wire && math.Abs(s.a.Y-o.a.Y) < 0.95 && s.a.X < o.b.X && o.a.X < s.b.X {
				say("wires %d and %d share a level at %g", s.wire, o.wire, s.a.Y)
			}
		}
	}
	for i, n := range l.Nodes {
		rows := g.Nodes[i].Rows
		top, bottom := n.RowsMM[0]-rows[0].UpMM, n.RowsMM[len(rows)-1]+rows[len(rows)-1].DownMM
		if top < 0 || bottom > l.HeightMM || n.RightMM > l.WidthMM {
			say("box %d leaves the page", i)
		}
		for j, o := range l.Nodes[:i] {
			other := g.Nodes[j].Rows
			if n.LeftMM < o.RightMM && o.LeftMM < n.RightMM && top < o.RowsMM[len(other)-1]+other[len(other)-1].DownMM && o.RowsMM[0]-other[0].UpMM < bottom {
				say("boxes %d and %d overlap", i, j)
			}
		}
		for _, s := range append(append([]stretch{}, level...), upright...) {
			if s.a.X < n.RightMM && n.LeftMM < s.b.X && s.a.Y < bottom && top < s.b.Y {
				say("wire %d runs through box %d", s.wire, i)
			}
		}
	}
	for w, p := range l.Wires {
		for k, at := range []layered.Point{p.Points[0], p.Points[len(p.Points)-1]} {
			e := l.Ends[w][k]
			n := l.Nodes[e.Node]
			x := n.LeftMM
			if e.Right {
				x = n.RightMM
			}
			if at.X != x || at.Y != n.RowsMM[e.Row]+e.OffsetMM {
				say("wire %d: end %d is off its row", w, k)
			}
		}
	}
	return list
}

// TestSound: whatever the graph, nothing overlaps, and the same graph gives the
// same layout.
func TestSound(t *testing.T) {
	for seed := range uint64(400) {
		r := rand.New(rand.NewPCG(seed, 7))
		g := random(r, 1+r.IntN(25), r.IntN(50), 1+r.IntN(6))
		l := layered.Lay(g)
		for _, f := range faults(g, l) {
			t.Errorf("seed %d: %s", seed, f)
		}
		if !reflect.DeepEqual(l, layered.Lay(g)) {
			t.Errorf("seed %d: laid out twice, it differs", seed)
		}
		if t.Failed() {
			return
		}
	}
}

// TestStraight: a chain is laid out as one straight line, and a ladder without a
// crossing: what needs none has none.
func TestStraight(t *testing.T) {
	g := &layered.Graph{}
	for n := range 8 {
		g.Nodes = append(g.Nodes, layered.Node{Layer: n % 4, WidthMM: 10, Rows: []layered.Row{{UpMM: 4, DownMM: 4}}})
		if n%4 > 0 {
			g.Wires = append(g.Wires, layered.Wire{Ends: [2]layered.End{{Node: n - 1, Right: true}, {Node: n}}})
		}
	}
	if l := layered.Lay(g); l.Crossings != 0 || l.Bends != 0 {
		t.Errorf("two chains: %d crossings, %d bends", l.Crossings, l.Bends)
	}
}

// TestSwapped: two boxes that stand in each other's heights need a step: both
// wires reach to both sides at the two heights.
func TestSwapped(t *testing.T) {
	rows := []layered.Row{{UpMM: 2, DownMM: 2}, {UpMM: 2, DownMM: 2}}
	g := &layered.Graph{
		Nodes: []layered.Node{{Layer: 0, WidthMM: 10, Rows: rows}, {Layer: 1, WidthMM: 10, Rows: rows}},
		Wires: []layered.Wire{
			{Ends: [2]layered.End{{Node: 0, Row: 0, Right: true}, {Node: 1, Row: 1}}},
			{Ends: [2]layered.End{{Node: 0, Row: 1, Right: true}, {Node: 1, Row: 0}}},
		},
	}
	l := layered.Lay(g)
	if l.Crossings != 1 {
		t.Errorf("%d crossings, one is needed", l.Crossings)
	}
	for _, f := range faults(g, l) {
		t.Error(f)
	}
}

// TestRank: layers follow the arrows, and a circle does not go on for ever.
func TestRank(t *testing.T) {
	got := layered.Rank(5, [][2]int{{0, 1}, {1, 2}, {0, 2}, {2, 0}, {3, 3}})
	if want := []int{0, 1, 2, 0, 0}; !reflect.DeepEqual(got, want) {
		t.Errorf("got %v, want %v", got, want)
	}
}

// BenchmarkLay lays out graphs of a number of wires.
func BenchmarkLay(b *testing.B) {
	for _, wires := range []int{40, 200, 1000, 5000} {
		g := random(rand.New(rand.NewPCG(1, 1)), wires*2/3, wires, 6+wires/200)
		b.Run(fmt.Sprint(wires), func(b *testing.B) {
			for b.Loop() {
				layered.Lay(g)
			}
		})
	}
}
