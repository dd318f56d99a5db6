package wiring

import (
	"hame/check/draw"
	"hame/check/draw/layered"
	"hame/check/draw/symbols"
)

// paint draws a block at its own origin.
func (s *scheme) paint(k *block) []draw.Item {
	var items []draw.Item
	for i, r := range k.runs {
		items = append(items, s.wire(r, k.layout.Wires[i]))
	}
	for i, n := range k.nodes {
		if n.flag != nil {
			items = append(items, n.flag.paint(k.layout.Nodes[i]))
		} else {
			items = append(items, s.device(n, k.layout.Nodes[i]))
		}
	}
	return items
}

func (s *scheme) wire(r *run, p layered.Path) draw.Group {
	points := make([]draw.Point, len(p.Points))
	for i, at := range p.Points {
		points[i] = draw.Point(at)
	}
	points = simple(points)
	label := r.label(s).draw(draw.Point(p.Label), p.AtEnd)
	if r.wire == nil {
		line := draw.Line{Points: points, Ink: draw.Ink{WidthMM: 0.7, Colour: draw.Black}}
		return draw.Group{Sort: draw.Note, Name: r.bond.device.Name, Tip: "bonded to its chassis", Items: append([]draw.Item{line}, label...)}
	}
	return draw.Group{
		Sort: draw.Wire, Name: r.wire.Name, Tip: s.wireTip(r.wire), Live: s.mode.wireLive(r.wire),
		Items: append(strand(r.wire, points, s.mode.wireLive(r.wire)), label...),
	}
}

// simple leaves out points on a straight line.
func simple(points []draw.Point) []draw.Point {
	var out []draw.Point
	for _, p := range points {
		n := len(out)
		switch {
		case n > 0 && out[n-1] == p:
		case n > 1 && (out[n-2].X == p.X && out[n-1].X == p.X || out[n-2].Y == p.Y && out[n-1].Y == p.Y):
			out[n-1] = p
		default:
			out = append(out, p)
		}
	}
	return out
}

func (f *flag) paint(at layered.Placed) draw.Group {
	x, outwards := at.LeftMM, 1.0
	if f.right {
		x, outwards = at.RightMM, -1
	}
	name, _ := f.words()
	return draw.Group{Sort: draw.Note, Name: name, Items: f.draw(quill{x, at.RowsMM[0], outwards})}
}

// device draws a box: its symbol, and a mark for each wire on a terminal that has
// several.
func (s *scheme) device(n *node, at layered.Placed) draw.Group {
	d := n.box.device
	rows := at.RowsMM
	if !n.loose() {
		rows = n.plan.Close()
		by := at.RowsMM[0] - rows[0]
		for i := range rows {
			rows[i] += by
		}
	}
	if n.bar() {
		n.plan.Landed(rowsOf(n.lefts), rowsOf(n.right))
	}
	sym := n.plan.Draw(rows, at.RightMM-at.LeftMM, symbols.Style{Own: d.Existing, Heavy: s.mode.live(d)})
	items := sym.Items
	for _, side := range [][]*landing{n.lefts, n.right} {
		items = append(items, n.several(side, rows, at)...)
	}
	for i := range items {
		items[i] = draw.Moved(items[i], at.LeftMM, 0)
	}
	return draw.Group{Sort: draw.Device, Name: d.Name, Tip: s.deviceTip(d), Live: s.mode.live(d), Items: items}
}

func rowsOf(side []*landing) []int {
	var list []int
	for _, e := range side {
		list = append(list, e.row)
	}
	return list
}

// several draws the bar that the wires of one terminal land on.
func (n *node) several(side []*landing, rows []float64, at layered.Placed) []draw.Item {
	if n.bar() {
		return nil
	}
	var items []draw.Item
	for _, e := range side {
		x := 0.0
		if e.right {
			x = at.RightMM - at.LeftMM
		}
		y := rows[e.row] + e.offMM
		if shares(side, e) {
			items = append(items, draw.Circle{Centre: draw.Point{X: x, Y: y}, RadiusMM: 0.6, Ink: draw.Ink{Fill: draw.Black}})
			if e.offMM > e.baseMM {
				ink := draw.Ink{WidthMM: 0.5, Colour: draw.Black}
				items = append(items, draw.Line{Points: []draw.Point{{X: x, Y: rows[e.row] + e.baseMM}, {X: x, Y: y}}, Ink: ink})
			}
		}
	}
	return items
}

func shares(side []*landing, e *landing) bool {
	for _, o := range side {
		if o != e && o.terminal == e.terminal {
			return true
		}
	}
	return false
}

// placed scales items and moves them to their origin.
func placed(items []draw.Item, scale float64, origin draw.Point) []draw.Item {
	list := make([]draw.Item, len(items))
	for i, it := range items {
		list[i] = draw.Moved(scaled(it, scale), origin.X, origin.Y)
	}
	return list
}

func scaled(i draw.Item, k float64) draw.Item {
	if k == 1 {
		return i
	}
	point := func(p draw.Point) draw.Point { return draw.Point{X: p.X * k, Y: p.Y * k} }
	ink := func(i draw.Ink) draw.Ink {
		i.WidthMM *= k
		i.DashMM *= k
		return i
	}
	switch i := i.(type) {
	case draw.Line:
		points := make([]draw.Point, len(i.Points))
		for n, p := range i.Points {
			points[n] = point(p)
		}
		i.Points, i.Ink = points, ink(i.Ink)
		return i
	case draw.Circle:
		i.Centre, i.RadiusMM, i.Ink = point(i.Centre), i.RadiusMM*k, ink(i.Ink)
		return i
	case draw.Arc:
		i.Centre, i.RadiusMM, i.Ink = point(i.Centre), i.RadiusMM*k, ink(i.Ink)
		return i
	case draw.Text:
		i.At, i.SizeMM = point(i.At), i.SizeMM*k
		return i
	case draw.Group:
		i.Items = placed(i.Items, k, draw.Point{})
		return i
	}
	return i
}
