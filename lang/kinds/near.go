package kinds

import (
	"sort"
	"strings"

	"github.com/agext/levenshtein"
)

// Nearest is the known word that a mistyped one is likely to have meant, or "".
func Nearest(word string, known []string) string {
	best, distance := "", 1+len(word)/3
	sorted := append([]string(nil), known...)
	sort.Strings(sorted)
	for _, k := range sorted {
		if strings.EqualFold(k, word) {
			return k
		}
		if d := levenshtein.Distance(word, k, nil); d <= distance && (best == "" || d < levenshtein.Distance(word, best, nil)) {
			best = k
		}
	}
	return best
}

// DidYouMean is a tail for a message: "; did you mean `rating`?", or "".
func DidYouMean(word string, known []string) string {
	if near := Nearest(word, known); near != "" {
		return "; did you mean `" + near + "`?"
	}
	return ""
}

func upper(s string) string { return strings.ToUpper(s) }
