package format

import "hame/lang/syntax"

// form tells statements apart by how they are set.
type form uint8

const (
	unknown form = iota
	setting
	harness
	zone
	place
	bundle
	device
	wire
	mode
	part
	use
	require
	allow
)

var formOf = func() map[string]form {
	forms := map[string]form{
		"harness": harness, "zone": zone, "place": place, "bundle": bundle, "wire": wire,
		"mode": mode, "part": part, "use": use, "require": require, "allow": allow,
	}
	for _, family := range syntax.Families {
		forms[family] = device
	}
	return forms
}()

// takesBlock reports whether a block may follow.
func (f form) takesBlock() bool {
	return f != place && f != use && f != require && f != allow
}

// table is the form whose rows a statement stands among: zones and their places
// are set as one. Statements of no table are set each for itself.
func (f form) table() form {
	switch f {
	case place:
		return zone
	case zone, bundle, device, wire, mode, part:
		return f
	}
	return unknown
}
