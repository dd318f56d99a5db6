package states

// settingsOf counts settings, up to a limit.
func settingsOf(list []hand, limit int) int {
	count := 1
	for _, h := range list {
		if count *= h.throws + 1; count >= limit {
			return limit
		}
	}
	return count
}

// everySetting lists a unit's settings: all open, those between, all closed.
// Where there are too many, only each switch closed alone and each open alone.
func everySetting(list []hand) [][]int {
	count := settingsOf(list, unitSettings+1)
	var all [][]int
	add := func(throw func(k int) int) {
		set := make([]int, len(list))
		for k := range list {
			set[k] = throw(k)
		}
		all = append(all, set)
	}
	if count <= unitSettings {
		for i := range count {
			rest := i
			add(func(k int) int {
				throw := rest % (list[k].throws + 1)
				rest /= list[k].throws + 1
				return throw
			})
		}
		return all
	}
	add(func(int) int { return 0 })
	for j, h := range list {
		for t := range h.throws {
			add(func(k int) int { return (t + 1) * one(k == j) })
		}
		add(func(k int) int { return one(k != j) })
	}
	add(func(int) int { return 1 })
	return all
}

func one(yes bool) int {
	if yes {
		return 1
	}
	return 0
}
