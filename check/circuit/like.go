package circuit

import "math"

// stillVolts and stillAmps are nothing but the last digits of a solve.
const (
	stillVolts = 1e-12
	stillAmps  = 1e-12
)

// Like is the point of one of the last answers that differs from s only in
// resistances that carry nothing there, or have nothing across them: what they
// were switched from or to changes no current, so the volts across everything
// that is on are those of s but for their last digits. It is nil where no answer
// is known to be so, and never one that the search came by only on a detour, for
// from there the last digits may lead elsewhere.
func (n *Net) Like(s *State) *Point {
	for i := range s.kept {
		if a := &s.kept[i]; a.plain && n.still(a, s) {
			return s.latest(i)
		}
	}
	return nil
}

// still: what was switched since an answer neither carries nor parts anything in
// it.
func (n *Net) still(a *answer, s *State) bool {
	for b, on := range s.plan.on {
		if was := a.on[b]; was == on {
			continue
		} else if s.plan.laws[b] != nil || was && !(math.Abs(a.point.amps[b]) <= stillAmps) || on && !a.level[b] {
			return false
		}
	}
	return true
}
