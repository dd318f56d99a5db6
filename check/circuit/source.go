package circuit

// Source is a voltage behind a resistance, with limits. A battery gives without
// limit and takes no more than it accepts; an alternator gives no more than its
// output and takes nothing. A limit of 0 is a limit; use [Unlimited] for none.
type Source struct {
	Volts   float64 // at no load
	Ohm     float64 // within; at least LeastOhm
	MostOut float64 // greatest amperes that it gives
	MostIn  float64 // greatest amperes that it takes, a positive figure
}

type sourceLaw struct {
	volts, siemens  float64
	mostOut, mostIn float64
}

func (s Source) curve() law {
	return sourceLaw{finite(s.Volts), siemens(s.Ohm), atLeast(s.MostOut, 0), atLeast(s.MostIn, 0)}
}

func (s sourceLaw) at(hi, lo, leak float64) (amps, slope float64) {
	gives := s.siemens * ((s.volts - hi) - lo)
	leak = min(leak, s.siemens)
	switch {
	case gives > s.mostOut:
		return -s.mostOut - leak*(gives-s.mostOut)/s.siemens, leak
	case gives < -s.mostIn:
		return s.mostIn - leak*(gives+s.mostIn)/s.siemens, leak
	}
	return -gives, s.siemens
}

func (s sourceLaw) straight(float64) (amps, slope float64) {
	return -s.siemens * s.volts, s.siemens
}

func (s sourceLaw) light(float64) float64 { return 0 }
