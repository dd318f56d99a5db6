package print

import (
	"strings"

	widths "hame/check/columns"
)

// measure is how wide a letter is, in whatever the writer counts by.
type measure func(rune) float64

func (m measure) of(text string) float64 {
	sum := 0.0
	for _, r := range text {
		sum += m(r)
	}
	return sum
}

// wrap parts a text into lines no wider than most, at blanks; a word that is
// wider is parted too. There is always a line.
func wrap(text string, most float64, m measure) []string {
	const dust = 1e-6 // sums of the same letters differ by the order they are taken in
	most += dust
	var lines []string
	line, at := "", 0.0
	for _, word := range unbroken(text) {
		for _, piece := range pieces(word, most, m) {
			n := m.of(piece)
			switch {
			case line == "":
				line, at = piece, n
			case at+m(' ')+n <= most:
				line, at = line+" "+piece, at+m(' ')+n
			default:
				lines = append(lines, line)
				line, at = piece, n
			}
		}
	}
	return append(lines, line)
}

// pieces parts a word that is wider than a line: behind a sign that joins its parts
// where there is one, else at a quantity's blank.
func pieces(word string, most float64, m measure) []string {
	var list []string
	for m.of(word) > most {
		cut := cutAt(word, most, m)
		if cut >= len(word) {
			break
		}
		list = append(list, strings.TrimRight(word[:cut], " "))
		word = strings.TrimLeft(word[cut:], " ")
	}
	return append(list, word)
}

// cutAt is where to cut a word: behind at least one letter. A figure is parted
// from one beside it only where nothing else does.
func cutAt(word string, most float64, m measure) int {
	hard, soft, blank, at := 0, 0, 0, 0.0
	for i, r := range word {
		if at += m(r); at > most && i > 0 {
			if r == ' ' {
				blank = i
			}
			break
		}
		hard = i + len(string(r))
		switch {
		case r == ' ':
			blank = i
		case strings.ContainsRune("/-._,:", r) && !inNumber(word, i):
			soft = hard
		}
	}
	switch {
	case soft > 0 && soft < len(word):
		return soft
	case blank > 0:
		return blank
	}
	return hard
}

// inNumber reports whether a sign stands between two figures.
func inNumber(word string, i int) bool {
	return i > 0 && i+1 < len(word) && figure(word[i-1]) && figure(word[i+1])
}

// columnsOf is how many columns of a terminal a letter takes.
func columnsOf(r rune) float64 { return float64(widths.Of(r)) }

// columns is how many columns a text takes.
func columns(text string) int { return int(measure(columnsOf).of(text)) }

// filled puts blanks behind a text, or before it, up to a width.
func filled(text string, wide int, right bool) string {
	blanks := strings.Repeat(" ", max(0, wide-columns(text)))
	if right {
		return blanks + text
	}
	return text + blanks
}
