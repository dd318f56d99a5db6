package harness

import "hame/lang/quantity"

// Mode is what is switched on together.
type Mode struct {
	Name     string
	Origin   Origin // zero for an implied mode
	Implied  bool
	Key      string
	Engine   string
	Closed   []*Device
	Throws   map[*Device]int
	Charge   float64 // 0 to 1
	ForS     float64 // 0 where it has no end
	AmbientC *float64
	settings
}

// Require is a limit that the author promises.
type Require struct {
	Origin Origin
	Name   string // as written: a device, a wire or a way
	Device *Device
	Wire   *Wire
	Way    *Terminal // where Name is a terminal: aux.2
	What   string    // volts, current, drop, warmth
	Op     string
	Limit  quantity.Quantity
	Mode   *Mode // nil for every mode
}

// Allow is a finding that the author accepts.
type Allow struct {
	Origin  Origin
	Rule    string
	On      string
	Because string
	Until   string // a date, "" for always
}
