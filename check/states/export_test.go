package states

// FindBounded is Find with next to no work allowed: it bounds whatever has more
// than a few settings.
func FindBounded(s *Solver, watch func(*Point)) *Survey { return find(s, watch, 0, 0) }

// Latches counts the coils that may hold themselves.
func Latches(s *Solver) int { return len(s.latches) }
