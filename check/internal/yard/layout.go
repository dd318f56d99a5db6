package yard

import (
	"fmt"
	"strings"
)

// climate is a kind of zone.
type climate struct {
	name     string
	leastC   float64
	mostC    float64 // at most; the seed takes some off
	exposure string
}

var climates = []climate{
	{"dry", -20, 50, ""},
	{"cab", -20, 50, ""},
	{"bay", -20, 85, "oil, splash"},
	{"roof", -25, 45, "wet, sun"},
	{"under", -25, 45, "wet, splash, abrasion, oil"},
	{"bilge", -10, 45, "fuel, splash"},
	{"warm", -10, 62, ""},
}

// spot is a place with its way to the battery: a tree.
type spot struct {
	name   string
	zone   *Item
	mostC  float64
	up     *spot
	bundle *Item // to up
	runC   float64
	runM   float64
	wires  []*Wire // in its bundle
	back   [2]back // of what is always live, and of what the key drops out
	plug   *plug
}

func (s *spot) is(exposure string) bool {
	to, _ := s.zone.Get("exposure")
	return strings.Contains(to, exposure)
}

func (s *spot) wet() bool { return s.is("wet") || s.is("splash") }
func (s *spot) hot() bool { return s.mostC >= 60 }

// zones makes some of the climates, each once.
func (b *builder) climate(names ...string) (*Item, float64) {
	c := climates[0]
	for {
		c = climates[b.r.IntN(len(climates))]
		if len(names) == 0 || contains(names, c.name) {
			break
		}
	}
	if z := b.Zone(c.name); z != nil {
		return z, b.zoneC[c.name]
	}
	most := c.mostC - float64(5*b.r.IntN(3))
	z := &Item{Decl: "zone", Name: c.name}
	z.Set("ambient", fmt.Sprintf("%g..%g degC", c.leastC, most))
	if c.exposure != "" {
		z.Set("exposure", c.exposure)
	}
	b.Zones = append(b.Zones, z)
	b.zoneC[c.name] = most
	return z, most
}

func contains(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

// place makes a place, joined to another by a bundle where there is one.
func (b *builder) place(name string, up *spot, climates ...string) *spot {
	z, most := b.climate(climates...)
	s := &spot{name: name, zone: z, mostC: most, up: up}
	b.Places = append(b.Places, &Item{Decl: "place", Name: name, Tail: "in " + z.Name})
	if up != nil {
		b.join(s)
	}
	b.spots = append(b.spots, s)
	return s
}

// join lays the bundle from a place to the one before it.
func (b *builder) join(s *spot) {
	s.runM = float64(4+b.r.IntN(b.longest)) / 10
	s.runC = max(s.mostC, s.up.mostC)
	i := &Item{Decl: "bundle", Name: b.name("b"), Tail: fmt.Sprintf("%s -> %s %g m", s.up.name, s.name, s.runM)}
	exposed := s.exposed() || s.up.exposed()
	if s.zone != s.up.zone && b.chance(50) {
		z, most, from := s.zone, s.mostC, s
		if b.chance(50) {
			z, most, from = s.up.zone, s.up.mostC, s.up
		}
		i.Set("zone", z.Name)
		s.runC, exposed = most, from.exposed()
	}
	if exposed || b.chance(70) {
		i.Set("cover", b.pick("loom_pa", "braid", "cloth_tape"))
		if s.runC < 70 && b.chance(20) {
			i.Set("cover", "loom_pe")
		}
	}
	i.Set("clamp", fmt.Sprintf("every %d mm", 250+50*b.r.IntN(5)))
	if s.zone != s.up.zone || b.chance(20) {
		i.Set("through", b.pick("none", "bulkhead grommet"))
	}
	if b.chance(15) {
		i.Add("behind", "panel guard")
	}
	if b.chance(20) {
		i.Add("clears", "hot by 150 mm")
		i.Add("clears", "moving by 40 mm")
	}
	s.bundle = i
	b.Bundles = append(b.Bundles, i)
}

func (s *spot) exposed() bool { return s.is("oil") || s.is("sun") || s.is("abrasion") }

// way is a route between two places: its bundles' length, and how hot it gets.
type way struct {
	lengthM float64
	mostC   float64
	spots   []*spot // whose bundle is on it
	covered bool
}

func (b *builder) way(x, y *spot) way {
	w := way{mostC: max(x.mostC, y.mostC), covered: x != y}
	above := map[*spot]bool{}
	for s := x; s != nil; s = s.up {
		above[s] = true
	}
	meet := y
	for !above[meet] {
		meet = meet.up
	}
	for _, from := range []*spot{x, y} {
		for s := from; s != meet; s = s.up {
			w.spots = append(w.spots, s)
			w.lengthM += s.runM
			w.mostC = max(w.mostC, s.runC)
			w.covered = w.covered && s.bundle.Has("cover")
		}
	}
	return w
}
