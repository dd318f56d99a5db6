package tables

import (
	"math"
	"slices"
)

// Stud is a stud or ring size.
type Stud struct {
	Name       string  // "M8", "no10", "1/4 in", "taper"
	DiameterMM float64 // NaN for a taper post
	TorqueLow  float64 // N m; NaN where not known
	TorqueHigh float64
	Source     Source
}

var studs = mustLoad("studs.csv", func(r *row) Stud {
	unknown := math.NaN()
	return Stud{
		r.text("size"), r.numOr("diameter_mm", unknown),
		r.numOr("torque_low_nm", unknown), r.numOr("torque_high_nm", unknown), r.source(),
	}
})

// StudNamed finds a stud size.
func StudNamed(name string) (Stud, bool) {
	for _, s := range studs {
		if s.Name == name {
			return s, true
		}
	}
	return Stud{}, false
}

// StudNames lists the stud sizes: metric, numbered, inch, taper.
func StudNames() []string {
	names := make([]string, len(studs))
	for i, s := range studs {
		names[i] = s.Name
	}
	return names
}

// Barrel is an insulated crimp barrel: its colour and the copper it takes.
type Barrel struct {
	Colour           string
	LeastMM2, MaxMM2 float64
	Source           Source
}

var barrels = mustLoad("crimp-barrels.csv", func(r *row) Barrel {
	return Barrel{r.text("colour"), r.num("cmil_min") * circularMilMM2, r.num("cmil_max") * circularMilMM2, r.source()}
})

// BarrelsFor lists the barrels that take the sum of the conductors' areas.
func BarrelsFor(areasMM2 ...float64) []Barrel {
	sum := 0.0
	for _, a := range areasMM2 {
		sum += a
	}
	var fit []Barrel
	for _, b := range barrels {
		if sum >= b.LeastMM2 && sum <= b.MaxMM2 {
			fit = append(fit, b)
		}
	}
	return fit
}

// colour is a wire colour and its letters.
type colour struct {
	name, code string
	source     Source
}

var colours = mustLoad("colours.csv", func(r *row) colour {
	return colour{r.text("colour"), r.text("code"), r.source()}
})

// ColourCode joins the IEC 60757 letters of colours, in the standard's order
// ("blue", "red" is RDBU; green and yellow always GNYE). A repeated colour
// counts once; false where a colour isn't in the table.
func ColourCode(names ...string) (string, Source, bool) {
	code, used := "", 0
	for _, c := range colours {
		if slices.Contains(names, c.name) {
			code, used = code+c.code, used+1
		}
	}
	distinct := slices.Clone(names)
	slices.Sort(distinct)
	distinct = slices.Compact(distinct)
	if slices.Equal(distinct, []string{"green", "yellow"}) {
		code = "GNYE"
	}
	return code, colours[0].source, used == len(distinct)
}

// fuseColour is the colour of a fuse body.
type fuseColour struct {
	group  string
	rating float64
	colour string
	source Source
}

var fuseColours = mustLoad("fuse-colours.csv", func(r *row) fuseColour {
	return fuseColour{r.text("group"), r.num("rating_a"), r.text("colour"), r.source()}
})

// FuseColour gives the colour of a blade, mini, micro or maxi fuse; false
// where none is fixed.
func FuseColour(family string, ratingA float64) (string, Source, bool) {
	if family == "mini" || family == "micro" {
		family = "blade"
	}
	for _, c := range fuseColours {
		if c.group == family && c.rating == ratingA {
			return c.colour, c.source, true
		}
	}
	return "", Source{}, false
}
