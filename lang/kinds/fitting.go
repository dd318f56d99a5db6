package kinds

import "strings"

// FittingForm is the shape of what a terminal offers to a wire.
type FittingForm uint8

// The forms of fitting.
const (
	Undeclared FittingForm = iota // the harness does not say
	Stud
	Tab
	Cavity // of a connector: takes a pin or a socket
	Barrel // of a splice: takes the bare end
)

// Fitting is what a terminal offers to a wire: Size is a stud's size or a
// tab's width in millimetres, Male says that a cavity's contact is a pin.
type Fitting struct {
	Form FittingForm
	Size string
	Male bool
}

// Hardware is what the wire's end wants to land on the fitting, in the words
// of `ends`; "" where the fitting is not declared.
func (f Fitting) Hardware() string {
	switch f.Form {
	case Stud:
		return "ring " + f.Size
	case Tab:
		return "tab " + f.Size + " female"
	case Cavity:
		if f.Male {
			return "pin"
		}
		return "socket"
	case Barrel:
		return "butt"
	}
	return ""
}

// first is the argument of the setting's first time, if it was given.
func first(g Given, setting string) (Args, bool) {
	list := g.Given(setting)
	if len(list) == 0 {
		return Args{}, false
	}
	return list[0], true
}

func studOf(setting string) func(Given, string) Fitting {
	return func(g Given, _ string) Fitting {
		if a, ok := first(g, setting); ok {
			return Fitting{Form: Stud, Size: a.Word("")}
		}
		return Fitting{}
	}
}

// tabsOrStuds serves the devices that declare `tabs` or `studs`.
func tabsOrStuds(g Given, _ string) Fitting {
	if a, ok := first(g, "tabs"); ok {
		if q, ok := a.Get(""); ok {
			return Fitting{Form: Tab, Size: millimetres(q.Lo)}
		}
	}
	return studOf("studs")(g, "")
}

func panelFitting(g Given, terminal string) Fitting {
	if terminal != "feed" {
		return tabsOrStuds(g, terminal)
	}
	return studOf("feed")(g, terminal)
}

// fuseStuds: a bolted fuse says its stud; one of a bolted family without it
// has the stud that its standard gives (ISO 8820-5 class, from memory).
func fuseFitting(g Given, terminal string) Fitting {
	if f := tabsOrStuds(g, terminal); f.Form != Undeclared {
		return f
	}
	if a, ok := first(g, "family"); ok && a.Word("") == "post" {
		return Fitting{Form: Stud, Size: "M8"}
	}
	return Fitting{}
}

func connectorFitting(_ Given, terminal string) Fitting {
	return Fitting{Form: Cavity, Male: strings.HasPrefix(terminal, "male.")}
}

func barrel(Given, string) Fitting { return Fitting{Form: Barrel} }
