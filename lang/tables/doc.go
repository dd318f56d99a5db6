// Package tables carries in the published figures that a harness is judged by.
//
// Every table is a CSV file under data, embedded in the program. Its head
// names the document, the clause and how sure the figures are; a row may name
// its own. Accessors return the source beside the figure, so that a finding or
// a calculation note can quote it. No figure is typed a second time in Go.
//
// Units stand in names: mm, mm2, A, V, ohm, s, degC (the suffix C).
package tables
