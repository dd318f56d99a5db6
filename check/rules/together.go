package rules

import (
	"slices"

	"hame/check/network"
	"hame/lang/harness"
)

// maxTogether bounds the search for a way whose contacts can be closed together.
const maxTogether = 20_000

// together looks for a way from a source to a load whose contacts one position
// can close: each switch on one throw, the key on one position. A relay counts
// as in or out, as the way wants it. Where there are too many positions to
// solve, that is what tells a load that nothing feeds from one that the solved
// positions missed.
type together struct {
	c     *Context
	hot   map[int]bool
	on    map[int]bool            // nodes on the way
	throw map[*harness.Device]int // what the way wants of each switch
	keys  []string                // positions of the key that the way leaves
	steps int
}

// mayClose reports whether there is such a way; it says yes where it had to
// give up.
func (c *Context) mayClose(load int) bool {
	t := &together{
		c: c, hot: map[int]bool{}, on: map[int]bool{}, throw: map[*harness.Device]int{},
		keys: []string{"off", "acc", "on", "start"},
	}
	for _, i := range c.Sources() {
		t.hot[c.Network.Hot(i)] = true
	}
	e := &c.Network.Elements[load]
	for _, pole := range []int{e.A, e.B} {
		if !c.Network.Return(pole) && t.from(pole) {
			return true
		}
	}
	return false
}

// from goes on from a node towards a source, against the current.
func (t *together) from(node int) bool {
	if t.hot[node] {
		return true
	}
	if t.steps++; t.steps > maxTogether {
		return true
	}
	t.on[node] = true
	defer delete(t.on, node)
	for _, i := range t.c.Network.At[node] {
		e := &t.c.Network.Elements[i]
		next := e.A + e.B - node
		if t.on[next] || t.c.Network.Return(next) || !t.c.Passes(nil, i, next) {
			continue
		}
		if t.through(e, next) {
			return true
		}
	}
	return false
}

// through takes one element of the way, if what it wants goes with the rest.
func (t *together) through(e *network.Element, next int) bool {
	if e.Kind != network.Contact {
		return t.from(next)
	}
	switch e.Gate.By {
	case network.Hand:
		was, set := t.throw[e.Device]
		if set && was != e.Gate.Throw {
			return false
		}
		t.throw[e.Device] = e.Gate.Throw
		if !set {
			defer delete(t.throw, e.Device)
		}
	case network.Key:
		was := t.keys
		defer func() { t.keys = was }()
		t.keys = slices.DeleteFunc(slices.Clone(was), func(k string) bool { return !slices.Contains(e.Gate.Key, k) })
		if len(t.keys) == 0 {
			return false
		}
	}
	return t.from(next)
}
