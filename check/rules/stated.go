package rules

import (
	"maps"

	"hame/check/states"
)

// statedName is the name of the declared mode that a position is as stated in,
// relays that hold themselves in or not; or the position in words.
func (c *Context) statedName(p *states.Point) string {
	for n, mode := range c.Survey.Modes {
		m := &mode.Position
		if p.Position.Corner == states.AsStated && m.Key == p.Position.Key && m.Engine == p.Position.Engine &&
			m.Charge == p.Position.Charge && m.AmbientC == p.Position.AmbientC && maps.Equal(m.Throws, p.Position.Throws) {
			return c.Harness.Modes[n].Name
		}
	}
	return where(p.Position.Figure())
}
