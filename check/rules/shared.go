package rules

import (
	"math"
	"sync"

	"hame/check/facts"
	"hame/check/network"
	"hame/lang/kinds"
)

// shared is what many rules ask of one harness. The first that asks works it
// out; what it answers with is the asker's to read, not to change.
type shared struct {
	byKind func() *kindLists
	// loadElements lists the elements of declared loads: not coils, converters, nor
	// what stands for the machine.
	loadElements func() []int
	// deviceAmps is, by element, the ampacity that a wire's protective device is
	// judged against; not a number where it is not known.
	deviceAmps func() []float64
}

// kindLists lists elements by kind.
type kindLists [network.Source + 1][]int

func newShared(f *facts.Facts) *shared {
	s := &shared{byKind: sync.OnceValue(func() *kindLists { return listKinds(f.Network) })}
	s.loadElements = sync.OnceValue(func() []int {
		list := make([]int, 0, len(s.loads()))
		for _, i := range s.loads() {
			if e := &f.Network.Elements[i]; e.Device != nil && e.Device.Is(kinds.Load) {
				list = append(list, i)
			}
		}
		return list
	})
	s.deviceAmps = sync.OnceValue(func() []float64 {
		amps := make([]float64, len(f.Network.Elements))
		for _, i := range s.of(network.Wire) {
			amps[i] = math.NaN()
			if r, ok := f.DeviceAmpacity(f.Network.Elements[i].Wire); ok {
				amps[i] = r.Amps
			}
		}
		return amps
	})
	return s
}

func listKinds(n *network.Network) *kindLists {
	var count [len(kindLists{})]int
	for i := range n.Elements {
		count[n.Elements[i].Kind]++
	}
	var lists kindLists
	for k := range lists {
		lists[k] = make([]int, 0, count[k])
	}
	for i := range n.Elements {
		k := n.Elements[i].Kind
		lists[k] = append(lists[k], i)
	}
	return &lists
}

// of lists the elements of a kind.
func (s *shared) of(k network.Kind) []int { return s.byKind()[k] }

// loads lists the elements of all loads, the hidden ones too.
func (s *shared) loads() []int { return s.of(network.Load) }

// fuseElements lists the elements of the protective devices.
func (s *shared) fuseElements() []int { return s.of(network.Fuse) }
