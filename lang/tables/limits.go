package tables

import "slices"

// Limit is one limit of a practice.
type Limit struct {
	Practice string // land, cfr183, ac43
	Name     string // drop_critical, distance_bare …
	Grade    string // advice, warning, error, or limit where it only bounds
	Value    float64
	Unit     string // %, mm, mm2, AWG, V, s, degC or 1
	Source   Source
}

var limits = mustLoad("practice-limits.csv", func(r *row) Limit {
	return Limit{
		r.text("practice"), r.text("limit"), r.text("grade"),
		r.num("value"), r.text("unit"), r.source(),
	}
})

// limitsBy is where the limits of a practice and name stand.
var limitsBy = indexLimits()

func indexLimits() map[[2]string][]int {
	by := map[[2]string][]int{}
	for i, l := range limits {
		key := [2]string{l.Practice, l.Name}
		by[key] = append(by[key], i)
	}
	return by
}

// Practices lists the published sets of limits.
func Practices() []string {
	var names []string
	for _, l := range limits {
		if !slices.Contains(names, l.Practice) {
			names = append(names, l.Practice)
		}
	}
	return names
}

// LimitsOf gives all limits of one practice, in the order of the table; none
// where there is no such practice.
func LimitsOf(practice string) []Limit {
	var found []Limit
	for _, l := range limits {
		if l.Practice == practice {
			found = append(found, l)
		}
	}
	return found
}

// Limits gives the limits of one practice under one name, the milder grade
// first; none where the practice sets none.
func Limits(practice, name string) []Limit {
	var found []Limit
	for _, i := range limitsBy[[2]string{practice, name}] {
		found = append(found, limits[i])
	}
	return found
}

// LimitOf gives a practice's limit of one name and grade ("" for its only or
// mildest one).
func LimitOf(practice, name, grade string) (Limit, bool) {
	for _, i := range limitsBy[[2]string{practice, name}] {
		if grade == "" || limits[i].Grade == grade {
			return limits[i], true
		}
	}
	return Limit{}, false
}

// AreaMM2 gives a limit on a gauge as an area in mm2.
func (l Limit) AreaMM2() float64 {
	if l.Unit == "AWG" {
		return AWGAreaMM2(int(l.Value))
	}
	return l.Value
}
