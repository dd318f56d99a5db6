package facts

import (
	"math"

	"hame/check/states"
	"hame/lang/harness"
)

// leastLiveV is the voltage against the return side from which something counts
// as live: well above what return wires lose, well below any supply.
const leastLiveV = 0.5

// UnderVoltage reports whether a node is live in a solved position.
func UnderVoltage(p *states.Point, node int) bool {
	return p.Alive(node) && math.Abs(p.Volts(node)) > leastLiveV
}

// WireUnderVoltage reports whether either end of a wire is live.
func WireUnderVoltage(p *states.Point, w *harness.Wire) bool {
	for _, e := range w.Ends {
		if e.Terminal != nil && UnderVoltage(p, e.Terminal.Index) {
			return true
		}
	}
	return false
}

// DeviceUnderVoltage reports whether any terminal of a device is live.
func DeviceUnderVoltage(p *states.Point, d *harness.Device) bool {
	for _, t := range d.Terminals {
		if UnderVoltage(p, t.Index) {
			return true
		}
	}
	return false
}
