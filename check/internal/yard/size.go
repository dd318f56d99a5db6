package yard

import (
	"math"

	"hame/lang/tables"
)

var (
	metricMM2 = []float64{0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120}
	gauges    = []int{22, 20, 18, 16, 14, 12, 10, 8, 6, 4, 2, 1, 0, -1, -2, -3}

	bladeA = []float64{2, 3, 5, 7.5, 10, 15, 20, 25, 30}
	postA  = []float64{30, 40, 50, 60, 80, 100, 125, 150, 175, 200, 225, 250, 300}
	contA  = []float64{3, 5, 10, 15, 20, 25, 30, 40, 50, 70, 100, 150, 200, 300, 400, 500, 800, 1200, 2000}
)

// atLeast is the first of a rising list that is not below a value.
func atLeast(list []float64, v float64) float64 {
	for _, x := range list {
		if x >= v-1e-9 {
			return x
		}
	}
	return math.Inf(1) // none: no wire will do either
}

// demand is what is asked of a wire.
type demand struct {
	amps    float64 // the most that it carries
	ratingA float64 // of the device that protects it
	dropV   float64 // that it may lose at amps
	lengthM float64
	way     way
	breaker bool // a breaker protects it
	link    bool // a fusible link does
}

// sizes lists the sizes that the harness is built of, thin first.
func (b *builder) sizes() []tables.Size {
	var list []tables.Size
	if b.Metric {
		for _, a := range metricMM2 {
			list = append(list, tables.Metric(a))
		}
		return list
	}
	for _, n := range gauges {
		list = append(list, tables.Gauge(n))
	}
	return list
}

// heavyMM2 is where cables of the battery kind begin.
const heavyMM2 = 10

// size finds the thinnest wire that meets a demand with a practitioner's
// margin, and its insulation ("" for the harness's own). Where none is thick
// enough the harness was drawn too big, and is drawn again.
func (b *builder) size(d demand) (tables.Size, string) {
	for _, s := range b.sizes() {
		insulation := ""
		if s.AreaMM2() >= heavyMM2 {
			insulation = "sgx"
		}
		if b.fits(s, b.classOf(insulation), d) {
			return s, insulation
		}
	}
	b.tooBig = true
	return b.sizes()[0], ""
}

func (b *builder) classOf(insulation string) float64 {
	if insulation == "" {
		insulation = b.insulation
	}
	cable, _ := tables.Cable(insulation)
	return cable.TemperatureC
}

func (b *builder) fits(s tables.Size, classC float64, d demand) bool {
	area := s.AreaMM2()
	const linkedMM2 = 2 // links are made for 14 AWG and up
	if area < b.leastMM2(d.way.covered)*0.995 || d.link && area < linkedMM2 {
		return false
	}
	r, ok := b.limits.Ampacity(area, classC, d.way.mostC)
	guard, okToo := b.limits.DeviceAmpacity(area, classC, d.way.mostC)
	if !ok || !okToo || r.Amps < d.amps*b.margin(classC, d.way) || guard.Amps < d.ratingA*b.shortMargin(classC, d) {
		return false
	}
	ohm := tables.CopperAt(tables.ResistancePerM(s).OhmPerM, 80) * d.lengthM
	return ohm*d.amps <= d.dropV
}

// margin is what is kept for heat: a wire in a full or hot loom sheds it badly.
func (b *builder) margin(classC float64, w way) float64 {
	m := 1.25
	if classC-w.mostC < 50 {
		m = 2
	}
	if len(w.spots) > 0 {
		m *= 1.4
	}
	return m
}

// shortMargin is what is kept for a short: PVC bears little more than its class,
// and bolted fuses and breakers take their time.
func (b *builder) shortMargin(classC float64, d demand) float64 {
	m := 1.0
	if classC < 125 && d.ratingA >= 20 {
		m = 1.6
	}
	if d.breaker {
		m *= 4
	}
	return m
}

// leastMM2 is the practice's least gauge.
func (b *builder) leastMM2(covered bool) float64 {
	name := "gauge_alone"
	if covered {
		name = "gauge_covered"
	}
	l, _ := b.limits.Limit(name, "")
	if l.Unit == "AWG" {
		return l.AreaMM2()
	}
	return l.Value
}

// share is how much of its rating a device may carry where it sits, with a
// little left.
func (b *builder) share(s *spot) float64 {
	if s.hot() {
		return 0.57
	}
	return 0.76
}

// factor is how many times a load's current counts for a contact.
func (b *builder) factor(sort string) float64 {
	if sort == "led" {
		return 2
	}
	f, _, _ := tables.SwitchFactor(min(b.SystemV, 28), class[sort])
	return f
}

var class = map[string]string{"bulb": "lamp", "motor": "motor", "solenoid": "inductive", "relay": "inductive", "heater": "resistive", "module": "resistive", "outlet": "resistive"}
