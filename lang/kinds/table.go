package kinds

import "slices"

// common are the settings that every device may have.
func common() []*Setting {
	return []*Setting{
		{Name: "at", Forms: []string{"<place>"}, Doc: "the place where the device sits"},
		{Name: "label", Forms: []string{"<text>"}, Doc: "what its label says"},
		{Name: "part", Forms: []string{"<text>"}, Doc: "a part number"},
		{Name: "note", Forms: []string{"<text>"}, Doc: "what a reader should know; some rules ask for one"},
		{Name: "sealed", Forms: []string{"<ip>"}, Doc: "degree of protection by IEC 60529"},
		{Name: "covered", Doc: "its live metal is under a boot, cap or lid"},
		{Name: "existing", Doc: "it is the machine's own: computed with, never bought or cut"},
	}
}

func device(k Kind, settings ...*Setting) *Kind {
	k.Settings = slices.Concat(settings, common())
	return &k
}

func volts(doc string) *Setting {
	return &Setting{Name: "volts", Forms: []string{"<V+>"}, Doc: doc}
}

func rating(doc string) *Setting {
	return &Setting{Name: "rating", Forms: []string{"<A+>"}, Doc: doc, Required: true}
}

func limit(doc string) *Setting {
	return &Setting{Name: "limit", Forms: []string{"<A+>"}, Doc: doc}
}

func tabs() *Setting {
	return &Setting{Name: "tabs", Forms: []string{"<mm>"}, Doc: "the width of its tabs, bare in millimetres"}
}

func studs() *Setting {
	return &Setting{Name: "studs", Forms: []string{"<size>"}, Over: []string{"tabs"}, Doc: "the size of its studs"}
}

// lead is of kinds that come with leads of their own. The lead's end is a barrel's
// to take, so the wire lands in a butt connector.
func lead() *Setting {
	return &Setting{
		Name: "lead", Forms: []string{"<gauge>"}, Over: []string{"tabs", "studs"},
		Doc: "gauge of its own lead; with neither `tabs` nor `studs` a butt connector joins the wire to it (common practice)",
	}
}

func suppress() *Setting {
	return &Setting{
		Name: "suppress", Forms: []string{"<diode|resistor|none>"}, Default: Default{Text: "none"},
		Doc: "what takes up the coil's kick",
	}
}

func standby(doc string) *Setting {
	return &Setting{Name: "standby", Forms: []string{"<A>"}, Doc: doc}
}

func ratedFor() *Setting {
	return &Setting{
		Name: "for", Forms: []string{"<resistive|led|bulb|motor|inductive>"}, Default: Default{Text: "resistive"},
		Doc: "the load type that the rating was given for",
	}
}

func system(doc string) *Setting {
	s := volts(doc)
	s.Default = Default{Factor: 1, Of: "system"}
	return s
}

func supplies() []*Kind {
	return []*Kind{
		device(
			Kind{Family: Supply, Name: "battery", Doc: "a battery", TerminalDoc: "`pos` `neg`", terminals: named("pos", "neg"), fitting: studOf("post")},
			system("nominal voltage"),
			&Setting{Name: "capacity", Forms: []string{"<Ah+>"}, Required: true, Doc: "what the battery holds, at its 20 hour rate"},
			&Setting{Name: "cranking", Forms: []string{"<A+>"}, Doc: "cold cranking amperes (CCA); `resistance` says the same and more"},
			&Setting{Name: "resistance", Forms: []string{"<ohm+>"}, Default: Default{Words: "from cranking"}, Doc: "internal resistance; with it no `cranking` is needed"},
			&Setting{Name: "chemistry", Forms: []string{"<lead|lithium>"}, Default: Default{Text: "lead"}, Doc: "what the battery is made of"},
			&Setting{Name: "accepts", Forms: []string{"<A+>"}, Default: Default{Factor: 0.2, Of: "capacity"}, Doc: "the greatest charging current it takes"},
			&Setting{Name: "sags", Forms: []string{"<V+>"}, Default: Default{Factor: 8.0 / 12, Of: "volts"}, Doc: "voltage while it cranks"},
			standby("what the machine itself draws with the key off"),
			&Setting{Name: "post", Forms: []string{"<size>"}, Doc: "size of its posts"},
		),
		device(
			Kind{Family: Supply, Name: "alternator", Doc: "an alternator with its regulator", TerminalDoc: "`pos` `neg`", terminals: named("pos", "neg"), fitting: studOf("studs")},
			&Setting{Name: "output", Forms: []string{"<A+>"}, Required: true, Doc: "greatest output at speed"},
			&Setting{Name: "idle", Forms: []string{"<A>"}, Doc: "greatest output at idle"},
			&Setting{Name: "volts", Forms: []string{"<V+>"}, Default: Default{Factor: 1.18, Of: "system"}, Doc: "regulated voltage"},
			&Setting{Name: "already", Forms: []string{"<A>"}, Doc: "the machine's own load while it runs"},
			studs(),
		),
		device(
			Kind{Family: Supply, Name: "converter", Doc: "a DC to DC converter", TerminalDoc: "`in` `out` `neg`", terminals: named("in", "out", "neg"), fitting: offered},
			&Setting{Name: "takes", Forms: []string{"<V+>"}, Default: Default{Factor: 1, Of: "system"}, Doc: "voltage it is fed with"},
			&Setting{Name: "gives", Forms: []string{"<V+>"}, Required: true, Doc: "voltage it gives"},
			&Setting{Name: "output", Forms: []string{"<A+>"}, Required: true, Doc: "greatest output current"},
			&Setting{Name: "efficiency", Forms: []string{"<share+>"}, Default: Default{Text: "90 %"}, Doc: "output power over input power"},
			tabs(), studs(), lead(),
		),
		device(
			Kind{Family: Supply, Name: "tap", Doc: "an existing circuit that is borrowed from; it returns to its supply's negative", TerminalDoc: "`out`", terminals: named("out"), fitting: offered},
			&Setting{Name: "behind", Forms: []string{"<device:fuse|breaker> <A+> [at <at:place>]"}, Required: true, Doc: "the device that protects the borrowed circuit"},
			&Setting{Name: "carries", Forms: []string{"<A>"}, Required: true, Doc: "what the circuit already feeds"},
			&Setting{Name: "live", Forms: []string{"<always|acc|on|start|engine>..."}, Required: true, Doc: "when the circuit is live; `on` does not mean start"},
			&Setting{Name: "serves", Forms: []string{"<lighting|accessory|control|safety>"}, Doc: "what the circuit is there for"},
			&Setting{Name: "drive", Forms: []string{"<steady|pwm|monitored>"}, Default: Default{Text: "steady"}, Doc: "how the circuit is driven"},
			&Setting{Name: "gauge", Forms: []string{"<gauge>"}, Doc: "gauge of the circuit's own wire"},
			&Setting{Name: "run", Forms: []string{"<m>"}, Doc: "length of the circuit's own wire up to the tap"},
			&Setting{Name: "of", Forms: []string{"<supply>"}, Doc: "the supply that the circuit hangs on"},
			tabs(), studs(), lead(),
		),
	}
}

