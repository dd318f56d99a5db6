package yard

import (
	"fmt"
	"math/rand/v2"

	"hame/check/practice"
	"hame/lang/harness"
)

// builder is a harness while it is made.
type builder struct {
	*Harness
	r          *rand.Rand
	limits     *practice.Practice
	insulation string
	longest    int // of a bundle, in decimetres above the least
	zoneC      map[string]float64
	spots      []*spot
	tray       *spot // where the battery sits
	board      *spot // where the panels are
	counts     map[string]int
	volts      budget
	critical   bool // small drops all along
	totalA     float64
	crank      bool
	alternator *Item
	battery    *Item
	main       *feed
	later      []func() // once all currents are known
	circuits   int      // how many to make
	mostA      float64  // of the whole harness
	switches   []*Item  // that modes close
	throws     []*Item  // with two throws
	tooBig     bool     // no wire is thick enough for it
}

// budget is how many volts each stretch may lose.
type budget struct{ main, feed, back float64 }

// Make builds the harness of a seed: the first draft that can be built.
func Make(seed uint64) *Harness {
	for draft := uint64(0); ; draft++ {
		b := &builder{
			Harness: &Harness{Seed: seed},
			r:       rand.New(rand.NewPCG(seed, draft)),
			zoneC:   map[string]float64{}, counts: map[string]int{},
		}
		if b.build(); !b.tooBig {
			return b.Harness
		}
	}
}

func (b *builder) build() {
	b.choose()
	b.places()
	if b.circuits == 0 {
		b.tapped()
	} else {
		b.supply()
		b.feedAll()
	}
	b.finish()
}

func (b *builder) chance(percent int) bool { return b.r.IntN(100) < percent }

func (b *builder) pick(words ...string) string { return words[b.r.IntN(len(words))] }

// between is a number from a range, with three figures.
func (b *builder) between(lo, hi float64) float64 {
	return float64(int((lo+(hi-lo)*b.r.Float64())*100)) / 100
}

// name makes a name that nothing has yet.
func (b *builder) name(stem string) string {
	b.counts[stem]++
	return fmt.Sprintf("%s%d", stem, b.counts[stem])
}

// choose fixes what holds for the whole harness.
func (b *builder) choose() {
	b.Practice = b.pick("land", "land", "cfr183", "ac43")
	b.SystemV = []float64{12, 12, 12, 24, 24, 48}[b.r.IntN(6)]
	b.insulation = map[string]string{
		"land": b.pick("gxl", "gxl", "flry", "flr2x"), "cfr183": b.pick("gxl", "bc5w2", "sxl"), "ac43": b.pick("m22759-16", "gxl"),
	}[b.Practice]
	b.Metric = b.Practice == "land"
	b.Wired = b.chance(45)
	b.critical = b.chance(25)
	b.crank = b.SystemV < 48 && b.Practice != "ac43" && b.chance(20)
	b.circuits = b.howMany()
	b.longest = 30
	b.mostA = 50
	u := b.SystemV / 12
	b.volts = budget{0.09 * u, 0.12 * u, 0.09 * u}
	if b.tight() {
		b.mostA, b.longest = 6, 14
		b.volts = budget{0.02 * u, 0.025 * u, 0.02 * u}
		b.circuits = min(b.circuits, 9) // contacts alone take half of what may be lost
	}
	if b.circuits > 15 {
		b.mostA *= 0.8 // many small ones add up
	}
	if b.SystemV == 48 {
		b.mostA /= 2
	}
	b.limits = practice.Of(&harness.Harness{Practice: b.Practice, SystemV: b.SystemV})
	b.Head = &Item{Decl: "harness", Name: fmt.Sprintf("yard_%d", b.Seed)}
	b.Head.Set("system", fmt.Sprintf("%g V", b.SystemV)).Set("practice", b.Practice+b.tightened()).Set("wire", b.insulation).Set("slack", "100 mm")
}

// howMany: most harnesses are small, a few have a great many circuits.
func (b *builder) howMany() int {
	switch n := b.r.IntN(100); {
	case n < 6:
		return 0 // a tap and no more
	case n < 40:
		return 1 + b.r.IntN(3)
	case n < 80:
		return 4 + b.r.IntN(5)
	case n < 96:
		return 8 + b.r.IntN(8)
	}
	return 16 + b.r.IntN(22)
}

// tightened is what a harness asks beyond its practice, and keeps.
func (b *builder) tightened() string {
	if b.Practice != "land" || !b.chance(20) {
		return ""
	}
	return " { " + b.pick("drop other 9 %", "device load 79 %", "distance bare 170 mm", "clamps 450 mm", "clear hot 150 mm", "return black") + " }"
}

// places lays out the harness: the battery's tray, the board, and outposts.
func (b *builder) places() {
	b.tray = b.place("tray", nil, "dry", "bay", "warm", "frame")
	if b.circuits == 0 || b.circuits < 3 && b.chance(40) {
		b.board = b.tray
		return
	}
	b.board = b.place("board", b.tray, "dry", "cab", "cab", "warm")
	for range 1 + b.r.IntN(2+b.circuits/2) {
		up := b.board
		if len(b.spots) > 2 && b.chance(30) {
			up = b.spots[2+b.r.IntN(len(b.spots)-2)]
		}
		b.place(b.name("post"), up)
	}
}

// add declares a device, sealed and noted as its place asks.
func (b *builder) add(decl, name string, s *spot) *Item {
	i := (&Item{Decl: decl, Name: name}).Set("at", s.name)
	if s.wet() && decl != "join splice" && decl != "join connector" {
		i.Set("sealed", "IP67")
	}
	if s.is("fuel") && decl != "ground stud" {
		i.Set("note", `"ignition-protected"`)
	}
	b.Devices = append(b.Devices, i)
	return i
}

// run lays a wire between two terminals.
func (b *builder) run(from string, s *spot, to string, t *spot, d demand, colour string) *Wire {
	w := &Wire{Item: Item{Name: b.name("w")}, From: from, To: to, Colour: colour}
	d.way = b.way(s, t)
	d.lengthM = d.way.lengthM + 0.2
	if s == t && b.chance(60) {
		d.lengthM = b.between(0.15, 0.8)
		w.LengthM = d.lengthM
	}
	size, insulation := b.size(d)
	w.Gauge, w.Insulation = size.String(), insulation
	for _, s := range d.way.spots {
		s.wires = append(s.wires, w)
	}
	b.Wires = append(b.Wires, w)
	return w
}

// short lays a wire of a given length, covered, whose size is known.
func (b *builder) short(from, to string, lengthM float64, d demand, s *spot, colour string) *Wire {
	w := &Wire{Item: Item{Name: b.name("w")}, From: from, To: to, Colour: colour, LengthM: lengthM}
	d.way = way{mostC: s.mostC}
	d.lengthM = lengthM
	size, insulation := b.size(d)
	w.Gauge, w.Insulation = size.String(), insulation
	w.Set("cover", b.pick("loom_pa", "braid"))
	b.Wires = append(b.Wires, w)
	return w
}
