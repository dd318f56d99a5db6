package network

import (
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// SourceSpec is what a source is, as far as it does not hang on the position.
type SourceSpec struct {
	Sort      string // battery, alternator, converter
	NominalV  float64
	Ohm       float64
	OhmKnown  bool    // declared, or from cranking
	CapacityA float64 // capacity in Ah, of a battery
	AcceptsA  float64
	SagsV     float64
	CrankingA float64 // 0 where not declared
	Chemistry tables.Chemistry
	OutputA   float64
	IdleA     float64
	IdleKnown bool
	Input     int // of a converter: the element of its input
	Efficient float64
	TakesV    float64
}

// alternatorOhm stands for the regulator's droop, which no text that was seen
// gives: small against any wire (common practice, no source).
const alternatorOhm = 0.001

func (b *builder) supply(d *harness.Device) {
	switch d.Kind.Name {
	case "battery":
		b.battery(d)
	case "alternator":
		b.alternator(d)
	case "converter":
		b.converter(d)
	case "tap":
		b.wait = append(b.wait, d)
	}
}

func (b *builder) battery(d *harness.Device) {
	s := &SourceSpec{Sort: "battery", Chemistry: tables.Chemistry(d.Word("chemistry"))}
	s.NominalV, _ = d.SI("volts")
	s.CapacityA, _ = d.SI("capacity")
	s.AcceptsA, _ = d.SI("accepts")
	s.SagsV, _ = d.SI("sags")
	s.CrankingA, _ = d.SI("cranking")
	s.Ohm, s.OhmKnown = batteryOhm(d, s)
	b.between(d, "pos", "neg", Element{Kind: Source, Source: s})
	if amps, ok := d.SI("standby"); ok {
		b.between(d, "pos", "neg", Element{Kind: Load, Name: d.Name + " standby", Load: &LoadSpec{
			Sort: "standby", Amps: amps, AtV: s.NominalV, When: KeyOff,
		}})
	}
}

// crankingPerAh stands in where neither resistance nor cranking amperes are
// declared: a small starter battery's (common practice, no source).
const crankingPerAh = 5

func batteryOhm(d *harness.Device, s *SourceSpec) (ohm float64, known bool) {
	if ohm, ok := d.SI("resistance"); ok {
		return ohm, true
	}
	cranking := s.CrankingA
	if cranking == 0 {
		cranking = crankingPerAh * max(s.CapacityA, 1)
	}
	ohm, _ = tables.BatteryOhmFromCranking(s.NominalV, cranking)
	return ohm, s.CrankingA > 0
}

// idleShare stands in for an alternator's undeclared output at idle: texts
// give 10 to 50 % of the rated one; the table of alternators names them.
const idleShare = 0.3

func (b *builder) alternator(d *harness.Device) {
	s := &SourceSpec{Sort: "alternator", Ohm: alternatorOhm, OhmKnown: true}
	s.NominalV, _ = d.SI("volts")
	s.OutputA, _ = d.SI("output")
	s.IdleA, s.IdleKnown = d.SI("idle")
	if !s.IdleKnown {
		s.IdleA = idleShare * s.OutputA
	}
	b.between(d, "pos", "neg", Element{Kind: Source, Source: s})
	if amps, ok := d.SI("already"); ok {
		b.between(d, "pos", "neg", Element{Kind: Load, Name: d.Name + " already", Load: &LoadSpec{
			Sort: "already", Amps: amps, AtV: s.NominalV, When: EngineOn,
		}})
	}
}

func (b *builder) converter(d *harness.Device) {
	s := &SourceSpec{Sort: "converter", Ohm: alternatorOhm, OhmKnown: true}
	s.NominalV, _ = d.SI("gives")
	s.OutputA, _ = d.SI("output")
	s.TakesV, _ = d.SI("takes")
	s.Efficient, _ = d.SI("efficiency")
	s.Input = b.between(d, "in", "neg", Element{Kind: Load, Load: &LoadSpec{Sort: "converter", When: Always}})
	b.between(d, "out", "neg", Element{Kind: Source, Source: s})
}

// taps come last: each hangs on its supply behind its own device and run.
func (b *builder) taps() {
	for _, d := range b.wait {
		b.tap(d)
	}
}

func (b *builder) tap(d *harness.Device) {
	out := d.Terminal("out")
	inside, behind := b.node(), b.node()
	live := &Gate{By: Tap}
	if args, ok := d.Args("live"); ok {
		for _, a := range args.List {
			live.Live = append(live.Live, a.Word)
		}
	}
	pos, neg := b.host(d)
	b.n.lows[d] = neg
	dev := tapDevice(b.n.Harness, d)
	ohm := contactOhm(tables.SwitchContact)
	b.add(Element{Kind: Contact, A: pos, B: inside, Ohm: ohm, Name: d.Name, Device: d, Gate: live})
	b.add(Element{Kind: Fuse, A: inside, B: behind, Ohm: deviceOhm(dev), Name: d.Name, Device: d, Fuse: dev})
	b.add(Element{Kind: Joint, A: behind, B: node(out), Ohm: tapRunOhm(d), Name: d.Name, Device: d, Terminal: out})
	if amps, ok := d.SI("carries"); ok && neg >= 0 {
		b.add(Element{Kind: Load, A: node(out), B: neg, Name: d.Name + " carries", Device: d, Load: &LoadSpec{
			Sort: "carries", Amps: amps, AtV: b.n.Harness.SystemV, When: Always,
		}})
	}
}

// host finds the poles of the supply that a tap hangs on: the named one, else
// the first battery, else the first alternator. With none, the tap is a source
// of the system's volts by itself, on the first chassis if there is one.
func (b *builder) host(d *harness.Device) (pos, neg int) {
	var found *harness.Device
	want := ""
	if args, ok := d.Args("of"); ok {
		want = args.Word("")
	}
	for _, sort := range []string{"battery", "alternator", "converter"} {
		for _, s := range b.n.Harness.Devices {
			if found == nil && s.Is(kinds.Supply, sort) && (want == "" || s.Name == want) {
				found = s
			}
		}
	}
	if found == nil {
		return b.lone(d)
	}
	for _, name := range []string{"pos", "out"} {
		if t := found.Terminal(name); t != nil {
			return node(t), node(found.Terminal("neg"))
		}
	}
	return b.lone(d)
}

func (b *builder) lone(d *harness.Device) (pos, neg int) {
	pos, neg = b.node(), -1
	for _, g := range b.n.Harness.Devices {
		if g.Is(kinds.Ground, "chassis") {
			neg = node(g.Terminals[0])
			break
		}
	}
	if neg < 0 {
		neg = b.node()
	}
	v := b.n.Harness.SystemV
	ohm, _ := tables.BatteryOhmFromCranking(v, 600)
	b.add(Element{Kind: Source, A: pos, B: neg, Name: d.Name, Device: d, Source: &SourceSpec{
		Sort: "battery", NominalV: v, Ohm: ohm, Chemistry: tables.Lead, SagsV: 8.0 / 12 * v,
	}})
	return pos, neg
}

func tapDevice(h *harness.Harness, d *harness.Device) *Device {
	dev := &Device{Name: d.Name, Of: d, AtPlace: d.At, Family: "blade", Sort: "fuse"}
	args, ok := d.Args("behind")
	if !ok {
		return dev
	}
	dev.RatingA, _ = args.SI("")
	if args.Word("device") == "breaker" {
		dev.Sort, dev.Family = "breaker", "manual"
	}
	if p := h.Place(args.Word("at")); p != nil {
		dev.AtPlace = p
	}
	return dev
}

// tapRunOhm is the cold resistance of the circuit's own wire up to the tap.
func tapRunOhm(d *harness.Device) float64 {
	args, ok := d.Args("gauge")
	run, long := d.SI("run")
	if !ok || !long {
		ohm, _, _ := tables.ContactOhm(tables.Splice)
		return ohm
	}
	a, _ := args.Get("")
	return run * tables.ResistancePerM(kinds.Size(a.Lo)).OhmPerM
}
