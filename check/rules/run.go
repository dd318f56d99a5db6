package rules

import (
	"math"

	"hame/lang/finding"
	"hame/lang/harness"
)

// run is the harness that the examples of bundles are variations of: a lamp at
// the far end of one run. Its arguments are appended to the zone, set for the
// run's settings, and appended to its line and to the end.
func run(zone, settings, want, more string) string {
	return `harness run {
    system   12 V
    practice land
    wire     gxl
    slack    100 mm
}
zone  yard { ambient 0..40 degC` + zone + ` }
place shelf, gate in yard
bundle b1 shelf -> gate 1.2 m { ` + settings + ` }` + want + `
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load led lamp       { at gate; draws 27 W; least 9 V; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m { cover loom_pa }
wire w2 f1.out   -> lamp.pos 2.5 mm2 red
wire w3 lamp.neg -> main.neg 2.5 mm2 black
mode lit { for 1 h }
` + more
}

// exposed is the first zone of a list that is exposed to something, or nil.
func exposed(zones []*harness.Zone, to string) *harness.Zone {
	for _, z := range zones {
		if z.Exposed[to] {
			return z
		}
	}
	return nil
}

// hottestZone is the zone of the greatest ambient. Where one doesn't say, the
// subject waits for it.
func (c *Context) hottestZone(subject string, zones []*harness.Zone) (*harness.Zone, bool) {
	var found *harness.Zone
	most := math.Inf(-1)
	for _, z := range zones {
		if !z.Known {
			c.Wait(subject, finding.Need{Name: z.Name, Setting: "ambient"}, z.Origin.Place())
			return nil, false
		}
		if z.MostC > most {
			found, most = z, z.MostC
		}
	}
	return found, found != nil
}

// degrees is a temperature as messages print it.
func degrees(tempC float64) string { return number(tempC) + " degC" }
