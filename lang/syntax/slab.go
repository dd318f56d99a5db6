package syntax

// slab allots small things side by side, many at once. What is allotted together
// is freed together, so a slab begins small: an edit of one statement needs few.
type slab[T any] struct {
	free []T
	size int // of the last lot
}

const (
	leastSlab = 4
	mostSlab  = 64
)

// take gives n things that are zero, and no room behind them.
func (s *slab[T]) take(n int) []T {
	if n > len(s.free) {
		s.size = max(n, min(max(2*s.size, leastSlab), mostSlab))
		s.free = make([]T, s.size)
	}
	taken := s.free[:n:n]
	s.free = s.free[n:]
	return taken
}

// one gives a thing that is zero.
func (s *slab[T]) one() *T { return &s.take(1)[0] }

// copies is a list of its own with the same things, nil for none.
func (s *slab[T]) copies(list []T) []T {
	if len(list) == 0 {
		return nil
	}
	taken := s.take(len(list))
	copy(taken, list)
	return taken
}
