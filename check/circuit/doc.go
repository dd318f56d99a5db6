// Package circuit finds the steady operating point of a direct-current network:
// the volts at every node and the amperes in every branch.
//
// A [Builder] collects nodes and branches and compiles them into a [Net], which
// does the symbolic work once. A [State] says what is switched on and what is
// overridden for one solve, and [Net.Solve] answers with a [Point]. A Net never
// changes after Compile, so any number of goroutines may solve it at once, each
// with a State of its own.
//
// All figures are in SI: volts, amperes, ohms, siemens, watts.
//
// # Method
//
// Kirchhoff's current law is written at every node and solved by Newton's
// method. Each linear step eliminates one node after another by the star-mesh
// transform: a node's conductances are replaced by conductances between its
// neighbours. Nothing is subtracted while all slopes are positive, so a
// microhm beside a megohm costs no digits. The order of elimination is
// minimum degree and is fixed at Compile; a solve only fills in numbers.
//
// Node volts are held in two parts (a float64 and its rounding remainder), so
// that the drop along a microhm wire at 48 V is still known to many digits.
//
// Every branch of two nodes has amperes that depend on its own volts alone, so
// the solution is a minimum of the network's co-content (Millar 1951, from
// memory), and the step length is chosen along it. Where several stable points
// exist, the search starts from lightly loaded feeds and so finds the one of
// high voltage, which is the one a machine reaches when it is switched on.
//
// # Limits of the model
//
// Resistances are held between [LeastOhm] and [MostOhm]; an ideal source is one
// of LeastOhm. A blocked diode and a source at its limit let through a further
// [LeakSiemens] so that what hangs on them has a definite voltage.
package circuit
