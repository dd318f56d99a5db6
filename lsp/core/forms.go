package core

import (
	"slices"
	"strings"

	"hame/lang/kinds"
	"hame/lang/quantity"
)

// want is what may come next: a word, or a value of one of some types.
type want struct {
	word  string
	types []string
	words []string
}

// atom is one step of a setting's form in the notation of the table.
type atom struct {
	want
	list     bool
	optional bool // an optional group starts here and may be left out
	skip     int  // how many atoms the group has
}

// atomsOf reads one form: "<device:fuse|breaker> <A+> [at <at:place>]".
func atomsOf(form string) []atom {
	words := strings.Fields(strings.NewReplacer("[", " [ ", "]", " ] ").Replace(form))
	var list []atom
	var open []int
	for _, w := range words {
		switch w {
		case "[":
			open = append(open, len(list))
			list = append(list, atom{optional: true})
		case "]":
			if n := len(open); n > 0 {
				list[open[n-1]].skip = len(list) - open[n-1]
				open = open[:n-1]
			}
		default:
			list = append(list, atomOf(w))
		}
	}
	return list
}

func atomOf(w string) atom {
	if !strings.HasPrefix(w, "<") {
		return atom{want: want{word: w}}
	}
	a := atom{}
	w, a.list = strings.CutSuffix(w, "...")
	w = strings.Trim(w, "<>")
	if _, types, named := strings.Cut(w, ":"); named {
		w = types
	}
	for alternative := range strings.SplitSeq(w, "|") {
		if isType(alternative) {
			a.types = append(a.types, alternative)
		} else {
			a.words = append(a.words, alternative)
		}
	}
	return a
}

// isType asks the table itself: a form of one type takes no words.
func isType(name string) bool {
	slots := kinds.Slotted("", "<"+name+">").Slots()
	return len(slots) == 1 && len(slots[0]) == 1 && len(slots[0][0].Types) > 0
}

// next lists what may follow the values that a setting has been given already.
func next(s *kinds.Setting, given []string) []want {
	var list []want
	for _, form := range s.Forms {
		list = append(list, follow(atomsOf(form), given)...)
	}
	return list
}

// follow goes along the atoms of a form, all ways at once.
func follow(atoms []atom, given []string) []want {
	at := reach(atoms, []int{0})
	for _, value := range given {
		if value == "," {
			at = listsBefore(atoms, at)
			continue
		}
		var after []int
		for _, i := range at {
			if i < len(atoms) && fits(atoms[i], value) {
				after = append(after, i+1)
			}
		}
		at = reach(atoms, after)
	}
	var list []want
	for _, i := range at {
		if i < len(atoms) && !atoms[i].optional {
			list = append(list, atoms[i].want)
		}
	}
	return list
}

// listsBefore are the lists that were just given a value, and so take another.
func listsBefore(atoms []atom, at []int) []int {
	var list []int
	for _, i := range at {
		if i > 0 && i <= len(atoms) && atoms[i-1].list && !slices.Contains(list, i-1) {
			list = append(list, i-1)
		}
	}
	return list
}

// reach adds where one gets by leaving optional groups out or going into them.
func reach(atoms []atom, at []int) []int {
	for i := 0; i < len(at); i++ {
		n := at[i]
		if n >= len(atoms) || !atoms[n].optional {
			continue
		}
		for _, to := range []int{n + 1, n + atoms[n].skip} {
			if !slices.Contains(at, to) {
				at = append(at, to)
			}
		}
	}
	return at
}

// fits reports whether a value may stand at an atom, by its look alone.
func fits(a atom, value string) bool {
	switch {
	case a.word != "":
		return value == a.word
	case slices.Contains(a.words, value):
		return true
	}
	return len(a.types) > 0
}

// unitsOf lists the units that a type of quantity is written in.
func unitsOf(typ string) []string {
	typ = strings.TrimSuffix(typ, "+")
	switch typ {
	case "gauge", "gauges":
		return []string{"mm2", "AWG"}
	case "temps", "degC":
		return []string{"degC", "degF"}
	case "mm":
		return []string{"mm"}
	}
	if dim := quantity.DimensionOf(typ); dim != quantity.None {
		return quantity.Units(dim)
	}
	return nil
}
