package states_test

import (
	"fmt"
	"testing"

	"hame/check/states"
)

func TestDbg(t *testing.T) {
	for seed := range uint64(12) {
		text := generate(seed, 3+int(seed%3), false)
		s := solver(t, text)
		truth := brute(t, s)
		v := states.FindBounded(s, nil)
		n := 0
		for i, w := range v.Worst {
			e := &s.Network.Elements[i]
			if truth[i] > 0.1 && w.Amps > truth[i]*1.2 {
				fmt.Printf("%d %s kind %d: %.2f vs %.2f  %s\n", seed, e.Name, e.Kind, w.Amps, truth[i], w.At.Figure().Key+w.At.Figure().Engine)
				n++
			}
		}
		if n > 0 {
			fmt.Println(text)
		}
	}
}
