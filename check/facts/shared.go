package facts

import (
	"hame/check/figures"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// Shared reports whether a return wire serves several loads: neither of its
// ends is a load's or coil's own terminal with no other wire on it.
func (f *Facts) Shared(w *harness.Wire) bool {
	if f.Network.Side(w) != figures.Return {
		return false
	}
	for _, e := range w.Ends {
		if e.Terminal == nil || f.private(e.Terminal) {
			return false
		}
	}
	return true
}

func (f *Facts) private(t *harness.Terminal) bool {
	d := t.Device
	return len(t.Wires) == 1 && (d.Is(kinds.Load) || d.Is(kinds.Switch, "relay"))
}
