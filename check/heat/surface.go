package heat

import "math"

const (
	zeroC         = 273.15
	leastAmbientC = -200 // below it air is no gas
	gravity       = 9.81
	seaLevelPa    = 101325
	airGas        = 287.05 // J/(kg K)
	prandtl       = 0.71   // of air
	rootSteps     = 60
	rootTolerance = 1e-7 // K
)

// prandtlTerm is the denominator of the Churchill-Chu relation for air.
var prandtlTerm = math.Pow(1+math.Pow(0.559/prandtl, 9.0/16), 8.0/27)

// surfaceLoss gives the heat in W/m that a horizontal cylinder of a diameter
// in mm loses in still air at sea level, by natural convection (Churchill and
// Chu 1975, the form for the whole range) and radiation. None below ambient.
func surfaceLoss(diameterMM, surfaceC, ambientC float64) float64 {
	rise := surfaceC - ambientC
	if rise <= 0 {
		return 0
	}
	d := diameterMM / 1000
	film := (surfaceC+ambientC)/2 + zeroC
	conductivity, viscosity := airAt(film)
	rayleigh := gravity * rise * d * d * d / film * prandtl / (viscosity * viscosity)
	root := 0.60 + 0.387*math.Pow(rayleigh, 1.0/6)/prandtlTerm
	convection := math.Pi * conductivity * root * root * rise
	return convection + emissivity*stefanBoltzmann*math.Pi*d*(fourth(surfaceC+zeroC)-fourth(ambientC+zeroC))
}

// airAt gives the conductivity in W/(m K) and the kinematic viscosity in m2/s
// of dry air at sea level and a temperature in K (power law; Sutherland).
func airAt(kelvin float64) (conductivity, viscosity float64) {
	dynamic := 1.458e-6 * kelvin * math.Sqrt(kelvin) / (kelvin + 110.4)
	density := seaLevelPa / (airGas * kelvin)
	return 0.0241 * math.Pow(kelvin/zeroC, 0.9), dynamic / density
}

func fourth(x float64) float64 { return x * x * x * x }

// balance finds the surface temperature in degC and the heat in W/m at which a
// cylinder sheds what it makes. loss20 is the heat in W/m it would make at
// 20 degC and rise the K for each W/m from its surface to the copper. False
// where the heat outruns the cooling: the copper's resistance grows faster
// than it can shed, or no balance lies below the melting point.
func balance(diameterMM, loss20, rise, ambientC float64) (surfaceC, watts float64, ok bool) {
	gain := 1 - loss20*alpha*rise
	if !(gain > 0) {
		return 0, 0, false
	}
	heat := func(surfaceC float64) float64 {
		return max(0, loss20*(1+alpha*(surfaceC-20))/gain)
	}
	excess := func(surfaceC float64) float64 {
		return surfaceLoss(diameterMM, surfaceC, ambientC) - heat(surfaceC)
	}
	surfaceC, ok = firstRoot(excess, ambientC)
	return surfaceC, heat(surfaceC), ok
}

// firstRoot finds where a function that starts at or below zero first rises
// above it, looking in steps that double up to the melting point.
func firstRoot(f func(float64) float64, from float64) (float64, bool) {
	low, atLow := from, f(from)
	if atLow >= 0 {
		return from, true
	}
	for step := 4.0; low < MeltingC; step *= 2 {
		high := min(low+step, MeltingC)
		atHigh := f(high)
		if atHigh >= 0 {
			return between(f, low, atLow, high, atHigh), true
		}
		low, atLow = high, atHigh
	}
	return math.Inf(1), false
}

// between closes in on a root by false position, halving the weight of an end
// that stays put twice running (the Illinois rule). The steps are bounded.
func between(f func(float64) float64, low, atLow, high, atHigh float64) float64 {
	last := 0.0
	for step := 0; high-low > rootTolerance && step < rootSteps; step++ {
		x := (low*atHigh - high*atLow) / (atHigh - atLow)
		at := f(x)
		if math.Abs(at) < rootTolerance {
			return x
		}
		if at < 0 {
			low, atLow = x, at
			if last < 0 {
				atHigh /= 2
			}
		} else {
			high, atHigh = x, at
			if last > 0 {
				atLow /= 2
			}
		}
		last = at
	}
	return (low + high) / 2
}
