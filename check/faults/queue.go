package faults

// visit is a node that waits to be reached.
type visit struct {
	node int
	spot
}

// queue is a heap of visits, the least resistance first. It is the standard
// library's heap, step by step, without a value of its own for each visit.
type queue []visit

func (q queue) less(i, j int) bool {
	a, b := q[i].ohm(), q[j].ohm()
	return a < b || a == b && q[i].node < q[j].node
}

func (q *queue) push(v visit) {
	*q = append(*q, v)
	h := *q
	for j := len(h) - 1; j > 0; {
		i := (j - 1) / 2
		if !h.less(j, i) {
			break
		}
		h[i], h[j] = h[j], h[i]
		j = i
	}
}

func (q *queue) pop() visit {
	h := *q
	n := len(h) - 1
	h[0], h[n] = h[n], h[0]
	for i := 0; ; {
		j := 2*i + 1
		if j >= n {
			break
		}
		if right := j + 1; right < n && h.less(right, j) {
			j = right
		}
		if !h.less(j, i) {
			break
		}
		h[i], h[j] = h[j], h[i]
		i = j
	}
	*q = h[:n]
	return h[n]
}
