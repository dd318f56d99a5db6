package layered

// Rank says in which layer each of n nodes stands, so that arrows lead to the
// right: one layer behind the last that leads to it. Arrows that close a circle
// are left out, as a walk from the first node finds them.
func Rank(n int, arrows [][2]int) []int {
	next := make([][]int, n)
	for _, a := range arrows {
		if a[0] != a[1] {
			next[a[0]] = append(next[a[0]], a[1])
		}
	}
	order, kept := unwound(n, next)
	ranks := make([]int, n)
	for _, at := range order {
		for _, to := range kept[at] {
			ranks[to] = max(ranks[to], ranks[at]+1)
		}
	}
	return ranks
}

// unwound orders the nodes so that the arrows that it keeps lead onwards.
func unwound(n int, next [][]int) (order []int, kept [][]int) {
	const fresh, open, done = 0, 1, 2
	state := make([]int, n)
	kept = make([][]int, n)
	type step struct{ at, next int }
	for root := range n {
		if state[root] != fresh {
			continue
		}
		state[root] = open
		for walk := []step{{root, 0}}; len(walk) > 0; {
			top := &walk[len(walk)-1]
			if top.next == len(next[top.at]) {
				state[top.at] = done
				order = append(order, top.at)
				walk = walk[:len(walk)-1]
				continue
			}
			to := next[top.at][top.next]
			top.next++
			if state[to] != open {
				kept[top.at] = append(kept[top.at], to)
			}
			if state[to] == fresh {
				state[to] = open
				walk = append(walk, step{to, 0})
			}
		}
	}
	for i, j := 0, len(order)-1; i < j; i, j = i+1, j-1 {
		order[i], order[j] = order[j], order[i]
	}
	return order, kept
}
