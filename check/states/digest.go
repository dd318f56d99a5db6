package states

import "hame/check/network"

// digest is what is asked of an element again and again, in a sixteenth of its
// room.
type digest struct {
	a, b         int32
	kind         network.Kind
	aBack, bBack bool // the nodes are on the return side
	simple       bool // a load that is no converter's input and has no standby
}

func digests(n *network.Network) []digest {
	list := make([]digest, len(n.Elements))
	for i := range list {
		e := &n.Elements[i]
		list[i] = digest{int32(e.A), int32(e.B), e.Kind, n.Return(e.A), n.Return(e.B), simple(e)}
	}
	return list
}

func simple(e *network.Element) bool {
	return e.Kind == network.Load && e.Load.Sort != "converter" && !(e.Load.StandbyA > 0)
}

// bridges: a load with neither pole on the return side. What shares a part with
// one may be fed through it.
func (d digest) bridges() bool { return d.kind == network.Load && !d.aBack && !d.bBack }
