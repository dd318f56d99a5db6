package facts

import (
	"slices"
	"sync"
)

// Nodes is a set of nodes, in the order in which they were found. A walk mostly
// comes to a handful of them or to half the machine: few are looked for in
// their list, many are marked by node.
type Nodes struct {
	list []int
	in   []bool // by node; nil while they are few
}

// fewNodes is how many are still looked for one by one.
const fewNodes = 16

// roomier is a list with room for one more: where it is full, for as many again, as
// what has come far mostly goes on.
func roomier[T any](list []T) []T {
	if len(list) < cap(list) {
		return list
	}
	return slices.Grow(list, max(len(list), fewNodes))
}

// Has reports whether a node is one of them.
func (s *Nodes) Has(node int) bool {
	if s.in != nil {
		return s.in[node]
	}
	return slices.Contains(s.list, node)
}

// spare are sets of nodes that nobody walks with at present, as many as walked at
// once. A sync.Pool within the Facts would keep all of them alive: the collector
// holds on to pools for two rounds.
type spare struct {
	sync.Mutex
	sets []*Nodes
}

// borrow is an empty set to walk with, its nodes marked from the first: a rule that
// walks from every contact would else make one each time.
func (f *Facts) borrow() *Nodes {
	f.spare.Lock()
	defer f.spare.Unlock()
	if last := len(f.spare.sets) - 1; last >= 0 {
		s := f.spare.sets[last]
		f.spare.sets = f.spare.sets[:last]
		return s
	}
	return &Nodes{in: make([]bool, f.Network.Nodes)}
}

// giveBack takes a borrowed set back.
func (f *Facts) giveBack(s *Nodes) {
	for _, v := range s.list {
		s.in[v] = false
	}
	s.list = s.list[:0]
	f.spare.Lock()
	defer f.spare.Unlock()
	f.spare.sets = append(f.spare.sets, s)
}

// List lists them; it is the asker's to read, not to change.
func (s *Nodes) List() []int { return s.list }

// add takes in a node that is none of them yet.
func (s *Nodes) add(node, of int) {
	s.list = append(roomier(s.list), node)
	switch {
	case s.in != nil:
		s.in[node] = true
	case len(s.list) > fewNodes:
		s.in = make([]bool, of)
		for _, v := range s.list {
			s.in[v] = true
		}
	}
}
