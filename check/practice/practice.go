// Package practice has the set of limits that a harness is held to: those of a
// published practice, each with document and clause, and what the harness
// tightens.
package practice

import (
	"math"
	"slices"

	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// Practice is the limits that one harness is held to.
type Practice struct {
	Name      string
	systemV   float64
	altitudeM float64
	own       map[string]own
	published map[string][]tables.Limit // by name, the mildest grade first
	cap       *tables.Limit             // on the insulation's class that a device's ampacity goes by; nil where there is none
	returns   string
}

// own is a limit that the harness itself sets, in the table's unit.
type own struct {
	value float64
	args  kinds.Args
}

// Of is the practice of a harness.
func Of(h *harness.Harness) *Practice {
	p := &Practice{Name: h.Practice, systemV: h.SystemV, altitudeM: h.AltitudeM, own: map[string]own{}, returns: "black"}
	p.publish()
	for _, args := range h.Tightened {
		p.tighten(args)
	}
	return p
}

// publish lists the practice's limits by name: of every wire some are asked for.
func (p *Practice) publish() {
	p.published = map[string][]tables.Limit{}
	for _, l := range tables.LimitsOf(p.Name) {
		p.published[l.Name] = append(p.published[l.Name], l)
	}
	if list := p.published["insulation_cap"]; len(list) > 0 {
		p.cap = &list[0]
	}
}

// tighten enters one of the harness's own limits under the table's names.
func (p *Practice) tighten(args kinds.Args) {
	if args.Setting.Name == "return" {
		p.returns = args.Word("")
		return
	}
	slot := "to"
	if !args.Setting.Repeat {
		slot = ""
	}
	v, ok := args.SI(slot)
	if !ok {
		return
	}
	for _, name := range limitNames(args) {
		p.own[name] = own{inTableUnit(name, v), args}
	}
}

// limitNames are the table's names for one of the harness's own limits.
func limitNames(args kinds.Args) []string {
	switch args.Setting.Name {
	case "gauge":
		return []string{"gauge_covered", "gauge_alone"}
	case "clamps":
		return []string{"clamps"}
	case "device":
		if args.RepeatKey() == "hot" {
			return []string{"device_load_hot"}
		}
		return []string{"device_load"}
	}
	return []string{args.Setting.Name + "_" + args.RepeatKey()}
}

// inTableUnit turns SI into the table's unit: mm for lengths, % for ratios.
func inTableUnit(name string, v float64) float64 {
	switch name {
	case "gauge_covered", "gauge_alone":
		return v
	case "drop_critical", "drop_other", "device_load", "device_load_hot":
		return v * 100
	}
	return v * 1000
}

// ReturnColour is the colour of return wires.
func (p *Practice) ReturnColour() string { return p.returns }

// Limit is a limit by its name in the table and its grade ("" for the only or
// mildest one), as the harness tightens it; false where the practice sets none.
// The value is in the limit's own unit.
func (p *Practice) Limit(name, grade string) (tables.Limit, bool) {
	list := p.published[name]
	k := slices.IndexFunc(list, func(l tables.Limit) bool { return grade == "" || l.Grade == grade })
	var l tables.Limit
	if k >= 0 {
		l = list[k]
	}
	mine, own := p.own[name]
	if !own || k >= 0 && l.Grade != list[0].Grade {
		return l, k >= 0 // a harness tightens the mildest grade of a limit
	}
	if l.Unit == "AWG" {
		l.Unit = "mm2"
	}
	l.Value, l.Source = mine.value, tables.Source{Document: "the harness's own limit", Mark: tables.CommonPractice}
	return l, true
}

// Loosened lists the harness's own limits that are weaker than the practice's:
// each with the published limit and the value set.
func (p *Practice) Loosened(h *harness.Harness) []Loose {
	var list []Loose
	for _, args := range h.Tightened {
		for _, name := range limitNames(args) {
			l, ok := tables.LimitOf(p.Name, name, "")
			mine, own := p.own[name]
			if !ok || !own {
				continue
			}
			if weaker(name, mine.value, published(l)) {
				list = append(list, Loose{l, mine.value, args})
				break
			}
		}
	}
	return list
}

// Loose is a limit that the harness sets weaker than its practice.
type Loose struct {
	Limit tables.Limit
	Set   float64
	Args  kinds.Args
}

func published(l tables.Limit) float64 {
	if l.Unit == "AWG" {
		return l.AreaMM2()
	}
	return l.Value
}

// weaker: clearances and gauges are least values, all others greatest ones.
func weaker(name string, set, limit float64) bool {
	const same = 1e-9
	switch name {
	case "gauge_covered", "gauge_alone", "clear_hot", "clear_moving", "clear_fuel":
		return set < limit*(1-same)
	}
	return set > limit*(1+same)
}

// Ampacity is what a conductor may carry lastingly under the practice: its
// table, and the factor for the ambient. False where no table reaches.
func (p *Practice) Ampacity(areaMM2, insulationC, ambientC float64) (tables.Rating, bool) {
	if p.Name == "ac43" {
		return tables.AC43Ampacity(areaMM2, insulationC, ambientC)
	}
	r, ok := tables.Ampacity(areaMM2, insulationC, ambientC)
	if ok && p.Name == "cfr183" && ambientC == tables.EngineSpaceC {
		if factor, source, known := tables.EngineSpaceFactor(insulationC); known {
			r.Factor, r.Amps, r.Source = factor, r.BaseA*factor, source
		}
	}
	return r, ok
}

// DeviceAmpacity is the ampacity that a protective device is judged against:
// under land the smaller of the insulation's own column and the one that
// holders and terminals bear.
func (p *Practice) DeviceAmpacity(areaMM2, insulationC, ambientC float64) (tables.Rating, bool) {
	r, ok := p.Ampacity(areaMM2, insulationC, ambientC)
	if !ok || p.cap == nil || insulationC <= p.cap.Value {
		return r, ok
	}
	c, ok := p.Ampacity(areaMM2, p.cap.Value, math.Min(ambientC, 30))
	if !ok || c.BaseA*r.Factor >= r.Amps {
		return r, true
	}
	c.Factor, c.Amps = r.Factor, c.BaseA*r.Factor
	return c, true
}
