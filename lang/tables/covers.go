package tables

import (
	"math"
	"slices"
)

// CoverType is a sleeve, loom or tape round a bundle.
type CoverType struct {
	Name   string
	MinC   float64 // lasting limits; NaN where none is given (conduit)
	MaxC   float64
	WallMM float64 // what it adds to the bundle's radius
	Bored  bool    // comes in bores, so that a bundle can be too thick for it
	Source Source
}

var covers = mustLoad("covers.csv", func(r *row) CoverType {
	return CoverType{
		r.text("name"), r.numOr("min_c", math.NaN()), r.numOr("max_c", math.NaN()),
		r.num("wall_mm"), r.yes("bored"), r.source(),
	}
})

// Cover finds a cover by its name in the language.
func Cover(name string) (CoverType, bool) {
	for _, c := range covers {
		if c.Name == name {
			return c, true
		}
	}
	return CoverType{}, false
}

// CoverNames lists the covers in order.
func CoverNames() []string {
	names := make([]string, len(covers))
	for i, c := range covers {
		names[i] = c.Name
	}
	slices.Sort(names)
	return names
}

var bores = mustLoad("bores.csv", func(r *row) keyed { return keyed{r.num("bore_mm"), 1, r.source()} })

// BoreFor gives the least nominal bore in mm of loom and grommets that takes a
// bundle of the diameter given; false where it's thicker than all.
func BoreFor(diameterMM float64) (float64, Source, bool) {
	for _, b := range bores {
		if b.key >= diameterMM {
			return b.key, b.source, true
		}
	}
	return 0, Source{}, false
}
