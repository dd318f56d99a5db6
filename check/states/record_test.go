package states_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/check/states"
)

// told is everything that a survey and its points say, without a pointer in it.
func told(s *states.Solver, v *states.Survey, points []*states.Point) string {
	var b strings.Builder
	say := func(at *states.Position) {
		if at != nil {
			fmt.Fprintf(&b, " %+v", *at.Figure())
		}
	}
	for _, p := range points {
		fmt.Fprintf(&b, "%+v %v %v %v %v", *p.Position.Figure(), p.Position.Charge, p.In, p.Sagging, p.Failed)
		for i := range s.Network.Elements {
			fmt.Fprintf(&b, " %v %v", p.Amps(i), p.Across(i))
		}
		b.WriteByte('\n')
	}
	for i := range v.Worst {
		fmt.Fprint(&b, v.Worst[i].Amps, v.Worst[i].AtoB, v.Worst[i].BtoA, v.Worst[i].Bound, v.Volts[i].Least, v.Volts[i].Most)
		say(v.Worst[i].At)
		say(v.Volts[i].LeastAt)
		say(v.Volts[i].MostAt)
		b.WriteByte('\n')
	}
	fmt.Fprintln(&b, v.Covered, v.Method, len(v.Modes))
	return b.String()
}

// A survey that is told again, of the same text read and bound once more, says
// what it said.
func TestReplaySaysTheSame(t *testing.T) {
	var list []string
	for _, name := range []string{"sap_hauler", "forwarder", "launch", "trailer"} {
		list = append(list, example(t, name))
	}
	for seed := range uint64(60) {
		list = append(list, generate(seed, 3+int(seed%12), seed%2 == 0))
	}
	for _, text := range list {
		s, again := solver(t, text), solver(t, text)
		var first, second []*states.Point
		found, recording := states.Record(s, func(p *states.Point) { first = append(first, p) })
		if !recording.Fits(again.Network) {
			t.Fatalf("a recording does not fit its own text:\n%s", text)
		}
		replayed := recording.Replay(again.Network, func(p *states.Point) { second = append(second, p) })
		if diff := cmp.Diff(told(s, found, first), told(again, replayed, second)); diff != "" {
			t.Fatalf("%s\n%s", text, diff)
		}
		for _, p := range second {
			for d := range p.Position.Throws {
				if !slices.Contains(again.Network.Harness.Devices, d) {
					t.Fatalf("a switch of another harness is thrown: %s", d.Name)
				}
			}
		}
	}
}

// A recording fits no network with another node, element or resistance.
func TestRecordingFitsItsLike(t *testing.T) {
	text := example(t, "trailer")
	_, recording := states.Record(solver(t, text), nil)
	at := strings.Index(text, "\nwire ")
	for _, other := range []string{
		text + "\nzone more { ambient 1..2 degC }\nplace there in more\nground chassis another { at there }\n",
		text[:at] + "\n#" + text[at+1:],
		strings.Replace(text, "2.5 mm2", "4 mm2", 1),
	} {
		if other == text || recording.Fits(solver(t, other).Network) {
			t.Errorf("it fits\n%s", other)
		}
	}
}

// What nobody wants any more is solved no further.
func TestStop(t *testing.T) {
	for _, name := range []string{"sap_hauler", "launch"} {
		var asked atomic.Int64
		s := solver(t, example(t, name))
		s.Stop = func() bool { return asked.Add(1) > 3 }
		solved, left := 0, 0
		states.Find(s, func(p *states.Point) {
			if p.Failed == nil {
				solved++
			} else if left++; errors.Unwrap(p.Failed) != nil || !strings.Contains(p.Failed.Error(), "stopped") {
				t.Fatal(p.Failed)
			}
		})
		if solved == 0 || solved > 6 || left == 0 {
			t.Errorf("%s: %d points solved, %d left", name, solved, left)
		}
	}
}
