package kinds

// relayTabs: the coil's tabs are the smaller ones of a large relay.
func relayTabs() *Setting {
	return &Setting{
		Name: "tabs", Forms: []string{"<mm> [coil <coil:mm>]"},
		Doc: "the width of its tabs, bare in millimetres, and of its coil's where they differ; beside `studs`, which are its contacts', the coil's alone",
	}
}

func switches() []*Kind {
	poles := func() *Setting {
		return &Setting{Name: "poles", Forms: []string{"<count>"}, Default: Default{Text: "1"}, Doc: "number of poles"}
	}
	throws := func() *Setting {
		return &Setting{Name: "throws", Forms: []string{"<count>"}, Default: Default{Text: "1"}, Doc: "number of throws; more than one gives out1, out2 …"}
	}
	contact := func(name, doc string, more ...*Setting) *Kind {
		settings := append([]*Setting{rating("greatest current of a contact"), ratedFor(), poles(), throws(), volts("rated voltage"), tabs(), studs(), lead()}, more...)
		return device(Kind{
			Family: Switch, Name: name, Doc: doc,
			TerminalDoc: "`in` `out`; with `throws 2`: `in` `out1` `out2`; with `poles 2`: `1.in` `1.out` `2.in` …",
			terminals:   contactTerminals, fitting: offered,
		}, settings...)
	}
	return []*Kind{
		contact("toggle", "a switch that stays where it is put"),
		contact("push", "a switch that is closed while it is held"),
		contact("isolator", "a battery isolator", &Setting{Name: "master", Doc: "it cuts the battery off"}),
		device(
			Kind{Family: Switch, Name: "key", Doc: "the key switch, worked by a mode's `key`", TerminalDoc: "`in` `acc` `ign` `start`", terminals: keyTerminals, fitting: offered},
			rating("greatest current of a contact"), ratedFor(), volts("rated voltage"), tabs(), studs(), lead(),
		),
		device(
			Kind{Family: Switch, Name: "relay", Doc: "a relay", TerminalDoc: "`30` `87` `85` `86`, and `87a` with `form change` (DIN 72552)", terminals: relayTerminals, fitting: relayFitting},
			&Setting{Name: "contacts", Forms: []string{"<A+>"}, Required: true, Doc: "greatest current of its contact"},
			&Setting{Name: "coil", Forms: []string{"<ohm+|A+>"}, Required: true, Doc: "its coil's resistance, or current at the system's volts, at 20 degC"},
			&Setting{Name: "pulls", Forms: []string{"<V+>"}, Default: Default{Factor: 0.65, Of: "system"}, Doc: "voltage at which it surely pulls in, at 20 degC"},
			&Setting{Name: "releases", Forms: []string{"<V+>"}, Default: Default{Factor: 0.1, Of: "system"}, Doc: "voltage at which it surely drops out, at 20 degC"},
			suppress(),
			&Setting{Name: "form", Forms: []string{"<make|change>"}, Default: Default{Text: "make"}, Doc: "make contact, or change-over with 87a"},
			ratedFor(), volts("rated voltage of its contact"), relayTabs(), studs(), lead(),
		),
		device(
			Kind{Family: Switch, Name: "diode", Doc: "a diode: it conducts from anode to cathode", TerminalDoc: "`anode` `cathode`", terminals: named("anode", "cathode"), fitting: offered},
			rating("greatest forward current"),
			&Setting{Name: "forward", Forms: []string{"<V+>"}, Default: Default{Text: "0.7 V"}, Doc: "forward voltage"},
			tabs(), studs(), lead(),
		),
	}
}

// load makes a kind of load: what every load may have, and more of its own.
func load(name, doc string, more ...*Setting) *Kind {
	draws := &Setting{
		Name: "draws", Forms: []string{"<W+|A+> [at <at:V+>]"}, Required: true, Instead: "input",
		Doc: "what it draws, at the system's volts where none are said",
	}
	if name == "outlet" {
		draws.Required = false
	}
	settings := []*Setting{
		draws,
		{Name: "input", Repeat: true, Forms: []string{"<word> <draw:W+|A+>"}, Doc: "an input and what it draws, in place of `draws`"},
		{Name: "starts", Forms: []string{"<A+> for <for:s+>"}, Doc: "current while it starts, and for how long"},
		{Name: "least", Forms: []string{"<V+>"}, Doc: "the least voltage that it works at"},
		{Name: "most", Forms: []string{"<V+>"}, Default: Default{Factor: 4.0 / 3, Of: "system"}, Doc: "the greatest voltage that it bears"},
		{Name: "critical", Doc: "what hangs on it must not fail: the smaller drop is allowed"},
		{Name: "fuse", Forms: []string{"most <A+>"}, Doc: "the greatest fuse that its data plate allows"},
		{Name: "polarity", Forms: []string{"<strict|any>"}, Default: Default{Words: "not said"}, Doc: "whether it bears being fed backwards"},
		suppress(),
		{Name: "case", Forms: []string{"<chassis>"}, Doc: "the chassis that it returns through by its body"},
		standby("what it draws with the key off"),
		{Name: "meant", Forms: []string{"always"}, Doc: "it may stay on with the key off"},
		tabs(), studs(), lead(),
	}
	return device(Kind{
		Family: Load, Name: name, Doc: doc,
		TerminalDoc: "`pos` `neg`; or one per `input`, and `neg`",
		terminals:   loadTerminals, fitting: offered,
	}, append(settings, more...)...)
}

