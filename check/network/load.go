package network

import (
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/quantity"
)

// When says in which positions a load draws.
type When uint8

// When a load draws.
const (
	Always   When = iota // whenever it is fed
	KeyOff               // with the key off
	KeyOn                // with the key not off
	EngineOn             // while the engine idles or runs
	Cranking             // while the engine cranks
)

// LoadSpec is what a load is to its feed. Of Amps, Watts and Ohm one is set.
type LoadSpec struct {
	Sort   string // a kind of load, coil, standby, already, carries, converter
	Known  bool   // what it draws is declared
	Watts  float64
	Amps   float64
	Ohm    float64
	AtV    float64
	LeastV float64
	Power  float64 // exponent of current on volts: 0 of a motor, 1.5 of a fan
	When   When
	Coil   *Coil
	// StandbyA is what it draws instead with the key off; 0 where not declared.
	StandbyA float64
}

// Coil is a relay's coil at 20 degC.
type Coil struct{ PullsV, ReleasesV float64 }

// leastShare is the knee of a constant-power load that declares no least
// voltage, of the system's volts: drivers of lamps stop about there (common
// practice, no source).
const leastShare = 0.6

// fanPower: a fan or pump's current grows with its volts to the 1.5 (affinity
// laws, from memory).
const fanPower = 1.5

func (b *builder) load(d *harness.Device) {
	neg := d.Terminal("neg")
	standbyA, _ := d.SI("standby")
	for _, args := range d.Given("input") {
		if a, ok := args.Get("draw"); ok {
			spec := b.spec(d, a.Lo, 0)
			spec.StandbyA, standbyA = standbyA, 0 // through the first input
			b.between(d, args.RepeatKey(), "neg", Element{Kind: Load, Name: d.Name + "." + args.RepeatKey(), Load: spec})
		}
	}
	if !d.Has("input") {
		spec := b.drawn(d)
		spec.StandbyA = standbyA
		b.between(d, "pos", "neg", Element{Kind: Load, Load: spec})
	}
	b.body(d, neg)
}

// body ties a load that returns through its case to its chassis.
func (b *builder) body(d *harness.Device, neg *harness.Terminal) {
	args, ok := d.Args("case")
	if !ok || neg == nil {
		return
	}
	for _, c := range b.chassis[args.Word("")] {
		b.add(Element{Kind: Joint, A: node(neg), B: node(c.Terminals[0]), Ohm: chassisOhm(c) / 2, Name: d.Name, Device: d, Terminal: neg})
	}
}

// drawn is what a load without inputs draws.
func (b *builder) drawn(d *harness.Device) *LoadSpec {
	if d.Is(kinds.Load, "outlet") {
		amps, ok := d.SI("expects")
		if a, given := drawOf(d); !ok && given {
			return b.outletDraw(d, a)
		}
		if !ok {
			amps, ok = d.SI("rating")
		}
		return &LoadSpec{Sort: "outlet", Known: ok, Amps: amps, AtV: b.systemV}
	}
	args, ok := d.Args("draws")
	a, drawn := args.Get("")
	if !ok || !drawn {
		return &LoadSpec{Sort: d.Kind.Name, AtV: b.systemV}
	}
	at, _ := args.SI("at")
	return b.spec(d, a.Lo, at)
}

// drawOf is what a load is declared to draw.
func drawOf(d *harness.Device) (quantity.Quantity, bool) {
	args, ok := d.Args("draws")
	a, given := args.Get("")
	return a.Lo, ok && given
}

// outletDraw is an outlet's load where it says what it `draws` rather than what
// it `expects`: a current, as of any outlet.
func (b *builder) outletDraw(d *harness.Device, draw quantity.Quantity) *LoadSpec {
	amps, atV := draw.SI, b.n.Harness.SystemV
	if draw.Dim == quantity.Power {
		amps /= atV
	}
	return &LoadSpec{Sort: "outlet", Known: true, Amps: amps, AtV: atV}
}

// spec turns a declared draw into the load's law.
func (b *builder) spec(d *harness.Device, draw quantity.Quantity, atV float64) *LoadSpec {
	if atV == 0 {
		atV = b.systemV
	}
	s := &LoadSpec{Sort: d.Kind.Name, Known: true, AtV: atV}
	watts, amps := draw.SI, draw.SI
	if draw.Dim == quantity.Power {
		amps = watts / atV
	} else {
		watts = amps * atV
	}
	s.LeastV, _ = d.SI("least")
	if s.LeastV == 0 {
		s.LeastV = leastShare * b.systemV
	}
	switch d.Kind.Name {
	case "led", "module", "bulb":
		s.Watts = watts
	case "heater", "solenoid":
		s.Ohm = atV / amps
	default:
		s.Amps = amps
	}
	if d.Kind.Name == "motor" && d.Word("drives") != "other" {
		s.Power = fanPower
	}
	if d.Kind.Name == "starter" {
		s.When = Cranking
	}
	return s
}

// coilSpec is a relay's coil: a resistance, declared as such or as a current at
// the system's volts.
func (b *builder) coilSpec(d *harness.Device) *LoadSpec {
	s := &LoadSpec{Sort: "coil", Coil: &Coil{}}
	s.Coil.PullsV, _ = d.SI("pulls")
	s.Coil.ReleasesV, _ = d.SI("releases")
	if system, ok := d.SystemV(); ok {
		// a default goes by the volts of the rail that the coil hangs on
		if !d.Has("pulls") {
			s.Coil.PullsV *= b.systemV / system
		}
		if !d.Has("releases") {
			s.Coil.ReleasesV *= b.systemV / system
		}
	}
	args, ok := d.Args("coil")
	a, given := args.Get("")
	if !ok || !given {
		return s
	}
	s.Known, s.Ohm = true, a.Lo.SI
	if a.Lo.Dim == quantity.Current {
		s.Ohm = b.systemV / a.Lo.SI
	}
	return s
}

// AmpsAtRated is what the load draws at the volts that its draw was given for.
func (s *LoadSpec) AmpsAtRated() float64 {
	switch {
	case s.Amps > 0 || s.AtV == 0:
		return s.Amps
	case s.Ohm > 0:
		return s.AtV / s.Ohm
	}
	return s.Watts / s.AtV
}

// Hidden reports whether the load stands for what is not in the harness: the
// machine's own draw.
func (s *LoadSpec) Hidden() bool {
	return s.Sort == "standby" || s.Sort == "already" || s.Sort == "carries"
}
