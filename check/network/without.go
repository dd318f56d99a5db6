package network

import "slices"

// Without is the same network with some elements open: each leads from its
// first node to itself. What is feed and what is return stays as it was.
func (n *Network) Without(elements ...int) *Network {
	open := *n
	open.Elements, open.At = slices.Clone(n.Elements), slices.Clone(n.At)
	for _, i := range elements {
		e := &open.Elements[i]
		if far := e.B; far != e.A {
			open.At[far] = slices.DeleteFunc(slices.Clone(open.At[far]), func(at int) bool { return at == i })
			e.B = e.A
		}
	}
	return &open
}
