package draw

import "hame/lang/kinds"

// Colour is a colour of the language, or one of the papers' own below.
type Colour string

// The papers' own colours. Black and white are those of the language.
const (
	Black Colour = "black"
	White Colour = "white"
	Paper Colour = "paper" // the page itself; dark where a screen is
	Ash   Colour = "ash"   // what matters less: frames, rulers
	Shade Colour = "shade" // the ground of boxes
	Alarm Colour = "alarm"
)

// rgb is what a colour prints as. Wires are named beside their lines, so that
// nobody needs to tell these apart.
var rgb = map[Colour][3]uint8{
	Black: {0x1a, 0x1a, 0x1a}, White: {0xff, 0xff, 0xff}, Paper: {0xff, 0xff, 0xff},
	Ash: {0x80, 0x80, 0x80}, Shade: {0xf2, 0xf2, 0xf2}, Alarm: {0xb0, 0x1c, 0x1c},
	"brown": {0x7a, 0x4a, 0x21}, "red": {0xd0, 0x21, 0x21}, "orange": {0xf0, 0x7f, 0x13},
	"yellow": {0xf2, 0xd0, 0x13}, "green": {0x1e, 0x8a, 0x3c}, "blue": {0x1f, 0x5f, 0xbf},
	"violet": {0x80, 0x3a, 0xa8}, "grey": {0x8c, 0x8c, 0x8c}, "pink": {0xf0, 0x8f, 0xb4},
	"turquoise": {0x1f, 0xb0, 0xb0}, "tan": {0xd2, 0xb0, 0x80},
}

// RGB is what a colour prints as; black for one that is not known.
func (c Colour) RGB() (r, g, b uint8) {
	v, ok := rgb[c]
	if !ok {
		v = rgb[Black]
	}
	return v[0], v[1], v[2]
}

// OfWire is the colour of a wire's insulation, Ash where none is said.
func OfWire(name string) Colour {
	if kinds.IsColour(name) {
		return Colour(name)
	}
	return Ash
}
