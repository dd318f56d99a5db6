package tables

// pulseShape is the I2t of a wave shape.
type pulseShape struct {
	name             string
	factor, baseFact float64
	source           Source
}

var pulseShapes = mustLoad("pulse-shapes.csv", func(r *row) pulseShape {
	return pulseShape{r.text("shape"), r.num("factor"), r.num("base_factor"), r.source()}
})

// PulseA2S gives the I2t in A2 s of a current pulse: rectangular, trapezoid
// (between peak and base), half_sine, triangle, parabolic or exponential (its
// time constant as the time). False for another shape.
func PulseA2S(shape string, peakA, baseA, seconds float64) (float64, Source, bool) {
	for _, p := range pulseShapes {
		if p.name == shape {
			return (peakA*peakA*p.factor + (peakA*baseA+baseA*baseA)*p.baseFact) * seconds, p.source, true
		}
	}
	return 0, Source{}, false
}

var pulseShares = mustLoad("pulse-shares.csv", func(r *row) keyed {
	return keyed{r.num("pulses"), r.num("share"), r.source()}
})

// PulseShare gives the share of a fuse's melting I2t that each of so many
// pulses may have, at the next listed number not below; false above 100 000.
func PulseShare(pulses int) (float64, Source, bool) {
	for _, p := range pulseShares {
		if float64(pulses) <= p.key {
			return p.factor, p.source, true
		}
	}
	return 0, Source{}, false
}
