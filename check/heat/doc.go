// Package heat works out how hot wires get: one alone in still air, many in a
// bundle, and how fast a wire warms up.
//
// A wire is a heated horizontal cylinder: its loss is carried through the
// insulation and leaves by natural convection (Churchill and Chu 1975) and
// radiation; its resistance rises with its own temperature. A bundle is one
// such cylinder with a rise towards its core. The law of resistance is linear
// in temperature, so all wires of a bundle follow from the temperature of its
// surface, and one equation in one unknown is left.
//
// Nothing is fitted to the ampacity tables that it's compared with; testdata
// holds by how much it departs from each of them.
package heat
