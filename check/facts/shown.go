package facts

import (
	"sync"

	"hame/check/figures"
	"hame/check/states"
)

// shown are positions as reports print them. Any number of goroutines may ask at
// once; each of them is made by the first that does.
type shown struct {
	lock sync.Mutex
	made map[shownAs]func() *figures.Position
}

// shownAs is a position with what stands beside it: that of a bound says so.
type shownAs struct {
	at    *states.Position
	bound bool
}

// position is a position as reports print it, one for all that share it.
func (f *Facts) position(p *states.Position, bound bool) *figures.Position {
	key := shownAs{p, bound}
	f.shown.lock.Lock()
	made := f.shown.made[key]
	if made == nil {
		made = sync.OnceValue(func() *figures.Position {
			figure := p.Figure()
			figure.Bound = bound
			return figure
		})
		f.shown.made[key] = made
	}
	f.shown.lock.Unlock()
	return made()
}
