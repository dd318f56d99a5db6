package faults

// visit is a node that waits to be reached.
type visit struct {
	cold, hot float64 // ohm from the root
	node, via int32   // via: the element that leads to it
}

// ohm is what ways are compared by.
func (v visit) ohm() float64 { return v.cold + v.hot }

func (v visit) less(o visit) bool {
	a, b := v.ohm(), o.ohm()
	return a < b || a == b && v.node < o.node
}

// queue is a heap of visits, the least resistance first. It is the standard
// library's heap, step by step, without a value of its own for each visit.
type queue []visit

func (q *queue) push(v visit) {
	*q = append(*q, v)
	h := *q
	j := len(h) - 1
	for j > 0 {
		i := (j - 1) / 2
		if !v.less(h[i]) {
			break
		}
		h[j] = h[i]
		j = i
	}
	h[j] = v
}

func (q *queue) pop() visit {
	h := *q
	n := len(h) - 1
	first, v := h[0], h[n]
	h = h[:n]
	*q = h
	if n == 0 {
		return first
	}
	i := 0
	for {
		j := 2*i + 1
		if j >= n {
			break
		}
		if right := j + 1; right < n && h[right].less(h[j]) {
			j = right
		}
		if !h[j].less(v) {
			break
		}
		h[i] = h[j]
		i = j
	}
	h[i] = v
	return first
}
