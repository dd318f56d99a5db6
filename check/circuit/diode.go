package circuit

// Diode conducts from its first node to its second through Ohm once the volts
// across it pass ForwardVolts, and otherwise blocks.
type Diode struct {
	ForwardVolts float64
	Ohm          float64 // slope once it conducts; at least LeastOhm
}

type diodeLaw struct{ forward, siemens float64 }

func (d Diode) curve() law {
	return diodeLaw{atLeast(finite(d.ForwardVolts), 0), siemens(d.Ohm)}
}

func (d diodeLaw) at(hi, lo, leak float64) (amps, slope float64) {
	amps, slope = leak*(hi+lo), leak
	if beyond := (hi - d.forward) + lo; beyond > 0 {
		amps += d.siemens * beyond
		slope += d.siemens
	}
	return amps, slope
}

func (d diodeLaw) straight(float64) (amps, slope float64) {
	return -d.siemens * d.forward, d.siemens
}

func (d diodeLaw) light(float64) float64 { return 0 }
