package draw

// The widths of a drawn wire, in mm: its dark edge, and the colour in it.
const (
	strandEdgeMM = 0.9
	strandCoreMM = 0.6
	stripeMM     = 1.6
)

// Strand draws a wire along points in its colours: a dark edge, so that white
// and yellow show on paper, the colour in it, and a stripe as dashes.
func Strand(points []Point, colour, stripe string) []Item {
	items := []Item{
		Line{Points: points, Ink: Ink{WidthMM: strandEdgeMM, Colour: Black}},
		Line{Points: points, Ink: Ink{WidthMM: strandCoreMM, Colour: OfWire(colour)}},
	}
	if stripe != "" {
		items = append(items, Line{Points: points, Ink: Ink{WidthMM: strandCoreMM, Colour: OfWire(stripe), DashMM: stripeMM}})
	}
	return items
}
