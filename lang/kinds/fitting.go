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
	// Pigtail is a lead of the device's own, with nothing on its end: a butt
	// connector joins the wire to it (common practice, no source).
	Pigtail
)

// Fitting is what a terminal offers to a wire: Size is a stud's size, a tab's
// width in millimetres or a pigtail's gauge, LeadMM2 that pigtail's copper; Male
// says that a cavity's contact is a pin.
type Fitting struct {
	Form    FittingForm
	Size    string
	Male    bool
	LeadMM2 float64
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
	case Barrel, Pigtail:
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

// offered serves the devices that declare `tabs`, `studs` or `lead`. What is on
// the end of a lead counts before the lead.
func offered(g Given, _ string) Fitting {
	if a, ok := first(g, "tabs"); ok {
		if q, ok := a.Get(""); ok {
			return Fitting{Form: Tab, Size: millimetres(q.Lo)}
		}
	}
	if f := studOf("studs")(g, ""); f.Form != Undeclared {
		return f
	}
	return pigtailOf("lead")(g, "")
}

func pigtailOf(setting string) func(Given, string) Fitting {
	return func(g Given, _ string) Fitting {
		a, ok := first(g, setting)
		if q, given := a.Get(""); ok && given {
			return Fitting{Form: Pigtail, Size: q.Lo.String(), LeadMM2: Size(q.Lo).AreaMM2()}
		}
		return Fitting{}
	}
}

// relayFitting: a contactor has studs on its contacts and tabs on its coil, and
// says both (common practice, no source).
func relayFitting(g Given, terminal string) Fitting {
	coil := terminal == "85" || terminal == "86"
	if f := studOf("studs")(g, terminal); f.Form != Undeclared && !coil {
		return f
	}
	if a, ok := first(g, "tabs"); ok && coil {
		if q, said := a.Get("coil"); said {
			return Fitting{Form: Tab, Size: millimetres(q.Lo)}
		}
	}
	return offered(g, terminal)
}

func panelFitting(g Given, terminal string) Fitting {
	if terminal != "feed" {
		return offered(g, terminal)
	}
	return studOf("feed")(g, terminal)
}

// linkFitting: a fusible link is a wire itself, and where no tab or stud is on
// its ends they are joined to other wires as a pigtail is.
func linkFitting(g Given, terminal string) Fitting {
	if f := offered(g, terminal); f.Form != Undeclared {
		return f
	}
	return pigtailOf("gauge")(g, terminal)
}

// smallStripA is the greatest rating of strips for M5 studs (ISO 8820-5, SF30;
// from memory).
const smallStripA = 200

// fuseFitting: a bolted fuse says its stud; one of a bolted family without it
// has the stud that its standard gives (ISO 8820-5 class, from memory). Where a
// part's M5 comes to a rating that is made for larger studs alone, none is known.
func fuseFitting(g Given, terminal string) Fitting {
	family := ""
	if a, ok := first(g, "family"); ok {
		family = a.Word("")
	}
	f := offered(g, terminal)
	switch {
	case f.Form == Undeclared && family == "post":
		return Fitting{Form: Stud, Size: "M8"}
	case f.Form == Stud && f.Size == "M5" && family == "strip" && ratedAbove(g, smallStripA):
		return Fitting{}
	}
	return f
}

func ratedAbove(g Given, amps float64) bool {
	a, ok := first(g, "rating")
	if !ok {
		return false
	}
	rated, known := a.SI("")
	return known && rated > amps
}

func connectorFitting(_ Given, terminal string) Fitting {
	return Fitting{Form: Cavity, Male: strings.HasPrefix(terminal, "male.")}
}

func barrel(Given, string) Fitting { return Fitting{Form: Barrel} }
