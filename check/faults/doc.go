// Package faults works out prospective currents: what a short between a feed
// and the nearest return draws, at the far end of each wire and right behind
// each protective device.
//
// The loop of a short is the source's own resistance, the feed up to the fault
// and the return from there to the source's negative. All contacts on the way
// count as closed and new; fuses, joints and crimps have the resistances of the
// tables, the fault itself has none. What is taken for granted:
//
//   - The current goes by the way of least resistance. Where others lie beside
//     it, more than the least and, by what they add, more than the greatest
//     flows.
//   - Greatest: battery full, wires at the least ambient on their way (20 degC
//     where none is declared), lengths and gauges that are not known left out.
//   - Least: battery at the least charge of any mode, wires as hot as their
//     insulation bears (or the ambient, where that is more or the insulation is
//     not known), which is where the adiabatic rule starts from.
//   - A battery's resistance is the declared one, else that of its cranking
//     amperes, which are rated at -18 degC: warm it is lower. With neither, no
//     current is known and the fault says which fact it lacks.
//   - Sources are taken one at a time. An alternator or a converter gives no
//     more than its output however low the resistance; an alternator's least is
//     what it gives at idle.
//   - A short at a load finds the load's own return. Anywhere else it finds the
//     best return node at the same place, else the best return of the loads
//     beyond, else the source's own negative.
package faults
