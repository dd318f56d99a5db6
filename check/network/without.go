package network

import "slices"

// Without is the same network with one element open: it leads from its first
// node to itself. What is feed and what is return stays as it was.
func (n *Network) Without(element int) *Network {
	open := *n
	open.Elements = slices.Clone(n.Elements)
	e := &open.Elements[element]
	far := e.B
	e.B = e.A
	open.At = slices.Clone(n.At)
	open.At[far] = slices.DeleteFunc(slices.Clone(n.At[far]), func(i int) bool { return i == element && far != e.A })
	return &open
}
