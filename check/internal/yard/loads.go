package yard

import "fmt"

// kindOf chooses a kind of load.
func (b *builder) kindOf() string {
	return b.pick("led", "led", "led", "bulb", "heater", "motor", "motor", "outlet", "module", "solenoid")
}

// load declares a load that draws amps at the system's volts (volts of a rail).
func (b *builder) load(kind string, s *spot, amps, volts float64, keyed bool) *Item {
	stem := map[string]string{"led": "lamp", "bulb": "bulb", "heater": "pad", "motor": "pump", "outlet": "socket", "module": "radio", "solenoid": "valve"}[kind]
	i := b.add("load "+kind, b.name(stem), s)
	switch kind {
	case "outlet":
		i.Set("rating", fmt.Sprintf("%.3g A", amps))
		if b.chance(50) {
			i.Set("expects", fmt.Sprintf("%.3g A", amps*0.8))
		}
	case "motor":
		i.Set("draws", fmt.Sprintf("%.3g A", amps))
		i.Set("drives", b.pick("fan", "pump", "other"))
	default:
		i.Set("draws", fmt.Sprintf("%.3g W", amps*volts))
	}
	if kind == "solenoid" {
		i.Set("suppress", b.pick("diode", "resistor"))
	}
	if b.chance(60) {
		i.Set("least", fmt.Sprintf("%.3g V", 0.75*volts))
	}
	if volts != b.SystemV {
		i.Set("most", fmt.Sprintf("%.3g V", 1.3*volts))
	}
	if b.chance(30) && kind != "motor" {
		i.Set("polarity", "strict")
	}
	if b.chance(30) {
		i.Set("tabs", "6.3")
	}
	if !keyed {
		i.Set("meant", "always")
	}
	return i
}

// peak is how much more than its rating a load draws in its worst position.
const peak = 1.3

// draw is a current for a load of a kind.
func (b *builder) draw(kind string, most float64) float64 {
	least := 0.3
	if kind == "motor" {
		least = 1.5
	}
	top := min(most, 6*12/min(b.SystemV, 24))
	if b.Practice == "ac43" || b.critical {
		top = min(top, 2)
	}
	return b.between(least, max(top, least+0.1))
}

// start declares a motor's start, that its device lasts out.
func (b *builder) start(motor *Item, amps, ratingA float64, breaker bool) {
	if b.chance(60) {
		motor.Set("starts", fmt.Sprintf("%.3g A for 0.1 s", min(amps*3, ratingA*1.2)))
	}
	if breaker || b.chance(40) {
		motor.Set("stalls", fmt.Sprintf("%.3g A", max(amps*5, ratingA*2.6)))
	}
}
