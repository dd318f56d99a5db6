package sheets

import (
	"slices"
	"strings"

	"hame/check/wording"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// wireEnd is one end of a wire that is to be made.
type wireEnd struct {
	Wire *harness.Wire
	N    int // 0 or 1
}

func (e wireEnd) end() harness.End { return e.Wire.Ends[e.N] }

// far is how the wire's other end is written.
func (e wireEnd) far() string { return e.Wire.Ends[1-e.N].Name() }

// crimp is one terminal to be put on: on one end, or on several that share its
// barrel.
type crimp struct {
	Ends []wireEnd
	// Own are the machine's own wires that lie in the same contact, tab or splice.
	Own []*harness.Wire
}

func (c *crimp) end() harness.End { return c.Ends[0].end() }

// form is the hardware without its size: ring, tab, pin.
func (c *crimp) form() string {
	form, _, _ := strings.Cut(c.end().Hardware, " ")
	return form
}

// shared: of these a terminal takes one alone, so what lands there lies in one
// barrel. Rings go one on the other, and a splice is a barrel itself.
var shared = []string{"tab", "bullet", "pin", "socket", "butt"}

// crimps lists the terminals of all new wires, in the order of their wires.
func (p *Pack) crimps() []*crimp {
	type spot struct {
		at       *harness.Terminal
		hardware string
	}
	at := map[spot]*crimp{}
	var list []*crimp
	for _, w := range p.NewWires() {
		for n, e := range w.Ends {
			where := spot{e.Terminal, e.Hardware}
			form, _, _ := strings.Cut(e.Hardware, " ")
			c := at[where]
			if e.Terminal == nil || !slices.Contains(shared, form) || c == nil {
				c = &crimp{Own: ownAt(e, form)}
				at[where] = c
				list = append(list, c)
			}
			c.Ends = append(c.Ends, wireEnd{w, n})
		}
	}
	return list
}

// ownAt lists the machine's own wires in the barrel that an end goes into.
func ownAt(e harness.End, form string) []*harness.Wire {
	var own []*harness.Wire
	if e.Terminal == nil || !slices.Contains(shared, form) {
		return nil
	}
	for _, w := range e.Terminal.Wires {
		if w.Existing && !slices.Contains(own, w) {
			own = append(own, w)
		}
	}
	return own
}

// copperMM2 is what the barrel holds; false where a gauge is not known.
func (c *crimp) copperMM2() (float64, bool) {
	sum := 0.0
	for _, w := range c.wires() {
		if w.AreaMM2 == 0 {
			return 0, false
		}
		sum += w.AreaMM2
	}
	return sum, true
}

// wires lists what lies in the barrel, the machine's own last.
func (c *crimp) wires() []*harness.Wire {
	var list []*harness.Wire
	for _, e := range c.Ends {
		list = append(list, e.Wire)
	}
	return append(list, c.Own...)
}

// pigtail is the device's own lead that lies in the other side of a butt
// connector.
func (c *crimp) pigtail() (kinds.Fitting, bool) {
	t := c.end().Terminal
	if t == nil || t.Fitting.Form != kinds.Pigtail || c.form() != "butt" {
		return kinds.Fitting{}, false
	}
	return t.Fitting, true
}

// holds is what the barrel holds, in words: "2.5 mm2", "1.5 mm2 + 1.5 mm2", "1.5
// mm2 to a lead of 1 mm2".
func (c *crimp) holds() string {
	var sizes []string
	for _, w := range c.wires() {
		sizes = append(sizes, gauge(w))
	}
	slices.Sort(sizes)
	text := strings.Join(sizes, " + ")
	if lead, ok := c.pigtail(); ok {
		text += " to a lead of " + lead.Size
	}
	return text
}

// stripMM is how much insulation comes off; false where it is not known.
func (c *crimp) stripMM() (float64, bool) {
	copper, ok := c.copperMM2()
	if !ok {
		return 0, false
	}
	mm, _, known := tables.StripMM(c.form(), copper)
	return mm, known
}

// inAll is the copper of a barrel that several wires share.
func (c *crimp) inAll() string {
	copper, ok := c.copperMM2()
	if len(c.wires()) == 1 || !ok {
		return ""
	}
	return ", " + wording.Number(copper) + " mm2 in all"
}

// insulatedForms come with the coloured barrels of the trade.
var insulatedForms = []string{"ring", "tab", "bullet", "butt"}

// takes is the range of wire that the terminal is to be bought for.
func (c *crimp) takes() string {
	if t := c.end().Terminal; t != nil {
		if args, ok := t.Device.Args("takes"); ok && t.Device.Is(kinds.Join) {
			return args.Word("") + c.inAll()
		}
	}
	copper, ok := c.copperMM2()
	if !ok {
		return unknown
	}
	if !slices.Contains(insulatedForms, c.form()) {
		return "for " + c.holds()
	}
	colours := barrels(copper)
	if lead, ok := c.pigtail(); ok {
		return butt(copper, colours, lead)
	} else if len(colours) > 0 {
		return strings.Join(colours, " or ") + " barrel"
	}
	return "for " + c.holds()
}

func barrels(copperMM2 float64) []string {
	var colours []string
	for _, b := range tables.BarrelsFor(copperMM2) {
		colours = append(colours, b.Colour)
	}
	return colours
}

// butt is the butt connector that takes the wires in one side and a pigtail in
// the other: of one colour where one takes both, else one that steps down.
func butt(copperMM2 float64, wires []string, lead kinds.Fitting) string {
	other := barrels(lead.LeadMM2)
	to := ", lead " + lead.Size
	if len(wires) == 0 || len(other) == 0 {
		return "for " + wording.Number(copperMM2) + " mm2" + to
	}
	both := slices.DeleteFunc(slices.Clone(wires), func(c string) bool { return !slices.Contains(other, c) })
	switch {
	case len(both) > 0:
		return strings.Join(both, " or ") + " barrel" + to
	case copperMM2 > lead.LeadMM2:
		return "step-down, " + wires[0] + " to " + other[len(other)-1] + to
	}
	return "step-down, " + other[0] + " to " + wires[len(wires)-1] + to
}

// crimpOf maps every end to its crimp.
func crimpOf(list []*crimp) map[wireEnd]*crimp {
	of := map[wireEnd]*crimp{}
	for _, c := range list {
		for _, e := range c.Ends {
			of[e] = c
		}
	}
	return of
}
