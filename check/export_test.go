package check

// Solved tells one solving of a memory from the next: it is another one whenever
// positions were solved.
func (m *Memory) Solved() any { return m.recent().recording }

// SolvedAlone is the same of the machine's own by itself.
func (m *Memory) SolvedAlone() any { return m.alone }
