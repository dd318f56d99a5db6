package draw

import "math"

// Box is a rectangle with sides along the page's, in mm.
type Box struct{ Left, Top, Right, Bottom float64 }

// Overlaps reports whether two boxes share some area.
func (b Box) Overlaps(o Box) bool {
	return b.Left < o.Right && o.Left < b.Right && b.Top < o.Bottom && o.Top < b.Bottom
}

// Within reports whether a box lies in another, sides included.
func (b Box) Within(o Box) bool {
	return b.Left >= o.Left && b.Top >= o.Top && b.Right <= o.Right && b.Bottom <= o.Bottom
}

// Join is the least box around both.
func (b Box) Join(o Box) Box {
	return Box{min(b.Left, o.Left), min(b.Top, o.Top), max(b.Right, o.Right), max(b.Bottom, o.Bottom)}
}

// Frame is the closed line around the box.
func (b Box) Frame(ink Ink) Line {
	return Line{Points: []Point{{b.Left, b.Top}, {b.Right, b.Top}, {b.Right, b.Bottom}, {b.Left, b.Bottom}}, Closed: true, Ink: ink}
}

// The parts of an em that letters rise above their base line and hang below.
const ascent, descent = 0.76, 0.22

// Bounds is the least box around items; false where there are none.
func Bounds(items ...Item) (Box, bool) {
	all := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, i := range items {
		switch i := i.(type) {
		case Line:
			for _, p := range i.Points {
				all = all.Join(around(p, i.Ink.WidthMM/2))
			}
		case Circle:
			all = all.Join(around(i.Centre, i.RadiusMM+i.Ink.WidthMM/2))
		case Arc:
			all = all.Join(around(i.Centre, i.RadiusMM+i.Ink.WidthMM/2))
		case Text:
			all = all.Join(i.Box())
		case Group:
			if b, ok := Bounds(i.Items...); ok {
				all = all.Join(b)
			}
		}
	}
	return all, all.Left <= all.Right
}

func around(p Point, d float64) Box { return Box{p.X - d, p.Y - d, p.X + d, p.Y + d} }

// Box is the box around the letters of a text.
func (t Text) Box() Box {
	long := t.WidthMM()
	before := 0.0
	switch t.Anchor {
	case Middle:
		before = long / 2
	case End:
		before = long
	}
	up, down := ascent*t.SizeMM, descent*t.SizeMM
	if t.Turned {
		return Box{t.At.X - up, t.At.Y + before - long, t.At.X + down, t.At.Y + before}
	}
	return Box{t.At.X - before, t.At.Y - up, t.At.X - before + long, t.At.Y + down}
}

// Moved is an item moved, with all in it.
func Moved(i Item, dx, dy float64) Item {
	switch i := i.(type) {
	case Line:
		points := make([]Point, len(i.Points))
		for k, p := range i.Points {
			points[k] = p.Add(dx, dy)
		}
		i.Points = points
		return i
	case Circle:
		i.Centre = i.Centre.Add(dx, dy)
		return i
	case Arc:
		i.Centre = i.Centre.Add(dx, dy)
		return i
	case Text:
		i.At = i.At.Add(dx, dy)
		return i
	case Group:
		items := make([]Item, len(i.Items))
		for k, inner := range i.Items {
			items[k] = Moved(inner, dx, dy)
		}
		i.Items = items
		return i
	}
	return i
}
