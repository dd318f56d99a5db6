package source

const (
	leastRoom = 16 // more things that a full list is made to hold
	mostRoom  = 16 // times what it holds
	spare     = 16 // one in so many of them is more than expected
)

// Room makes room in a list that is full for what the rest of a text will give, if
// it gives as much as up to here: the text goes to end and was gone through as far
// as at. Where it goes on otherwise, the list grows once more or stays too long.
func Room[T any](list []T, at, end int) []T {
	if len(list) < cap(list) {
		return list
	}
	more := len(list) * (end - at) / max(at, 1)
	more = min(more+(more+len(list))/spare, mostRoom*len(list)) + leastRoom
	roomy := make([]T, len(list), len(list)+more) // slices.Grow would clear all of it
	copy(roomy, list)
	return roomy
}
