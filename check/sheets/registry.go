package sheets

import "hame/check/sheet"

// Maker makes one sheet.
type Maker struct {
	Name    string // wires
	Title   string // Cut list
	Summary string // what it is for, in one line, as help prints it
	Make    func(*Pack) *sheet.Sheet
}

// order is how the pack is put together: make it, fit it, prove it, keep it.
var order = []string{
	"survey", "wires", "ends", "pins", "panel", "parts", "labels", "protect", "loads",
	"live", "room", "install", "tests", "record",
}

var registry = map[string]Maker{}

// register adds a maker. A name twice, or one that has no place in the order,
// is a mistake of ours that must not wait for a user to find it.
func register(m Maker) Maker {
	if _, twice := registry[m.Name]; twice {
		panic("sheets: two makers of " + m.Name)
	}
	registry[m.Name] = m
	return m
}

// All are the makers in the order of the pack.
func All() []Maker {
	var list []Maker
	for _, name := range order {
		if m, ok := registry[name]; ok {
			list = append(list, m)
		}
	}
	return list
}

// Find is the maker of a name.
func Find(name string) (Maker, bool) {
	m, ok := registry[name]
	return m, ok
}

// make makes a sheet with its name and title.
func (m Maker) make(p *Pack) *sheet.Sheet {
	s := m.Make(p)
	s.Name, s.Title, s.Purpose = m.Name, m.Title, m.Summary
	return s
}

// Of makes the sheet of a name; false where there is none of that name.
func Of(p *Pack, name string) (*sheet.Sheet, bool) {
	m, ok := registry[name]
	if !ok {
		return nil, false
	}
	return m.make(p), true
}
