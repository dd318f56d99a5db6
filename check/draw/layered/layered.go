// Package layered lays out a diagram in columns: boxes that stand in layers from
// left to right, and wires that run between them in straight lines and right
// angles. It knows nothing of harnesses: numbers in, numbers out, all in mm, y
// downwards.
//
// A wire runs from box to box through the channels between the layers. Where it
// passes a layer it has a lane of its own between the boxes; in a channel it turns
// on a track of its own. So no wire runs through a box, and no two share a stretch:
// both hold by construction, whatever the boxes and wires.
//
// Heights are whole millimetres, even ones where the caller's are.
package layered

// Row is one line of a box that ends land on, with the room that it needs.
// The rows of a box keep their order and may stand further apart than they ask.
type Row struct{ UpMM, DownMM float64 }

// Node is a box. Its layer says in which column it stands.
type Node struct {
	Layer   int
	WidthMM float64
	Rows    []Row
}

// End is where a wire lands: on a row of a box, at its left or its right edge,
// below the row's line by an offset. No two ends land on the same point. Ends of
// one box and side that have the same Pool, other than 0, may change places.
type End struct {
	Node, Row int
	Right     bool
	OffsetMM  float64
	Pool      int
}

// Wire joins two ends. LabelMM is how long the words are that are to stand on it.
type Wire struct {
	Ends    [2]End
	LabelMM float64
}

// Graph is what is to be laid out. The order of the nodes is where the search for
// their order in the layers begins.
type Graph struct {
	Nodes []Node
	Wires []Wire
}

// Point is a point, in mm.
type Point struct{ X, Y float64 }

// Placed is where a box stands: its edges, and the heights of its rows.
type Placed struct {
	LeftMM, RightMM float64
	RowsMM          []float64
}

// Path is how a wire runs: its corners from its first end to its second, and
// where its words start (or end, where they stand at the left of a box).
type Path struct {
	Points []Point
	Label  Point
	AtEnd  bool // the words end at the label's point
}

// Layout is the diagram. Everything lies between 0 and its width and height.
type Layout struct {
	// Ends are those of the wires as they landed in the end: some changed places.
	Ends              [][2]End
	WidthMM, HeightMM float64
	Nodes             []Placed
	Wires             []Path
	Crossings         int
	Bends             int // tracks that are turned on
}

// Lay lays a graph out. The same graph gives the same layout.
func Lay(g *Graph) *Layout {
	s := build(g)
	s.arrange()
	s.place()
	s.route()
	return s.layout()
}
