package tables

import (
	"math"
	"slices"
)

// Material is an insulation.
type Material struct {
	Name         string  // pvc, xlpe, etfe
	Conductivity float64 // W/(m K)
	FinalC       float64 // short-time limit in degC
	Crosslinked  bool
	Oil, Sun     bool // made for oil, for sun (common practice)
	Source       Source
}

// CableType is a cable designation of an open standard.
type CableType struct {
	Name         string // gxl, flry …
	Material     Material
	TemperatureC float64 // lasting class
	Abrasion     bool    // made for abrasion (common practice)
	Source       Source
	dims         string // where diameters come from: wall, thin, thick
}

// Oil tells whether the insulation is made for oil.
func (c CableType) Oil() bool { return c.Material.Oil }

// Sun tells whether the insulation is made for sun.
func (c CableType) Sun() bool { return c.Material.Sun }

var materials = loadMaterials()

func loadMaterials() map[string]Material {
	all := map[string]Material{}
	for _, m := range mustLoad("insulation.csv", func(r *row) Material {
		return Material{
			r.text("material"), r.num("conductivity"), r.num("final_c"),
			r.yes("crosslinked"), r.yes("oil"), r.yes("sun"), r.source(),
		}
	}) {
		all[m.Name] = m
	}
	return all
}

var cableTypes = mustLoad("cables.csv", func(r *row) CableType {
	material, found := materials[r.text("material")]
	if !found {
		r.fail("insulation %q is not known", r.text("material"))
	}
	return CableType{
		Name: r.text("name"), Material: material, TemperatureC: r.num("temp_c"),
		Abrasion: r.yes("abrasion"), Source: r.source(), dims: r.text("dims"),
	}
})

// Cable finds a cable designation; false where there is none of that name.
func Cable(name string) (CableType, bool) {
	for i := range cableTypes {
		if cableTypes[i].Name == name {
			return cableTypes[i], true
		}
	}
	return CableType{}, false
}

// CableNames lists the designations in order.
func CableNames() []string {
	names := make([]string, len(cableTypes))
	for i, c := range cableTypes {
		names[i] = c.Name
	}
	slices.Sort(names)
	return names
}

// wall is the insulation wall of one cable size in mm.
type wall struct {
	name   string
	area   float64
	mm     float64
	source Source
}

var walls = mustLoad("cable-walls.csv", func(r *row) wall {
	return wall{r.text("name"), AWGAreaMM2(r.gauge("awg")), r.num("wall_mm"), r.source()}
})

// ConductorDiameterMM gives the diameter in mm over the strands of a size:
// 1.15 times the solid wire of its nominal area.
func ConductorDiameterMM(s Size) (float64, Source) {
	solid := math.Sqrt(4 / math.Pi * max(0, s.AreaMM2()))
	return Constant("stranded_diameter_factor") * solid, ConstantSource("stranded_diameter_factor")
}

// Diameter is a cable's outside diameter and how it came about.
type Diameter struct {
	MM       float64
	Computed bool // from conductor and wall, not listed
	Note     string
	Source   Source
}

// OutsideDiameterMM gives the outside diameter of a cable in a size. ISO 6722
// types have their greatest listed diameter; the others, and sizes that the
// list leaves out, are computed from the conductor and the wall of the next
// thicker listed size (of the thickest where there is none).
func OutsideDiameterMM(c CableType, s Size) Diameter {
	if listed, found := listedDiameter(c, s); found {
		return listed
	}
	w := wallFor(c, s.AreaMM2())
	conductor, _ := ConductorDiameterMM(s)
	return Diameter{conductor + 2*w.mm, true, "computed from conductor diameter and wall", w.source}
}

// listedDiameter looks a metric size up in ISO 6722. Thin wall isn't listed
// from 35 mm2 up: there the thick wall bounds it.
func listedDiameter(c CableType, s Size) (Diameter, bool) {
	if c.dims == "wall" || s.IsAWG {
		return Diameter{}, false
	}
	for i := range iso6722 {
		r := &iso6722[i]
		switch {
		case math.Abs(r.mm2-s.MM2) > 1e-9:
		case c.dims == "thin" && r.thinOD > 0:
			return Diameter{r.thinOD, false, "greatest, thin wall", r.source}, true
		case c.dims == "thin":
			return Diameter{r.thickOD, false, "greatest, thick wall as a bound", r.source}, true
		case r.thickOD > 0:
			return Diameter{r.thickOD, false, "greatest, thick wall", r.source}, true
		}
	}
	return Diameter{}, false
}

// wallsBy holds the walls known of each cable, thin sizes first.
var wallsBy = sortWalls()

func sortWalls() map[string][]wall {
	by := map[string][]wall{}
	for _, c := range cableTypes {
		list := wallsOf(c)
		slices.SortFunc(list, func(a, b wall) int {
			if a.area < b.area {
				return -1
			}
			return 1
		})
		by[c.Name] = list
	}
	return by
}

// wallFor finds the wall of the thinnest listed size not below an area.
func wallFor(c CableType, areaMM2 float64) wall {
	candidates := wallsBy[c.Name]
	for _, w := range candidates {
		if areaMM2 <= w.area*(1+areaTolerance) {
			return w
		}
	}
	return candidates[len(candidates)-1]
}

// wallsOf lists the walls known of a cable; the ISO types' follow from their
// least thin wall, or from their listed diameters.
func wallsOf(c CableType) []wall {
	var list []wall
	for _, w := range walls {
		if w.name == c.Name {
			list = append(list, w)
		}
	}
	for _, r := range iso6722 {
		conductor, _ := ConductorDiameterMM(Metric(r.mm2))
		switch {
		case c.dims == "thin" && r.thinWall > 0:
			list = append(list, wall{c.Name, r.mm2, r.thinWall, r.source})
		case c.dims == "thick" && r.thickOD > conductor:
			list = append(list, wall{c.Name, r.mm2, (r.thickOD - conductor) / 2, r.source})
		}
	}
	return list
}
