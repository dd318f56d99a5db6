package print

import (
	"regexp"
	"strings"
)

// aNumber ends in a figure and may be the end of a range: 16, 0.75, mm2..6.
var aNumber = regexp.MustCompile(`^[(<>=]*([+-]?|[a-zA-Z%]+[0-9]?\.\.[+-]?)[0-9][0-9.]*$`)

// aUnit is a unit, with what may follow it: a sign, or the second end of a range.
var aUnit = regexp.MustCompile(`^(mm2|mm|cm|m|km|in|ft|AWG|mA|A|kA|Ah|mV|V|W|kW|mohm|ohm|kohm|N|J|s|min|h|%|degC|x|times)([.,;:)]*$|\.\.)`)

// unbroken parts a text at the blanks at which a line may end: a number and its
// unit stay together, and so does a range of two.
func unbroken(text string) []string {
	var list []string
	for _, word := range strings.Fields(text) {
		if n := len(list) - 1; n >= 0 && aUnit.MatchString(word) && aNumber.MatchString(lastWord(list[n])) {
			list[n] += " " + word
			continue
		}
		list = append(list, word)
	}
	return list
}

func lastWord(text string) string { return text[strings.LastIndexByte(text, ' ')+1:] }

// parts are the pieces of a word that is parted, if it must be, where its parts
// join: a range between its two ends, a name behind its point.
func parts(word string) []string {
	var list []string
	for cut := joint(word); cut > 0; cut = joint(word) {
		list, word = append(list, word[:cut]), word[cut:]
	}
	return append(list, word)
}

// joint is behind the first point, comma or stroke that parts a word without
// parting a number; 0 where there is none.
func joint(w string) int {
	for i := 1; i < len(w)-1; i++ {
		if strings.IndexByte("./,:", w[i]) >= 0 && strings.IndexByte("./,:", w[i+1]) < 0 && !inNumber(w, i) {
			return i + 1
		}
	}
	return 0
}

func figure(c byte) bool { return '0' <= c && c <= '9' }
