package kinds

// forms are the rows of the declaration forms that take a block.
func forms() []*Kind {
	cover := &Setting{
		Name: "cover", Forms: []string{"<cover> [<bore:mm>] [rated <rated:degC>]"},
		Doc: "what it is covered with, and the cover's bore",
	}
	return []*Kind{
		{Name: "harness", Doc: "what holds for the whole harness", Settings: []*Setting{
			{Name: "title", Forms: []string{"<text>"}, Doc: "the title of sheets and reports"},
			{Name: "system", Forms: []string{"<system>"}, Default: Default{Text: "12 V"}, Doc: "nominal voltage; reports say so where it is not given"},
			{Name: "practice", Forms: []string{"<land|cfr183|ac43>"}, Default: Default{Text: "land"}, Doc: "the published set of limits that it is held to", Block: practice()},
			{Name: "wire", Forms: []string{"<insulation>"}, Doc: "the insulation of wires that name none"},
			{Name: "slack", Forms: []string{"<m>"}, Default: Default{Text: "0 mm"}, Doc: "added to a routed wire at each of its two ends"},
			{Name: "altitude", Forms: []string{"<m>"}, Default: Default{Text: "0 m"}, Doc: "height above the sea"},
		}},
		{Name: "zone", Doc: "how hot, wet, oily or sunny it is somewhere", Settings: []*Setting{
			{Name: "ambient", Forms: []string{"<temps>"}, Doc: "least and greatest ambient temperature"},
			{Name: "exposure", Forms: []string{"<oil|splash|wet|sun|abrasion|fuel>..."}, Doc: "what the zone is exposed to"},
		}},
		{Name: "bundle", Doc: "wires that run together between two places", Settings: []*Setting{
			{Name: "zone", Forms: []string{"<zone>"}, Doc: "the zone that it runs through"},
			cover,
			{Name: "rated", Forms: []string{"<degC>"}, Doc: "temperature that its cover is rated for, where the material's does not hold"},
			{Name: "clamp", Forms: []string{"every <m+>"}, Doc: "spacing of its clamps"},
			{Name: "through", Forms: []string{"<bulkhead> [grommet <grommet:mm>]", "<none>"}, Doc: "what it passes through"},
			{Name: "behind", Forms: []string{"<panel> [<guard:guard>]"}, Doc: "it runs behind a panel, with a guard or not"},
			{Name: "clears", Repeat: true, Forms: []string{"<hot|moving|fuel> by <by:m>"}, Doc: "its distance from hot or moving parts or fuel lines"},
			{Name: "note", Forms: []string{"<text>"}, Doc: "what a reader should know"},
			{Name: "existing", Doc: "it is the machine's own"},
		}},
		{Name: "wire", Doc: "a wire between two terminals", Settings: []*Setting{
			{Name: "via", Forms: []string{"<bundle>..."}, Doc: "all bundles of its route, in order"},
			{Name: "slack", Forms: []string{"<m>"}, Doc: "added at each of its two ends"},
			{Name: "ends", Forms: []string{"<hardware>..."}, Doc: "what is crimped on its two ends"},
			cover,
			{Name: "label", Forms: []string{"<text>"}, Doc: "what its label says"},
			{Name: "note", Forms: []string{"<text>"}, Doc: "what a reader should know"},
			{Name: "existing", Doc: "it is the machine's own: computed with, never cut"},
		}},
		{Name: "mode", Doc: "what is switched on together, for how long, with the engine doing what", Settings: []*Setting{
			{Name: "key", Forms: []string{"<off|acc|on|start>"}, Default: Default{Text: "off"}, Doc: "position of the key"},
			{Name: "engine", Forms: []string{"<off|idle|running|cranking>"}, Default: Default{Text: "off"}, Doc: "what the engine does"},
			{Name: "closed", Forms: []string{"<switch>..."}, Doc: "switches that are closed, all poles"},
			{Name: "throw", Repeat: true, Forms: []string{"<switch> <count:count>"}, Doc: "the throw that a switch with several stands on"},
			{Name: "charge", Forms: []string{"<share>"}, Default: Default{Text: "80 %"}, Doc: "state of charge of the batteries"},
			{Name: "for", Forms: []string{"<s+>"}, Doc: "how long it lasts"},
			{Name: "ambient", Forms: []string{"<degC>"}, Default: Default{Words: "each zone's greatest"}, Doc: "temperature of every zone"},
		}},
	}
}

// practice is the row of practice's own block: limits that a harness tightens.
func practice() *Kind {
	return &Kind{Name: "practice", Doc: "limits tighter than the practice's own", Settings: []*Setting{
		{Name: "drop", Repeat: true, Forms: []string{"<critical|other> <to:%>"}, Doc: "greatest voltage drop, of the system's volts"},
		{Name: "device", Repeat: true, Forms: []string{"<load|hot> <to:%>"}, Doc: "greatest steady load of a protective device, of its rating"},
		{Name: "distance", Repeat: true, Forms: []string{"<bare|sheathed> <to:m>"}, Doc: "greatest unprotected length from a source"},
		{Name: "gauge", Forms: []string{"<gauge>"}, Doc: "least gauge"},
		{Name: "clamps", Forms: []string{"<m+>"}, Doc: "greatest spacing of clamps"},
		{Name: "clear", Repeat: true, Forms: []string{"<hot|moving|fuel> <to:m>"}, Doc: "least clearance"},
		{Name: "return", Forms: []string{"<colour>"}, Doc: "colour of return wires"},
	}}
}
