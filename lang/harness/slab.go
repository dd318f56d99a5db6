package harness

// slab cuts many small things, or lists of them, from a few large pieces.
type slab[T any] struct{ room []T }

// mostPiece is how many things one piece holds at most.
const mostPiece = 256

// list is room for n things, all zero.
func (s *slab[T]) list(n int) []T {
	if cap(s.room)-len(s.room) < n {
		s.room = make([]T, 0, max(n, min(2*cap(s.room), mostPiece)))
	}
	at := len(s.room)
	s.room = s.room[:at+n]
	return s.room[at : at+n : at+n]
}

// one is a zero thing of its own.
func (s *slab[T]) one() *T { return &s.list(1)[0] }
