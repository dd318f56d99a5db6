package facts

import "hame/check/network"

// Rails tells which sources' live poles lead to a node, every contact counting
// as closed.
type Rails struct {
	sources []int
	reach   []*Nodes // by source
}

// Rails works it out for every source at once.
func (f *Facts) Rails() *Rails {
	r := &Rails{}
	for i := range f.Network.Elements {
		if f.Network.Elements[i].Kind == network.Source {
			r.sources = append(r.sources, i)
			r.reach = append(r.reach, f.Reach([]int{f.Network.Hot(i)}, func(i, from int) bool { return f.Passes(nil, i, from) }))
		}
	}
	return r
}

// Of lists the elements of the sources that lead to a node.
func (r *Rails) Of(node int) []int {
	var list []int
	for k, i := range r.sources {
		if r.reach[k].Has(node) {
			list = append(list, i)
		}
	}
	return list
}
