package kinds

import (
	"fmt"
	"slices"
	"strconv"
)

// named makes a fixed list of terminals.
func named(names ...string) func(Given) []Terminal {
	list := make([]Terminal, len(names))
	for i, n := range names {
		list[i] = Terminal{Name: n}
	}
	return func(Given) []Terminal { return list }
}

// count is a whole number that a setting was given, or its fallback.
func count(g Given, setting string, fallback int) int {
	if a, ok := first(g, setting); ok {
		if v, ok := a.SI(""); ok {
			return int(v)
		}
	}
	return fallback
}

func panelTerminals(g Given) []Terminal {
	ways := g.Given("way")
	list := make([]Terminal, 1, len(ways)+1)
	list[0].Name = "feed"
	for _, a := range ways {
		list = append(list, Terminal{Name: a.RepeatKey(), Spare: true})
	}
	return list
}

// through is a contact of one pole and one throw, as nearly all are.
var through = []Terminal{{Name: "in"}, {Name: "out"}}

// contactTerminals serves toggles, pushes and isolators: `throws 2` gives two
// outs, `poles 2` gives each pole a number.
func contactTerminals(g Given) []Terminal {
	poles, throws := count(g, "poles", 1), count(g, "throws", 1)
	if poles == 1 && throws == 1 {
		return through
	}
	var list []Terminal
	for p := 1; p <= poles; p++ {
		prefix := ""
		if poles > 1 {
			prefix = strconv.Itoa(p) + "."
		}
		list = append(list, Terminal{Name: prefix + "in"})
		list = append(list, outs(prefix, throws)...)
	}
	return list
}

func outs(prefix string, throws int) []Terminal {
	if throws == 1 {
		return []Terminal{{Name: prefix + "out"}}
	}
	var list []Terminal
	for t := 1; t <= throws; t++ {
		list = append(list, Terminal{Name: fmt.Sprintf("%sout%d", prefix, t), Spare: true})
	}
	return list
}

var (
	ofKey    = []Terminal{{Name: "in"}, {Name: "acc", Spare: true}, {Name: "ign", Spare: true}, {Name: "start", Spare: true}}
	ofMaking = []Terminal{{Name: "30"}, {Name: "87"}, {Name: "85"}, {Name: "86"}}
	ofChange = slices.Concat(ofMaking, []Terminal{{Name: "87a", Spare: true}})
)

func keyTerminals(Given) []Terminal { return ofKey }

func relayTerminals(g Given) []Terminal {
	if a, ok := first(g, "form"); ok && a.Word("") == "change" {
		return ofChange
	}
	return ofMaking
}

var (
	wired = []Terminal{{Name: "pos"}, {Name: "neg"}}
	cased = []Terminal{{Name: "pos"}, {Name: "neg", Spare: true}}
)

// loadTerminals: a load with inputs has one terminal for each in place of pos;
// one that returns through its case has no neg to wire.
func loadTerminals(g Given) []Terminal {
	list := wired
	if _, ok := first(g, "case"); ok {
		list = cased
	}
	inputs := g.Given("input")
	if len(inputs) == 0 {
		return list
	}
	all := make([]Terminal, 0, len(inputs)+1)
	for _, a := range inputs {
		all = append(all, Terminal{Name: a.RepeatKey()})
	}
	return append(all, list[1])
}

// connectorTerminals: both halves, or the one that is declared as ours.
func connectorTerminals(g Given) []Terminal {
	var list []Terminal
	for _, half := range Halves(g) {
		for n := 1; n <= count(g, "ways", 0); n++ {
			list = append(list, Terminal{Name: fmt.Sprintf("%s.%d", half, n), Spare: true})
		}
	}
	return list
}

// Halves lists the halves that a connector has here: "female" and "male".
func Halves(g Given) []string {
	if a, ok := first(g, "half"); ok {
		return []string{a.Word("")}
	}
	return []string{"female", "male"}
}
