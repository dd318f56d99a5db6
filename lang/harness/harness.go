// Package harness binds a tree to what it means: names resolved, parts
// expanded, terminals made, wires routed through the bundles. Binding never
// fails: what cannot be bound is left out and said in a finding.
package harness

import (
	"slices"
	"strings"

	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/source"
)

// Origin is where a declaration stands: its name and all of it.
type Origin struct {
	File *source.File
	Name source.Span
	Decl source.Span
}

// Place is the declared name's place, as findings give it.
func (o Origin) Place() finding.Place { return finding.Place{File: o.File, Span: o.Name} }

// Harness is one bound harness. All lists are in the order of the text.
type Harness struct {
	Name       string
	Title      string
	Origin     Origin
	SystemV    float64
	SystemSaid bool // else 12 V is taken, and reports say so
	Practice   string
	Tightened  []kinds.Args // the limits in practice's own block
	Insulation string       // of wires that name none, "" where none is said
	SlackM     float64
	AltitudeM  float64
	Files      []*source.File // the root file first, then libraries in order of use
	Zones      []*Zone
	Places     []*Place
	Bundles    []*Bundle
	Devices    []*Device
	Wires      []*Wire
	Modes      []*Mode
	Requires   []*Require
	Allows     []*Allow
	// Hazy: a name, kind or terminal could not be bound, so that what is missing
	// may be what could not be read.
	Hazy bool
	// Torn: a device, or an end of a wire, could not be bound, or a figure of a
	// device could not be read, so that what flows is not what was meant.
	Torn     bool
	names    map[string]*named
	mistaken map[fact]bool
}

// Place is the place of a name, or nil.
func (h *Harness) Place(name string) *Place {
	if e := h.names[name]; e != nil {
		return as[Place](e)
	}
	return nil
}

// Whereabouts is the place that a name belongs to and the row of the table
// that it is of, as far as either is known: a survey sheet is ordered by it.
func (h *Harness) Whereabouts(name string) (place string, row *kinds.Kind) {
	if name == h.Name {
		return "", kinds.Form("harness")
	}
	name, _, _ = strings.Cut(name, ".")
	e := h.names[name]
	if e == nil {
		return "", nil
	}
	switch t := e.bound.(type) {
	case *Device:
		return nameOf(t.At), t.Kind
	case *Wire:
		for _, end := range t.Ends {
			if p := end.Place(); p != nil {
				return p.Name, kinds.Form("wire")
			}
		}
		return "", kinds.Form("wire")
	case *Bundle:
		return nameOf(t.From), kinds.Form("bundle")
	case *Zone:
		i := slices.IndexFunc(h.Places, func(p *Place) bool { return p.Zone == t })
		if i < 0 {
			return "", kinds.Form("zone")
		}
		return h.Places[i].Name, kinds.Form("zone")
	}
	return "", nil
}

func nameOf(p *Place) string {
	if p == nil {
		return ""
	}
	return p.Name
}

// IsExisting reports whether a name, of a device, a device's terminal, a wire
// or a bundle, is the machine's own.
func (h *Harness) IsExisting(name string) bool {
	name, _, _ = strings.Cut(name, ".")
	e := h.names[name]
	if e == nil {
		return false
	}
	switch t := e.bound.(type) {
	case *Device:
		return t.Existing
	case *Wire:
		return t.Existing
	case *Bundle:
		return t.Existing
	}
	return false
}

// Zone says how hot, wet, oily or sunny it is somewhere.
type Zone struct {
	Name    string
	Origin  Origin
	LeastC  float64
	MostC   float64
	Known   bool // an ambient is declared
	Exposed map[string]bool
}

// Place is where devices sit and bundles end.
type Place struct {
	Name    string
	Origin  Origin
	Zone    *Zone // nil where it could not be bound
	Bundles []*Bundle
}

// Cover is what a bundle or a wire is covered with. Its name is empty where it
// is given with a mistake.
type Cover struct {
	Name   string
	BoreM  float64 // 0 where not declared
	RatedC float64 // what it bears: as declared, else by its material
	Known  bool    // RatedC is known
}

// Bundle is a run of wires between two places.
type Bundle struct {
	Name       string
	Origin     Origin
	From, To   *Place
	LengthM    float64
	Zone       *Zone // as declared; nil where not
	Cover      *Cover
	Existing   bool
	Members    []*Wire
	DiameterMM float64 // of its wires together, without the cover
	unmeasured bool    // its length is given with a mistake
	zoned      bool    // its zone is
	zones      []*Zone
	settings
}

// Zones lists the zones that the bundle runs through: the declared one, else
// those of its two places. They are the asker's to read, not to change.
func (b *Bundle) Zones() []*Zone { return b.zones }

// through works the bundle's zones out.
func (b *Bundle) through() []*Zone {
	if b.Zone != nil {
		return []*Zone{b.Zone}
	}
	if b.zoned {
		return nil
	}
	var list []*Zone
	for _, p := range []*Place{b.From, b.To} {
		if p != nil && p.Zone != nil && (len(list) == 0 || list[0] != p.Zone) {
			list = append(list, p.Zone)
		}
	}
	return list
}

// Device is one device with its terminals.
type Device struct {
	Name      string
	Index     int // in the harness's Devices
	Kind      *kinds.Kind
	Origin    Origin
	At        *Place // nil where not declared
	Existing  bool
	Covered   bool
	Terminals []*Terminal
	settings
}

// Is reports whether the device is of a family and one of its kinds, or of any
// where no kind is named.
func (d *Device) Is(f kinds.Family, names ...string) bool {
	if d.Kind.Family != f {
		return false
	}
	for _, n := range names {
		if d.Kind.Name == n {
			return true
		}
	}
	return len(names) == 0
}

// Terminal finds a terminal by its name within the device, or nil.
func (d *Device) Terminal(name string) *Terminal {
	for _, t := range d.Terminals {
		if t.Name == name {
			return t
		}
	}
	return nil
}

// Terminal is one point of a device, with the wires that land on it.
type Terminal struct {
	Device  *Device
	Name    string // "" for a device with one terminal
	Spare   bool
	Fitting kinds.Fitting
	Wires   []*Wire
	Index   int // unique in the harness, from 0
}

// FullName is how the terminal is written: device.terminal, or the device.
func (t *Terminal) FullName() string {
	if t.Name == "" {
		return t.Device.Name
	}
	return t.Device.Name + "." + t.Name
}

// End is one end of a wire. Terminal is nil where it is capped or could not be
// bound.
type End struct {
	Terminal *Terminal
	Hardware string // what is crimped on it: "ring M8"; "" where unknown
	Span     source.Span
	Capped   bool
	Given    bool // Hardware was declared with `ends`
}

// Name is how the end is written.
func (e End) Name() string {
	switch {
	case e.Capped:
		return "capped"
	case e.Terminal == nil:
		return "?"
	}
	return e.Terminal.FullName()
}

// Place is where the end lies, or nil.
func (e End) Place() *Place {
	if e.Terminal == nil {
		return nil
	}
	return e.Terminal.Device.At
}
