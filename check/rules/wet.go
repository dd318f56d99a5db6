package rules

import (
	"strings"

	"hame/lang/finding"
	"hame/lang/harness"
)

// isWet: with exposure wet or splash.
func isWet(z *harness.Zone) bool { return z != nil && (z.Exposed["wet"] || z.Exposed["splash"]) }

// inZone reports whether a device sits in a zone of a sort. Where its place is
// not said it waits for that, if the harness has such a zone at all.
func (c *Context) inZone(d *harness.Device, sort func(*harness.Zone) bool) bool {
	if d.At != nil {
		return d.At.Zone != nil && sort(d.At.Zone)
	}
	for _, z := range c.Harness.Zones {
		if sort(z) {
			c.Wait(d.Name, finding.Need{Name: d.Name, Setting: "at"}, d.Origin.Place())
			return false
		}
	}
	return false
}

// keepsWaterOut reports whether a degree of protection under one of some
// settings keeps water out at all: by IEC 60529 a second digit of 0 does not.
func keepsWaterOut(d *harness.Device, settings ...string) bool {
	for _, s := range settings {
		code := d.Word(s) // IP67, IPX4, IP6K9K
		if len(code) > 3 && strings.Trim(code[3:], "0XK") != "" {
			return true
		}
	}
	return false
}
