package kinds

import (
	"strings"

	"hame/lang/quantity"
	"hame/lang/source"
	"hame/lang/syntax"
)

// As is what a value is given as.
type As struct {
	Slot string // the slot's name, "" for the setting's own value
	Type string // the slot's type, "" for a word that stands for itself
}

// Arg is one value that a setting was given, checked against its type. As is nil
// in the zero Arg alone, which is none.
type Arg struct {
	*As
	Word string // the value as text: a name, a word, a size such as "M8"
	Lo   quantity.Quantity
	high *quantity.Quantity // of a range
	source.Span
}

// Hi is the upper end of a range; a number is a range of its own.
func (a Arg) Hi() quantity.Quantity {
	if a.high == nil {
		return a.Lo
	}
	return *a.high
}

// Args is one time that a setting was given.
type Args struct {
	Setting *Setting
	Key     syntax.Name
	List    []Arg
	Block   *syntax.Block
	File    *source.File // that it stands in: a part's may be another than the device's
	source.Span
}

// Get is the first value under a slot's name.
func (a Args) Get(slot string) (Arg, bool) {
	if arg := a.find(slot); arg != nil {
		return *arg, true
	}
	return Arg{}, false
}

func (a *Args) find(slot string) *Arg {
	for i := range a.List {
		if a.List[i].Slot == slot {
			return &a.List[i]
		}
	}
	return nil
}

// All lists the values under a slot's name.
func (a Args) All(slot string) []Arg {
	var list []Arg
	for _, arg := range a.List {
		if arg.Slot == slot {
			list = append(list, arg)
		}
	}
	return list
}

// SI is the number under a slot's name, in its dimension's unit.
func (a Args) SI(slot string) (float64, bool) {
	arg := a.find(slot)
	if arg == nil || arg.Lo.Text == "" {
		return 0, false
	}
	return arg.Lo.SI, true
}

// Word is the text under a slot's name, "" where there is none.
func (a Args) Word(slot string) string {
	if arg := a.find(slot); arg != nil {
		return arg.Word
	}
	return ""
}

// RepeatKey tells apart the times that a repeatable setting is given.
func (a Args) RepeatKey() string {
	if !a.Setting.Repeat || len(a.List) == 0 {
		return ""
	}
	return a.List[0].Word
}

// SI is the number of a default that is written as a text, in its unit.
func (d Default) SI() (float64, bool) {
	if d.si == nil {
		return 0, false
	}
	return *d.si, true
}

// read reads the text once, where it is a number.
func (d *Default) read() {
	number, unit, _ := strings.Cut(d.Text, " ")
	if q, err := quantity.Parse(number, unit); err == nil && d.Text != "" {
		d.si = &q.SI
	}
}
