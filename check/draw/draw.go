// Package draw has a drawing as data: lines, circles, words and groups of them,
// in millimetres on the page, y downwards. Writers print it as SVG here and on
// PDF pages elsewhere; nothing that makes a drawing knows of either.
package draw

// Point is a place on the page, in mm.
type Point struct{ X, Y float64 }

// Add moves a point.
func (p Point) Add(dx, dy float64) Point { return Point{p.X + dx, p.Y + dy} }

// Picture is one drawing on one page.
type Picture struct {
	Name     string // a word for file names and anchors, unique among its sheet's
	Title    string
	Describe string // for those who hear it: what it shows, in a sentence or two
	WidthMM  float64
	HeightMM float64
	// TrueSize: a millimetre of it is a millimetre on paper. Others may be scaled.
	TrueSize bool
	Items    []Item
}

// Add puts items on top of the picture.
func (p *Picture) Add(items ...Item) { p.Items = append(p.Items, items...) }

// Item is a Line, Circle, Text or Group.
type Item interface{ item() }

// Ink is how something is drawn.
type Ink struct {
	WidthMM float64 // of the stroke; 0 draws none
	Colour  Colour  // of the stroke
	Fill    Colour  // "" leaves it empty
	DashMM  float64 // dashes and gaps of that length; 0 draws through
}

// Line joins points, back to the first where it is closed.
type Line struct {
	Points []Point
	Closed bool
	Ink    Ink
}

// Circle is a circle.
type Circle struct {
	Centre   Point
	RadiusMM float64
	Ink      Ink
}

// Arc is a part of a circle; angles in degrees clockwise from the right, as y
// goes down.
type Arc struct {
	Centre   Point
	RadiusMM float64
	From, To float64
	Ink      Ink
}

// Anchor says which part of a text stands at its point.
type Anchor uint8

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Text is one line of words, its base line through the point.
type Text struct {
	At     Point
	Words  string
	SizeMM float64 // of the type, as its em
	Anchor Anchor
	Bold   bool
	Turned bool // reads upwards, from below to above
	Colour Colour
}

// Sort says what a group stands for; a page's styles and script go by it.
type Sort string

// The sorts of groups.
const (
	Device Sort = "device"
	Wire   Sort = "wire"
	Bundle Sort = "bundle"
	Place  Sort = "place"
	Note   Sort = "note"
)

// Group is items that belong to one name of the harness.
type Group struct {
	Sort  Sort
	Name  string // in the harness: w7, aux.2
	Tip   string // its figures, told when it is pointed at
	Live  bool   // it stands under voltage in the mode that is shown
	Items []Item
}

func (Line) item()   {}
func (Circle) item() {}
func (Arc) item()    {}
func (Text) item()   {}
func (Group) item()  {}
