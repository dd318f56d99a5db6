package kinds

import (
	"sort"
	"strings"

	"github.com/agext/levenshtein"
)

// Nearest is the known word that a mistyped one is likely to have meant, or "".
func Nearest(word string, known []string) string {
	sorted := append([]string(nil), known...)
	sort.Strings(sorted)
	best, least := "", 2+len(word)/3
	for _, k := range sorted {
		if strings.EqualFold(k, word) && k != word {
			return k
		}
		if d := mistypings(word, k); d < least {
			best, least = k, d
		}
	}
	return best
}

// mistypings counts the letters that were left out, added or struck wrongly;
// two neighbours swapped are one. Of words that are mistyped by half, or short,
// only those with their first letter in common can be told from others.
func mistypings(word, known string) int {
	const short = 3
	d := levenshtein.Distance(word, known, nil)
	if d == 2 && swapped(word, known) {
		return 1
	}
	far := len(word) <= short || 2*d >= len(word)
	if len(word) < 2 || len(word) <= short && d > 1 || far && !strings.HasPrefix(known, word[:1]) {
		return 2 + len(word) + len(known)
	}
	return d
}

// swapped reports whether two words differ by two neighbours in each other's
// place.
func swapped(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	return i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}

// DidYouMean is a tail for a message: "; did you mean `rating`?", or "".
func DidYouMean(word string, known []string) string {
	if near := Nearest(word, known); near != "" {
		return "; did you mean `" + near + "`?"
	}
	return ""
}

func upper(s string) string { return strings.ToUpper(s) }
