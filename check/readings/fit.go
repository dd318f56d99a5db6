package readings

import (
	"cmp"
	"math"
	"slices"

	"hame/check/trial"
)

// fit is a hypothesis with the size that explains the readings best.
type fit struct {
	h         *hypothesis
	size      float64
	left      float64 // the sum of squares that it leaves
	predicted []float64
}

// likely are the hypotheses whose effect, taken in proportion or as no
// connection at all, goes best with what is left.
func (d *detective) likely(effects []effect, left []float64) []effect {
	type rated struct {
		effect
		gain float64
	}
	var list []rated
	before := dot(left, left)
	for _, e := range effects {
		gain := 0.0
		column := d.white.of(e.column)
		if size := dot(column, left); dot(column, column) > 0 && (size > 0 || !e.h.ohm) {
			gain = size * size / dot(column, column)
		}
		if e.open != nil {
			after := minus(left, d.white.of(e.open))
			gain = max(gain, before-dot(after, after))
		}
		if gain > 0 || d.itself(e.h) {
			list = append(list, rated{e, gain})
		}
	}
	slices.SortStableFunc(list, func(a, b rated) int { return cmp.Compare(b.gain, a.gain) })
	var best []effect
	more := shortlist // of those that their own line accuses
	for k, r := range list {
		if k >= shortlist {
			if more == 0 || !d.itself(r.h) {
				continue
			}
			more--
		}
		best = append(best, r.effect)
	}
	return best
}

// itself: a line that proves nothing but this part reads too much. That need not
// be in proportion, so it is fitted whatever the proportion says.
func (d *detective) itself(h *hypothesis) bool {
	return slices.ContainsFunc(d.seen, func(o observation) bool {
		l := o.line
		own := l.Kind == trial.Continuity || l.Kind == trial.Part
		return h.ohm && own && l.Name == h.Name && d.report.Items[o.item].SI > l.High
	})
}

// fitAll fits the likely ones in full, the best first, and leaves out what is no
// better than nothing.
func (d *detective) fitAll(likely []effect, before float64) []fit {
	var fits []fit
	for _, e := range likely {
		if f := d.fit(e.h); f.left < before {
			fits = append(fits, f)
		}
	}
	slices.SortStableFunc(fits, func(a, b fit) int { return cmp.Compare(a.left, b.left) })
	return fits
}

// fit searches a hypothesis's size: every one that is tried, then between the
// neighbours of the best by the golden section, resistances by their logarithm.
func (d *detective) fit(h *hypothesis) fit {
	at := make([]float64, len(h.sizes))
	best, k := fit{h: h, left: math.Inf(1)}, 0
	for i, size := range h.sizes {
		at[i] = h.scale(size)
		if f := d.try(h, size); f.left < best.left {
			best, k = f, i
		}
	}
	low, high := at[max(0, k-1)], at[min(len(at)-1, k+1)]
	const golden, steps = 0.6180339887498949, 14
	for range steps {
		if low >= high {
			break
		}
		a, b := high-golden*(high-low), low+golden*(high-low)
		x, y := d.try(h, h.unscale(a)), d.try(h, h.unscale(b))
		for _, f := range []fit{x, y} {
			if f.left < best.left {
				best = f
			}
		}
		if x.left <= y.left {
			high = b
		} else {
			low = a
		}
	}
	return best
}

func (h *hypothesis) scale(size float64) float64 {
	if h.ohm {
		return math.Log10(size)
	}
	return size
}

func (h *hypothesis) unscale(at float64) float64 {
	if h.ohm {
		return math.Pow(10, at)
	}
	return at
}

// try solves the network with a hypothesis of a size.
func (d *detective) try(h *hypothesis, size float64) fit {
	predicted, ok := predict(d.m, d.lines, append(slices.Clone(d.found), change{h, size}))
	if !ok {
		return fit{h: h, size: size, left: math.Inf(1)}
	}
	left := d.white.of(minus(d.values, predicted))
	return fit{h, size, dot(left, left), predicted}
}

// faultShare is by how much a fault's effect may be off, as draws are off.
const faultShare = 0.1

// explained lists the readings that were out and lie, with what is predicted
// now, where they should: off by no more than their band was wide, the meter's
// tolerance at what it reads now, and a share of the fault's effect.
func (d *detective) explained(base, predicted []float64) []string {
	var ids []string
	for k, o := range d.seen {
		if d.report.Items[o.item].State != Drifted {
			continue
		}
		l := o.line
		off := o.value - predicted[k]
		more := meterSigmas*o.sigma + faultShare*math.Abs(predicted[k]-base[k])
		low, high := see(l, l.Low)-see(l, *l.Expect), see(l, l.High)-see(l, *l.Expect)
		if off >= low-more && off <= high+more {
			ids = append(ids, l.ID)
		}
	}
	return ids
}

// finding names the best and what cannot be told from it.
func (d *detective) finding(fits []fit, explains []string) Finding {
	f := Finding{Explains: explains}
	var alike []fit
	for _, x := range fits {
		if x.left <= fits[0].left+alikeGain {
			alike = append(alike, x)
			f.Suspects = append(f.Suspects, d.suspect(x))
		}
	}
	f.Measure = d.apart(alike)
	return f
}

func (d *detective) suspect(x fit) Suspect {
	s := x.h.Suspect
	size := x.size
	switch {
	case s.Sort == stuckSort:
		s.Then = d.then(x.h)
	case x.h.ohm:
		s.AddedOhm, s.Open = &size, size >= noConnection
	default:
		s.Share = &size
	}
	return s
}

// noConnection is a resistance from which a part counts as open.
const noConnection = 1e4

// mostAsked is how many lines a finding asks for at most.
const mostAsked = 3

// apart lists lines that were not measured and on which the suspects differ by
// more than any meter's tolerance.
func (d *detective) apart(alike []fit) []string {
	var lines []trial.Line
	for _, i := range d.report.Items {
		if i.State == Blank && modelled(i.Line) {
			lines = append(lines, i.Line)
		}
	}
	if len(alike) < 2 || len(lines) == 0 {
		return nil
	}
	var ids []string
	before := d.found[:len(d.found)-1]
	first, _ := predict(d.m, lines, append(slices.Clone(before), change{alike[0].h, alike[0].size}))
	for _, x := range alike[1:] {
		other, ok := predict(d.m, lines, append(slices.Clone(before), change{x.h, x.size}))
		if id, far := farthest(lines, first, other); ok && far && !slices.Contains(ids, id) && len(ids) < mostAsked {
			ids = append(ids, id)
		}
	}
	return ids
}

// farthest is the line on which two predictions differ the most, by the meter's
// tolerance; false where no meter shows it.
func farthest(lines []trial.Line, a, b []float64) (string, bool) {
	const shown = 3
	best, id := shown*1.0, ""
	for k, l := range lines {
		if a == nil || b == nil {
			break
		}
		if off := math.Abs(a[k]-b[k]) / (l.Unit.Tolerance(a[k]) + nothing); off > best {
			best, id = off, l.ID
		}
	}
	return id, id != ""
}
