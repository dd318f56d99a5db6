// Package slab hands out many small slices from few pieces of memory.
package slab

// Of hands out slices of one type. The zero one is ready; it is for one goroutine.
type Of[T any] struct {
	free  []T
	piece int // how many the last piece of memory was for
}

const leastPiece, mostPiece = 16, 1024

// Take is a slice of n zeros that nothing else shares and that has no room to grow;
// nil where n is 0.
func (s *Of[T]) Take(n int) []T {
	if n == 0 {
		return nil
	}
	if len(s.free) < n {
		s.piece = min(max(2*s.piece, leastPiece), mostPiece)
		s.free = make([]T, max(n, s.piece))
	}
	taken := s.free[:n:n]
	s.free = s.free[n:]
	return taken
}
