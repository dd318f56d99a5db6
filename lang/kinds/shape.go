package kinds

import (
	"fmt"
	"strings"
)

// The notation of a setting's forms:
//
//	word            stands for itself
//	<A>             a value of a type; kept under the setting's own name
//	<at:V>          the same, kept under the name "at"
//	<led|bulb|A>    one of several: a name of a type, else the word itself
//	<place>...      one or more, separated by commas
//	[ … ]           may be left out
//
// Types of quantities are written as the unit that they are computed in, with
// a + where zero is not allowed.

// compiledForm is one form, read.
type compiledForm struct {
	text  string
	steps []step
}

// step is a literal word, a slot for a value, or an optional group.
type step struct {
	word     string
	slot     *slot
	optional []step
}

// slot is a place for a value.
type slot struct {
	name  string
	types []slotType
	word  *As      // what a word that stands for itself is given as
	words []string // words that stand for themselves
	list  bool
}

// slotType is a type that a slot takes.
type slotType struct {
	*valueType
	as *As
}

func parseForm(text string) compiledForm {
	steps, rest := parseSteps(strings.Fields(strings.NewReplacer("[", " [ ", "]", " ] ").Replace(text)))
	if len(rest) > 0 {
		panic(fmt.Sprintf("kinds: form %q has an unmatched ]", text))
	}
	return compiledForm{text: text, steps: steps}
}

func parseSteps(words []string) ([]step, []string) {
	var steps []step
	for len(words) > 0 {
		w := words[0]
		words = words[1:]
		switch {
		case w == "]":
			return steps, words
		case w == "[":
			var inner []step
			inner, words = parseSteps(words)
			steps = append(steps, step{optional: inner})
		case strings.HasPrefix(w, "<"):
			steps = append(steps, step{slot: parseSlot(w)})
		default:
			steps = append(steps, step{word: w})
		}
	}
	return steps, nil
}

func parseSlot(w string) *slot {
	s := &slot{}
	w, s.list = strings.CutSuffix(w, "...")
	w = strings.Trim(w, "<>")
	if name, rest, ok := strings.Cut(w, ":"); ok {
		s.name, w = name, rest
	}
	s.word = &As{Slot: s.name}
	for alt := range strings.SplitSeq(w, "|") {
		if t, ok := types[alt]; ok {
			s.types = append(s.types, slotType{t, &As{Slot: s.name, Type: alt}})
		} else {
			s.words = append(s.words, alt)
		}
	}
	return s
}

// Slot describes a place for a value to whoever completes or documents it.
type Slot struct {
	Name  string
	Types []string
	Words []string
	List  bool
}

// Slots lists the places for values of every form of the setting.
func (s *Setting) Slots() [][]Slot {
	var all [][]Slot
	for _, f := range s.forms {
		all = append(all, slotsOf(f.steps))
	}
	return all
}

func (s *slot) typeNames() []string {
	var names []string
	for _, t := range s.types {
		names = append(names, t.as.Type)
	}
	return names
}

func slotsOf(steps []step) []Slot {
	var list []Slot
	for _, st := range steps {
		if st.slot != nil {
			list = append(list, Slot{st.slot.name, st.slot.typeNames(), st.slot.words, st.slot.list})
		}
		list = append(list, slotsOf(st.optional)...)
	}
	return list
}

// Usage is how the setting is written, in the language's words:
// "draws W|A [at V]".
func (s *Setting) Usage() string {
	if s.Flag() {
		return s.Name
	}
	var list []string
	for _, f := range s.forms {
		list = append(list, strings.TrimSpace(s.Name+" "+usageOf(f.steps)))
	}
	if s.Block != nil {
		return strings.Join(list, ", or ") + " [{ … }]"
	}
	return strings.Join(list, ", or ")
}

func usageOf(steps []step) string {
	var words []string
	for _, st := range steps {
		switch {
		case st.word != "":
			words = append(words, st.word)
		case st.slot != nil:
			words = append(words, st.slot.usage())
		default:
			words = append(words, "["+usageOf(st.optional)+"]")
		}
	}
	return strings.Join(words, " ")
}

func (s *slot) usage() string {
	var words []string
	for _, t := range s.types {
		words = append(words, t.usage)
	}
	text := strings.Join(append(words, s.words...), "|")
	if s.list {
		return text + ", …"
	}
	return text
}

// expects is the slot in a sentence: "a current such as 10 A".
func (s *slot) expects() string {
	var list []string
	for _, t := range s.types {
		list = append(list, t.noun)
	}
	if len(s.words) > 0 {
		list = append(list, strings.Join(s.words, ", "))
	}
	if len(list) > 1 && len(s.words) > 1 {
		return "one of " + strings.Join(list, ", ")
	}
	return strings.Join(list, " or ")
}
