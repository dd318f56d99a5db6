package yard

import "fmt"

// back is where the returns of a place land. What is always live has its own:
// behind a shared one an open return would feed the keyed panel backwards.
type back struct {
	stud  *Item
	rings int
	bus   *Item
	busA  float64
	mostA float64 // rating of the greatest device behind it
}

// ground is where a number of returns of one circuit land at a place, with the
// current that they bring and the device that protects them.
func (b *builder) ground(s *spot, rings int, amps, ratingA float64, keyed bool) string {
	if b.Wired {
		return b.bus(s, amps, ratingA, keyed)
	}
	k := s.backOf(keyed)
	if k.stud == nil || k.rings+rings > 4 {
		k.stud = b.add("ground stud", b.name("g"), s).Set("to", "frame").Set("size", b.pick("M6", "M8"))
		k.rings = 0
	}
	k.rings += rings
	return k.stud.Name
}

func (s *spot) backOf(keyed bool) *back {
	if keyed {
		return &s.back[1]
	}
	return &s.back[0]
}

// bus is the return bus of a place: the board's goes home to the battery, the
// others' to the board's.
func (b *builder) bus(s *spot, amps, ratingA float64, keyed bool) string {
	if s == b.tray {
		return "main.neg"
	}
	if s == b.board {
		keyed = true // one for all: nothing behind it has another way home
	}
	k := s.backOf(keyed)
	k.busA += amps
	k.mostA = max(k.mostA, ratingA)
	if s != b.board {
		b.bus(b.board, amps, ratingA, true)
	}
	if k.bus == nil {
		k.bus = b.add("ground bus", b.name("n"), s).Set("ways", "60").Set("size", "M6").Set("covered", "")
		b.later = append(b.later, func() { b.busHome(s, k) })
	}
	return k.bus.Name
}

func (b *builder) busHome(s *spot, k *back) {
	to, at := "main.neg", b.tray
	d := demand{amps: k.busA, ratingA: k.mostA, dropV: b.volts.back / 2}
	if s == b.board {
		d.ratingA = max(d.ratingA, b.mainRating())
	} else {
		to, at = b.board.back[1].bus.Name, b.board
	}
	b.run(k.bus.Name, s, to, at, d, "black")
	if b.chance(40) {
		k.bus.Set("limit", fmt.Sprintf("%g A", atLeast(contA, k.busA*1.3)))
	}
}

// ownGround is a ground that nothing else lands on: behind a shared one that
// came open the main relay's coil would feed another coil.
func (b *builder) ownGround(s *spot) string {
	if b.Wired {
		return b.bus(s, 0.3, 10, true)
	}
	return b.add("ground stud", b.name("g"), s).Set("to", "frame").Set("size", "M6").Name
}
