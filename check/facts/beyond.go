package facts

import "hame/check/network"

// Beyond lists the loads that a node leads to without one element, by whatever
// conducts, every contact counting as closed; the return side is not passed.
func (f *Facts) Beyond(node, without int) []int {
	loads, _ := f.reached(node, without)
	return loads
}

// FedBy lists the elements of the sources whose live pole leads to a node, every
// contact counting as closed.
func (f *Facts) FedBy(node int) []int {
	var list []int
	for i := range f.Network.Elements {
		if f.Network.Elements[i].Kind != network.Source {
			continue
		}
		hot := f.Network.Hot(i)
		if f.Network.LedTo(node, func(at int) bool { return at == hot }, nil) {
			list = append(list, i)
		}
	}
	return list
}
