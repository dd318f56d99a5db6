package slab_test

import (
	"testing"

	"hame/lang/slab"
)

// TestTake: what is handed out is zero, and writing or appending to one slice
// changes no other.
func TestTake(t *testing.T) {
	var s slab.Of[int]
	var all [][]int
	for k := range 3000 {
		n := k % 7
		if k == 100 {
			n = 5000
		}
		taken := s.Take(n)
		if len(taken) != n || cap(taken) != n {
			t.Fatalf("%d asked for, %d given with room for %d", n, len(taken), cap(taken))
		}
		for i := range taken {
			if taken[i] != 0 {
				t.Fatalf("slice %d holds %d", k, taken[i])
			}
			taken[i] = k + 1
		}
		all = append(all, taken)
	}
	for k, taken := range all {
		_ = append(taken, -1)
		for _, v := range taken {
			if v != k+1 {
				t.Fatalf("slice %d holds %d", k, v)
			}
		}
	}
	if s.Take(0) != nil {
		t.Error("no slice of none")
	}
}
