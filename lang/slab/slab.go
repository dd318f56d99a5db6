// Package slab cuts many small things, or lists of them, from few pieces of memory.
package slab

// Of hands out things of one type. The zero one is ready; it is for one goroutine.
// What is cut from one piece is freed together, so the pieces begin small and double
// up to a bound.
type Of[T any] struct {
	// Most is how many things a piece holds at most; 0 for 256. Fewer where some of
	// the things live longer than others.
	Most  int
	free  []T
	piece int // how many the last piece was for
}

const leastPiece, mostPiece = 4, 256

// For is one with room for n things.
func For[T any](n int) *Of[T] { return &Of[T]{free: make([]T, n)} }

// Take is a list of n zeros that nothing else shares and that has no room to grow;
// nil where n is 0.
func (s *Of[T]) Take(n int) []T {
	if n == 0 {
		return nil
	}
	if len(s.free) < n {
		most := s.Most
		if most == 0 {
			most = mostPiece
		}
		s.piece = min(max(2*s.piece, leastPiece, n), max(most, n))
		s.free = make([]T, s.piece)
	}
	taken := s.free[:n:n]
	s.free = s.free[n:]
	return taken
}

// One is a zero of its own.
func (s *Of[T]) One() *T { return &s.Take(1)[0] }

// Copies is a list of its own with the same things, nil for none.
func (s *Of[T]) Copies(list []T) []T {
	taken := s.Take(len(list))
	copy(taken, list)
	return taken
}
