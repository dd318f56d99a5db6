package circuit

import "math"

// Converter gives Volts behind Ohm up to MostOut amperes and draws what it gives,
// divided by Efficiency, from its input. Below LeastIn volts of input its
// no-load voltage and its limit fall to 0 as 3x²−2x³, x = volts ÷ LeastIn. It
// takes nothing back at its output. Its input leaks LeakSiemens besides.
type Converter struct {
	Volts      float64
	Ohm        float64 // at least LeastOhm
	MostOut    float64
	Efficiency float64 // 0 to 1; held within 0.01 … 1
	LeastIn    float64 // at least 0.1 V
}

type port struct {
	volts, siemens, mostOut, efficiency, knee float64
}

func (c Converter) port() port {
	return port{
		volts:      atLeast(finite(c.Volts), 0),
		siemens:    siemens(c.Ohm),
		mostOut:    atLeast(c.MostOut, 0),
		efficiency: min(atLeast(c.Efficiency, 0.01), 1),
		knee:       atLeast(finite(c.LeastIn), leastKneeVolts),
	}
}

// Laws of the two branches of a converter say only that they belong to one: the
// amperes of either depend on the volts of both.
type (
	inPort  struct{ port }
	outPort struct{}
)

func (inPort) at(_, _, _ float64) (amps, slope float64)  { return 0, 0 }
func (inPort) straight(float64) (amps, slope float64)    { return 0, 0 }
func (inPort) light(float64) float64                     { return 0 }
func (outPort) at(_, _, _ float64) (amps, slope float64) { return 0, 0 }
func (outPort) straight(float64) (amps, slope float64)   { return 0, 0 }
func (outPort) light(float64) float64                    { return 0 }

func isPort(l law) bool {
	switch l.(type) {
	case inPort, outPort:
		return true
	}
	return false
}

// flow is what a converter carries: amperes drawn, amperes given, and how both
// change with the volts of either side.
type flow struct {
	drawn, given          float64
	drawnByIn, drawnByOut float64
	givenByIn, givenByOut float64
}

// at answers for the volts of both sides; out's volts come in two parts.
func (p port) at(in, outHi, outLo, leak float64) flow {
	ready, rise := p.readiness(in)
	gives := p.siemens * ((p.volts*ready - outHi) - outLo)
	most := p.mostOut
	mostByIn := 0.0
	if ready < 1 {
		short := math.Min(most, p.siemens*p.volts)
		most, mostByIn = short*ready, short*rise
	}
	f := flow{given: gives, givenByIn: p.siemens * p.volts * rise, givenByOut: -p.siemens}
	switch {
	case gives < 0:
		f = flow{given: leak * gives / p.siemens, givenByOut: -leak}
	case gives > most:
		f = flow{given: most + leak*(gives-most)/p.siemens, givenByIn: mostByIn, givenByOut: -leak}
	}
	p.draw(&f, in, outHi+outLo)
	f.drawn += leak * in
	f.drawnByIn += leak
	return f
}

// draw fills in the input side from the output side.
func (p port) draw(f *flow, in, out float64) {
	if in <= 0 || out <= 0 || f.given <= 0 {
		return
	}
	per := 1 / (p.efficiency * in)
	f.drawn = out * f.given * per
	f.drawnByIn = out*f.givenByIn*per - f.drawn/in
	f.drawnByOut = (f.given + out*f.givenByOut) * per
}

// readiness is 0 with no input, 1 from the knee up, and its slope per volt.
func (p port) readiness(in float64) (share, perVolt float64) {
	x := in / p.knee
	switch {
	case x <= 0:
		return 0, 0
	case x >= 1:
		return 1, 0
	}
	return x * x * (3 - 2*x), 6 * x * (1 - x) / p.knee
}

// light is at for the first guess: a plain source at the output, or none if the
// input is dead, and an input that draws little below volts.
func (p port) light(in, outHi, outLo, volts float64, dead bool) flow {
	draws := p.idle(volts)
	f := flow{drawn: draws * in, drawnByIn: draws}
	if dead {
		f.given, f.givenByOut = -LeakSiemens*(outHi+outLo), -LeakSiemens
		return f
	}
	f.given, f.givenByOut = p.siemens*((p.volts-outHi)-outLo), -p.siemens
	return f
}

// idle is the conductance of a lightly loaded input.
func (p port) idle(volts float64) float64 {
	most := p.mostOut
	if math.IsInf(most, 1) {
		most = 0
	}
	u := math.Max(volts, p.knee)
	return LeakSiemens + p.volts*most/(p.efficiency*u*u)
}
