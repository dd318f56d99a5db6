package circuit

import "math"

// Power is a load behind a regulator: a led lamp or a module. It draws Watts at
// any volts down to LeastVolts, its knee. Below the knee its power falls as
// 3x²−2x³ with x = volts ÷ knee, so the current meets the constant-power curve
// with the same value and slope, peaks at 9/8 of it and falls to 0 with the
// volts. It draws alike either way round; put a diode in series where it must
// block. A knee below 0.1 V counts as 0.1 V.
type Power struct {
	Watts      float64
	LeastVolts float64
}

// Motor is a load that draws Amps × (volts ÷ AtVolts)^Exponent: 0 for a steady
// torque, 1.5 for a fan or pump (power as speed cubed, speed as volts: affinity
// laws, from memory). Exponent is held within 0 … 2. At a sixth of AtVolts a
// stalled motor of the usual six-fold stall current would draw Amps (common
// practice, no source); below that knee the current falls to 0 with the volts.
type Motor struct {
	Amps, AtVolts, Exponent float64
}

// Bulb is a filament lamp of Watts at AtVolts. Its current goes as volts^0.55,
// the re-rating exponent in common use for tungsten lamps (from memory), and
// its cold resistance is a twelfth of its hot one (common practice; texts say
// 1/10 to 1/15).
type Bulb struct {
	Watts, AtVolts float64
}

const (
	motorKneeShare  = 1.0 / 6
	bulbExponent    = 0.55
	bulbColdShare   = 1.0 / 12
	leastKneeVolts  = 0.1
	leastRatedVolts = 0.1
)

// loadLaw is amps × (u ÷ knee)^exponent from the knee up and, below it, the
// parabola through the origin that meets it with the same slope. Constant power
// is exponent −1, constant current 0, a resistance 1. It is odd in u.
type loadLaw struct {
	amps, knee, exponent float64
	sags                 bool // being below the knee is worth a word
}

func (p Power) curve() law {
	knee := atLeast(finite(p.LeastVolts), leastKneeVolts)
	return loadLaw{atLeast(finite(p.Watts), 0) / knee, knee, -1, true}
}

func (m Motor) curve() law {
	n := min(atLeast(m.Exponent, 0), 2)
	knee := motorKneeShare * atLeast(finite(m.AtVolts), leastRatedVolts)
	amps := atLeast(finite(m.Amps), 0) * math.Pow(motorKneeShare, n)
	return loadLaw{amps, knee, n, true}
}

func (b Bulb) curve() law {
	volts := atLeast(finite(b.AtVolts), leastRatedVolts)
	// Cold resistance is (knee÷amps)÷(2−n); solve for the knee that makes it
	// the wanted share of the hot resistance.
	share := math.Pow((2-bulbExponent)*bulbColdShare, 1/(1-bulbExponent))
	amps := atLeast(finite(b.Watts), 0) / volts * math.Pow(share, bulbExponent)
	return loadLaw{amps, share * volts, bulbExponent, false}
}

func (l loadLaw) at(hi, lo, leak float64) (amps, slope float64) {
	u := hi + lo
	x := math.Abs(u) / l.knee
	if x < 1 {
		n := l.exponent
		amps = l.amps * x * ((2 - n) + (n-1)*x)
		slope = l.amps / l.knee * ((2 - n) + 2*(n-1)*x)
	} else {
		amps = l.amps * raise(x, l.exponent)
		slope = l.exponent * amps / (x * l.knee)
	}
	leak -= LeakSiemens // only while a hard network is approached
	return math.Copysign(amps, u) + leak*u, slope + leak
}

func (l loadLaw) straight(volts float64) (amps, slope float64) {
	u := math.Max(volts, l.knee)
	amps, _ = l.at(u, 0, LeakSiemens)
	return 0, amps / u
}

func (l loadLaw) light(volts float64) float64 {
	if l.exponent > 0 {
		return 0
	}
	_, slope := l.straight(volts)
	return slope
}

// raise is x^n with the cheap cases first.
func raise(x, n float64) float64 {
	switch n {
	case -1:
		return 1 / x
	case 0:
		return 1
	case 1.5:
		return x * math.Sqrt(x)
	}
	return math.Pow(x, n)
}
