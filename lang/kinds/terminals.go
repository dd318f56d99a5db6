package kinds

import (
	"fmt"
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
	list := []Terminal{{Name: "feed"}}
	for _, a := range g.Given("way") {
		list = append(list, Terminal{Name: a.RepeatKey(), Spare: true})
	}
	return list
}

// contactTerminals serves toggles, pushes and isolators: `throws 2` gives two
// outs, `poles 2` gives each pole a number.
func contactTerminals(g Given) []Terminal {
	var list []Terminal
	poles := count(g, "poles", 1)
	for p := 1; p <= poles; p++ {
		prefix := ""
		if poles > 1 {
			prefix = strconv.Itoa(p) + "."
		}
		list = append(list, Terminal{Name: prefix + "in"})
		list = append(list, outs(prefix, count(g, "throws", 1))...)
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

func keyTerminals(Given) []Terminal {
	return []Terminal{{Name: "in"}, {Name: "acc", Spare: true}, {Name: "ign", Spare: true}, {Name: "start", Spare: true}}
}

func relayTerminals(g Given) []Terminal {
	list := []Terminal{{Name: "30"}, {Name: "87"}, {Name: "85"}, {Name: "86"}}
	if a, ok := first(g, "form"); ok && a.Word("") == "change" {
		list = append(list, Terminal{Name: "87a", Spare: true})
	}
	return list
}

// loadTerminals: a load with inputs has one terminal for each in place of pos;
// one that returns through its case has no neg to wire.
func loadTerminals(g Given) []Terminal {
	var list []Terminal
	for _, a := range g.Given("input") {
		list = append(list, Terminal{Name: a.RepeatKey()})
	}
	if len(list) == 0 {
		list = append(list, Terminal{Name: "pos"})
	}
	_, cased := first(g, "case")
	return append(list, Terminal{Name: "neg", Spare: cased})
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
