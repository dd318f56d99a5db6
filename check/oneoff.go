package check

import "runtime/debug"

// OneOff sets the collector for a process that checks, reports and ends: memory
// that is taken for a moment is cheaper than looking through all of it again and
// again. The heap grows to five times of what is in use before it is looked
// through, but in any case at about 1.5 GB. A server, which stays, leaves it as it is.
func OneOff() {
	const percent, mostBytes = 400, 3 << 29
	debug.SetGCPercent(percent)
	debug.SetMemoryLimit(mostBytes)
}
