package harness

import (
	"hame/lang/kinds"
	"hame/lang/source"
)

// repeats finds what one block gives a second time.
type repeats struct {
	list  []repeat
	where map[repeatKey]source.Span // in place of a list that is long
}

// repeatKey is a setting and what it repeats by.
type repeatKey struct {
	setting *kinds.Setting
	by      string
}

type repeat struct {
	repeatKey
	at source.Span
}

// longBlock is how many settings are looked through one by one at most.
const longBlock = 32

func (r *repeats) begin() { r.list, r.where = r.list[:0], nil }

// again is where a setting was given before; else it is remembered.
func (r *repeats) again(a kinds.Args) (source.Span, bool) {
	key := repeatKey{a.Setting, a.RepeatKey()}
	if r.where != nil {
		first, again := r.where[key]
		if !again {
			r.where[key] = a.Key.Span
		}
		return first, again
	}
	for i := range r.list {
		if r.list[i].repeatKey == key {
			return r.list[i].at, true
		}
	}
	if r.list = append(r.list, repeat{key, a.Key.Span}); len(r.list) > longBlock {
		r.where = make(map[repeatKey]source.Span, 2*len(r.list))
		for _, x := range r.list {
			r.where[x.repeatKey] = x.at
		}
	}
	return source.Span{}, false
}
