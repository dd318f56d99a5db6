// Package kinds has the ONE table of the language: every declaration form,
// family and kind, with its terminals and settings. Validation, messages,
// completion, hover and the reference are all made from it.
package kinds

import (
	"slices"
	"sort"
)

// Family is one of the six families of devices.
type Family string

// The families. Ground is the return side.
const (
	Supply     Family = "supply"
	Protection Family = "protection"
	Switch     Family = "switch"
	Load       Family = "load"
	Join       Family = "join"
	Ground     Family = "ground"
)

// Families lists the families in the order of the reference.
var Families = []Family{Supply, Protection, Switch, Load, Join, Ground}

// Kind is one row of the table: a kind of device, or a declaration form that
// takes a block (its Family is then empty).
type Kind struct {
	Family   Family
	Name     string
	Doc      string
	Settings []*Setting
	// TerminalDoc says in words which terminals there are.
	TerminalDoc string
	terminals   func(Given) []Terminal
	fitting     func(Given, string) Fitting
	rows        map[string]*Setting // the settings by name
}

// Terminal is one point of a device that a wire can land on. A Spare one may
// stay without a wire.
type Terminal struct {
	Name  string // "" for a device with one terminal
	Spare bool
}

// Given is what a device's settings were given, parts applied.
type Given interface {
	// Given lists the arguments of every time that the setting was given.
	Given(setting string) []Args
}

// Terminals makes the terminals that a device of this kind has with its
// settings, in the order of the reference. They are the asker's to read, not to
// change.
func (k *Kind) Terminals(g Given) []Terminal {
	if k.terminals == nil {
		return []Terminal{{}}
	}
	return k.terminals(g)
}

// Fitting is what a terminal offers to a wire, as far as it is declared.
func (k *Kind) Fitting(g Given, terminal string) Fitting {
	if k.fitting == nil {
		return Fitting{}
	}
	return k.fitting(g, terminal)
}

// Setting finds a setting of this kind by its name.
func (k *Kind) Setting(name string) (*Setting, bool) {
	s, ok := k.rows[name]
	return s, ok
}

// SettingNames lists the settings, in order of name.
func (k *Kind) SettingNames() []string {
	names := make([]string, 0, len(k.Settings))
	for _, s := range k.Settings {
		names = append(names, s.Name)
	}
	sort.Strings(names)
	return names
}

// Title is how the kind is spoken of: "switch relay", "zone".
func (k *Kind) Title() string {
	if k.Family == "" {
		return k.Name
	}
	return string(k.Family) + " " + k.Name
}

// Find is the built-in kind of a family, or nil.
func Find(f Family, name string) *Kind { return kindsBy[kindName{f, name}] }

// Form is the row of a declaration form that takes a block: harness, zone,
// bundle, wire or mode.
func Form(name string) *Kind { return Find("", name) }

// Of lists the kinds of a family in the order of the table.
func Of(f Family) []*Kind {
	var list []*Kind
	for _, k := range table {
		if k.Family == f {
			list = append(list, k)
		}
	}
	return list
}

// All lists every row of the table.
func All() []*Kind { return slices.Clone(table) }

// Default is the value that a setting has where it is not given: a text in the
// setting's own shape, or Factor times another setting of the device (or the
// harness's `system`).
type Default struct {
	Text   string
	Factor float64
	Of     string
	Words  string // how the reference says it, where the above does not show it
	si     *float64
}

// Setting is one setting of a kind.
type Setting struct {
	Name     string
	Forms    []string // in the notation of shape.go; none for a flag
	Doc      string
	Default  Default
	Required bool
	// Instead names a setting that may stand in for this required one.
	Instead string
	// Over names the settings of a part's that a device's own replaces: it says
	// the same thing in another way.
	Over []string
	// Repeat: may be given again with another first value.
	Repeat bool
	// Block is the row for a block of its own (practice land { … }).
	Block *Kind
	forms []compiledForm
	// header: it is no setting, but a value in a declaration's header.
	header bool
}

// Flag reports whether the setting takes no value.
func (s *Setting) Flag() bool { return len(s.Forms) == 0 }

var table = slices.Concat(forms(), supplies(), protections(), switches(), loads(), joins(), grounds())

// kindName is what tells a kind of the table.
type kindName struct {
	family Family
	name   string
}

var kindsBy = map[kindName]*Kind{}

func init() {
	for _, k := range table {
		compile(k)
		kindsBy[kindName{k.Family, k.Name}] = k
	}
}

func compile(k *Kind) {
	k.rows = make(map[string]*Setting, len(k.Settings))
	for _, s := range k.Settings {
		k.rows[s.Name] = s
		if s.forms != nil {
			continue // a row that two kinds share
		}
		s.Default.read()
		for _, text := range s.Forms {
			s.forms = append(s.forms, parseForm(text))
		}
		if s.Block != nil {
			compile(s.Block)
		}
	}
}
