package facts

import "sync"

// crowds are the nodes of one solved position at which so many elements meet
// that looking through all of them for every load would take longest of all: a
// chassis, a bus bar. What is found out of one is kept.
type crowds struct {
	lock sync.Mutex
	at   map[int]*crowd // by node
}

// crowd is one of them.
type crowd struct {
	away, into int   // the elements of the greatest current out of it and into it; -1 for none
	leaving    []int // those that carry current out of it on to somewhere, in order
}

// crowded is how many elements make a crowd.
const crowded = 32

// crowd is what is known of a node; nil where few elements meet or the position
// is none of those that are asked for by many.
func (w walker) crowd(node int) *crowd {
	if w.crowds == nil || len(w.f.Network.At[node]) < crowded {
		return nil
	}
	w.crowds.lock.Lock()
	defer w.crowds.lock.Unlock()
	c := w.crowds.at[node]
	if c == nil {
		c = &crowd{away: w.seek(node, 1), into: w.seek(node, -1)}
		for _, i := range w.f.Network.At[node] {
			if w.along(i, node) > 0 {
				c.leaving = append(c.leaving, i)
			}
		}
		if w.crowds.at == nil {
			w.crowds.at = map[int]*crowd{}
		}
		w.crowds.at[node] = c
	}
	return c
}

// leaving lists the elements at a node, at the least those along which current
// leaves it.
func (w walker) leaving(node int) []int {
	if c := w.crowd(node); c != nil {
		return c.leaving
	}
	return w.f.Network.At[node]
}