func loads() []*Kind {
	return []*Kind{
		load("led", "a lamp with a driver: constant power"),
		load("bulb", "a filament lamp: its resistance grows with its voltage"),
		load("heater", "a heating resistance"),
		load("motor", "a motor: constant current, or as its fan or pump asks",
			&Setting{Name: "drives", Forms: []string{"<fan|pump|other>"}, Default: Default{Text: "other"}, Doc: "what the motor drives"},
			&Setting{Name: "stalls", Forms: []string{"<A+>"}, Default: Default{Factor: 6, Of: "draws"}, Doc: "current when it is held"},
			&Setting{Name: "coasts", Doc: "it turns on when switched off, and feeds back"}),
		load("starter", "the starter: it runs exactly while the engine cranks"),
		load("outlet", "a socket outlet: it draws what it `expects`, else its rating",
			rating("greatest current of the outlet"),
			&Setting{Name: "expects", Forms: []string{"<A+>"}, Doc: "what is expected to be plugged in"}),
		load("module", "a control module: constant power"),
		load("solenoid", "a solenoid: a resistance"),
	}
}

func joins() []*Kind {
	holds := func() *Setting {
		return &Setting{Name: "holds", Forms: []string{"<count>"}, Default: Default{Text: "4"}, Doc: "how many rings it holds"}
	}
	takes := func() *Setting {
		return &Setting{Name: "takes", Forms: []string{"<gauges>"}, Doc: "the gauges that fit it"}
	}
	seal := func() *Setting {
		return &Setting{Name: "seal", Forms: []string{"<ip>"}, Doc: "degree of protection by IEC 60529"}
	}
	one := "one, the name itself"
	return []*Kind{
		device(Kind{Family: Join, Name: "splice", Doc: "a splice", TerminalDoc: one, fitting: barrel}, takes(), seal(), limit("greatest current")),
		device(Kind{Family: Join, Name: "stud", Doc: "an insulated stud", TerminalDoc: one, fitting: studOf("size")},
			&Setting{Name: "size", Forms: []string{"<size>"}, Doc: "size of the stud"}, holds(), limit("greatest current")),
		device(Kind{Family: Join, Name: "bus", Doc: "an insulated bus bar", TerminalDoc: one, fitting: studOf("size")},
			&Setting{Name: "ways", Forms: []string{"<count>"}, Doc: "how many wires it takes"},
			&Setting{Name: "size", Forms: []string{"<size>"}, Doc: "size of its studs or screws"}, limit("greatest current")),
		device(
			Kind{Family: Join, Name: "connector", Doc: "two mating halves, named by the gender of their contacts", TerminalDoc: "`female.1` … and `male.1` …", terminals: connectorTerminals, fitting: connectorFitting},
			&Setting{Name: "ways", Forms: []string{"<count>"}, Required: true, Doc: "number of cavities"},
			limit("greatest current of a contact"), takes(), seal(),
			&Setting{Name: "lock", Doc: "its halves lock"},
			&Setting{Name: "shrouded", Doc: "its male contacts can't be touched"},
			&Setting{Name: "way", Repeat: true, Forms: []string{"<way:count> <function:text>"}, Doc: "what a cavity is for"},
			&Setting{Name: "half", Forms: []string{"<female|male>"}, Doc: "only that half is ours"},
		),
	}
}

func grounds() []*Kind {
	to := func() *Setting {
		return &Setting{Name: "to", Forms: []string{"<chassis>"}, Doc: "the chassis that it is bonded to"}
	}
	one := "one, the name itself"
	return []*Kind{
		device(Kind{Family: Ground, Name: "chassis", Doc: "a frame or body that carries return current", TerminalDoc: one},
			&Setting{Name: "resistance", Forms: []string{"<ohm>"}, Default: Default{Text: "1 mohm"}, Doc: "between two bonded points"}),
		device(Kind{Family: Ground, Name: "stud", Doc: "a ground stud", TerminalDoc: one, fitting: studOf("size")},
			to(),
			&Setting{Name: "size", Forms: []string{"<size>"}, Doc: "size of the stud"},
			&Setting{Name: "holds", Forms: []string{"<count>"}, Default: Default{Text: "4"}, Doc: "how many rings it holds"},
			limit("greatest current"),
			&Setting{Name: "via", Forms: []string{"<hinge|ball|rubber>"}, Doc: "it hangs on a joint that is no bond at all"}),
		device(Kind{Family: Ground, Name: "bus", Doc: "a return bus bar", TerminalDoc: one, fitting: studOf("size")},
			to(),
			&Setting{Name: "ways", Forms: []string{"<count>"}, Doc: "how many wires it takes"},
			&Setting{Name: "size", Forms: []string{"<size>"}, Doc: "size of its studs or screws"}, limit("greatest current")),
	}
}
