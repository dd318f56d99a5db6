// Package wiring draws the wiring diagram of a checked harness: sources at the
// left, loads at the right, protection and switching between, and the return side
// below. Wires have their colours, and beside them their number, gauge and colour in
// letters. Large harnesses go over several sheets that name each other.
package wiring

import (
	"hame/check"
	"hame/check/draw"
)

// Options are what the asker may set.
type Options struct {
	// Mode shows what is live in a mode, and the volts and amperes in it; "" shows
	// none.
	Mode string
	// Paper is a4, a3 or letter: what does not fit on one page of it goes over
	// several. With "" a page is as large as what is on it.
	Paper string
	// Scale makes the drawing smaller or larger than its natural size; 0 is 1.
	Scale float64
	// Verdict, Date, File, Cautions and Defer are printed on every page, where they
	// are given.
	Verdict  string
	Date     string
	File     string
	Cautions []string
	Defer    string
	// InPage: the pictures stand on pages of that paper (A4 where none is said) that
	// have a title, what stands against building, and the cautions on them. The key
	// is a picture of its own then, the last.
	InPage bool
}

// The least and greatest scale.
const (
	LeastScale = 0.3
	MostScale  = 3
)

// Pictures draws a run that has a harness: a picture for each sheet, one at least.
// It never fails: what could not be bound is drawn as far as it was, and a wire
// that ends nowhere has a question mark there.
func Pictures(run *check.Run, o Options) []*draw.Picture {
	if o.Scale == 0 {
		o.Scale = 1
	}
	o.Scale = min(max(o.Scale, LeastScale), MostScale)
	if _, known := papers[o.Paper]; o.InPage && !known {
		o.Paper = "a4"
	}
	s := newScheme(run, o.Mode)
	views := s.fitted(o)
	s.address(views, o)
	var list []*draw.Picture
	for _, v := range views {
		list = append(list, s.page(v, len(views), o))
	}
	if o.InPage {
		list = append(list, s.keyPage(views, o))
	}
	return list
}