func protections() []*Kind {
	breaks := func() *Setting {
		return &Setting{Name: "breaks", Forms: []string{"<A+>"}, Default: Default{Words: "by family"}, Doc: "greatest current it can interrupt"}
	}
	family := func() *Setting {
		return &Setting{
			Name: "family", Forms: []string{"<blade|mini|micro|maxi|strip|post|cartridge|glass>"},
			Default: Default{Text: "blade"}, Doc: "the kind of fuse",
		}
	}
	byFamily := volts("rated voltage")
	byFamily.Default = Default{Words: "by family"}
	return []*Kind{
		device(
			Kind{Family: Protection, Name: "fuse", Doc: "a fuse in its holder", TerminalDoc: "`in` `out`", terminals: named("in", "out"), fitting: fuseFitting},
			rating("rated current"), family(), byFamily, breaks(),
			&Setting{Name: "holder", Forms: []string{"<A+>"}, Doc: "the greatest fuse that its holder carries"},
			&Setting{Name: "fitted", Forms: []string{"<A+>"}, Doc: "the fuse that was found in it"},
			tabs(), studs(), lead(),
		),
		device(
			Kind{Family: Protection, Name: "breaker", Doc: "a circuit breaker", TerminalDoc: "`in` `out`", terminals: named("in", "out"), fitting: offered},
			rating("rated current"),
			&Setting{Name: "reset", Forms: []string{"<manual|auto|power>"}, Default: Default{Text: "manual"}, Doc: "how it closes again (SAE J553 types III, I, II)"},
			volts("rated voltage"), breaks(), tabs(), studs(), lead(),
		),
		device(
			Kind{Family: Protection, Name: "link", Doc: "a fusible link wire; with neither `tabs` nor `studs` a butt connector joins the wire to each end (common practice)", TerminalDoc: "`in` `out`", terminals: named("in", "out"), fitting: linkFitting},
			&Setting{Name: "gauge", Forms: []string{"<gauge>"}, Required: true, Doc: "gauge of the link wire"},
			tabs(), studs(),
		),
		device(
			Kind{Family: Protection, Name: "panel", Doc: "a fuse panel", TerminalDoc: "`feed`, and one per `way`: `1` `2` …", terminals: panelTerminals, fitting: panelFitting},
			&Setting{Name: "limit", Forms: []string{"<A+>"}, Required: true, Doc: "greatest current of the whole panel"},
			&Setting{Name: "each", Forms: []string{"<A+>"}, Doc: "the greatest fuse in a way"},
			family(), byFamily, breaks(),
			&Setting{Name: "feed", Forms: []string{"stud <size>"}, Doc: "the stud that its feed lands on"},
			tabs(), studs(),
			&Setting{
				Name: "way", Repeat: true, Forms: []string{"<way:count> <device:fuse|breaker> <A+> [<label:text>]", "<way:count> <device:spare> [<label:text>]"},
				Doc: "a way: its number, device and label",
			},
		),
	}
}
