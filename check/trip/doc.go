// Package trip works out when a protective device opens and how long a
// conductor can wait for it.
//
// Times come from the gates of the standards, the band that every device of a
// family must open within: between two gates they lie on a straight line on
// logarithms, beyond the last its I2t holds, below the first that must open
// the device may hold for ever. All times are in s, currents in A.
package trip
