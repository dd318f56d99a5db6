package states_test

import (
	"fmt"
	"math/rand/v2"
	"strings"
)

// machine writes harnesses of every shape that the language allows, sensible
// and not, from a seed.
type machine struct {
	r     *rand.Rand
	text  strings.Builder
	count int
	feeds []string // terminals that something may be fed from
	wild  bool     // bridging loads, loops, switched returns
	hands int      // switches still to be made
}

func generate(seed uint64, hands int, wild bool) string {
	m := &machine{r: rand.New(rand.NewPCG(seed, 11)), wild: wild, hands: hands}
	m.say("harness h { system 12 V }")
	m.say("zone warm { ambient -20..%d degC }\nplace here in warm", 40+m.r.IntN(40))
	m.say("ground chassis frame { resistance %d mohm }", m.r.IntN(3))
	m.supplies()
	m.trunk()
	for m.hands > 0 {
		m.branch()
	}
	if m.r.IntN(3) == 0 {
		m.say("mode low { key on; charge %d %%; ambient 20 degC }", 40+m.r.IntN(60))
	}
	return m.text.String()
}

func (m *machine) say(format string, args ...any) {
	fmt.Fprintf(&m.text, format+"\n", args...)
}

func (m *machine) name(prefix string) string {
	m.count++
	return fmt.Sprintf("%s%d", prefix, m.count)
}

func (m *machine) one(list ...string) string { return list[m.r.IntN(len(list))] }

func (m *machine) wire(from, to string) {
	m.say("wire %s %s -> %s %s %.1f m", m.name("w"), from, to, m.one("1.5 mm2", "2.5 mm2", "6 mm2"), 0.2+4*m.r.Float64())
}

func (m *machine) cable(from, to string) {
	m.say("wire %s %s -> %s %s %.1f m", m.name("w"), from, to, m.one("16 mm2", "25 mm2"), 0.2+m.r.Float64())
}

func (m *machine) supplies() {
	m.say("supply battery main { at here; capacity 70 Ah; cranking %d A; standby 8 mA }", 300+m.r.IntN(500))
	m.cable("main.neg", "frame")
	if m.r.IntN(3) > 0 {
		m.say("supply alternator alt { at here; output %d A; idle %d A; already 6 A }", 20+m.r.IntN(80), 10+m.r.IntN(20))
		m.cable("alt.pos", "main.pos")
		m.cable("alt.neg", m.one("frame", "main.neg"))
	}
	m.say("supply tap lamps { at here; behind fuse 15 A; carries 4 A; live %s; gauge 1.5 mm2; run 1 m }", m.one("on", "acc", "engine", "always"))
	m.feeds = []string{"lamps.out"}
	if m.r.IntN(6) == 0 {
		m.upper()
	}
	if m.r.IntN(4) == 0 {
		m.say("supply battery spare { at here; capacity 40 Ah }")
		m.cable("spare.neg", "frame")
		sw := m.toggle("isolator", "")
		m.cable("main.pos", sw+".in")
		m.cable(sw+".out", "spare.pos")
		m.feeds = append(m.feeds, "spare.pos")
	}
}

// upper stands a second battery on the first.
func (m *machine) upper() {
	m.say("supply battery top { at here; capacity 70 Ah; cranking 500 A }")
	m.cable("main.pos", "top.neg")
	m.say("protection fuse f2 { at here; rating 30 A }")
	m.wire("top.pos", "f2.in")
	m.feeds = append(m.feeds, "f2.out")
}

// trunk is what most is fed through: a fuse, an isolator, a relay, the key.
func (m *machine) trunk() {
	m.say("protection fuse f { at here; rating 50 A; family maxi }")
	m.cable("main.pos", "f.in")
	at := "f.out"
	if m.r.IntN(3) == 0 && m.hands > 1 {
		sw := m.toggle("isolator", "")
		m.cable(at, sw+".in")
		at = sw + ".out"
	}
	if m.r.IntN(2) == 0 {
		m.relay(at, "lamps.out", "make")
		at = fmt.Sprintf("k%d.87", m.count-0)
	}
	m.say("join bus b { ways 400 }")
	m.cable(at, "b")
	m.say("switch key lock { rating 30 A }")
	m.wire("f.out", "lock.in")
	m.feeds = append(m.feeds, "b", "b", "b", "lock.ign", "lock.acc")
	if m.r.IntN(4) == 0 {
		m.say("supply converter up { at here; takes 12 V; gives %s V; output %d A; efficiency 88 %% }", m.one("24", "5"), 2+m.r.IntN(10))
		m.wire("b", "up.in")
		m.wire("up.neg", "frame")
		m.feeds = append(m.feeds, "up.out")
	}
}

// relay makes a relay with its coil fed from a terminal; its number is the
// last that was given.
func (m *machine) relay(from, coil, form string) {
	w1, w2, w3 := m.name("w"), m.name("w"), m.name("w")
	k := m.name("k")
	m.say("switch relay %s { at here; contacts 40 A; coil 90 ohm; form %s }", k, form)
	m.say("wire %s %s -> %s.30 6 mm2 1 m", w1, from, k)
	m.say("wire %s %s -> %s.86 1.5 mm2 1 m", w2, coil, k)
	m.say("wire %s %s.85 -> frame 1.5 mm2 1 m", w3, k)
}

func (m *machine) toggle(kind, more string) string {
	m.hands--
	sw := m.name("s")
	m.say("switch %s %s { at here; rating 30 A%s }", kind, sw, more)
	return sw
}

// branch is a switch with what it feeds.
func (m *machine) branch() {
	feed := m.feeds[m.r.IntN(len(m.feeds))]
	switch k := m.r.IntN(12); {
	case k < 5:
		sw := m.toggle(m.one("toggle", "push"), "")
		m.wire(feed, sw+".in")
		m.load(sw + ".out")
		m.grow(sw + ".out")
	case k < 6:
		sw := m.toggle("toggle", "; throws 2")
		m.wire(feed, sw+".in")
		m.load(sw + ".out1")
		m.load(sw + ".out2")
	case k < 7:
		sw := m.toggle("toggle", "")
		m.wire(feed, sw+".in")
		m.relay("b", sw+".out", "change")
		k := fmt.Sprintf("k%d", m.count)
		m.load(k + ".87")
		m.load(k + ".87a")
	case k < 8:
		m.latch(feed)
	case k < 9 && m.hands > 1:
		m.stairs(feed)
	case k < 10 && m.wild:
		m.reverser(feed)
	case m.wild:
		m.strange(feed)
	}
}

// grow lets more hang behind a switch.
func (m *machine) grow(at string) {
	if m.r.IntN(2) == 0 {
		m.load(at)
	}
	if m.r.IntN(3) == 0 && m.hands > 0 {
		sw := m.toggle("toggle", "")
		m.wire(at, sw+".in")
		m.load(sw + ".out")
	}
}

func (m *machine) load(at string) {
	l := m.name("l")
	m.say("load %s %s { at here; draws %d W%s }", m.one("led", "bulb", "heater", "motor", "module"), l, 1+m.r.IntN(90), m.one("", "; least 9 V"))
	m.wire(at, l+".pos")
	switch m.r.IntN(4) {
	case 0:
		sw := ""
		if m.wild && m.hands > 0 && m.r.IntN(3) == 0 {
			sw = m.toggle("toggle", "")
			m.wire(l+".neg", sw+".in")
			m.wire(sw+".out", "frame")
			return
		}
		m.wire(l+".neg", "main.neg")
	case 1:
		m.wire(l+".neg", "frame")
		m.wire(l+".neg", "frame")
	default:
		m.wire(l+".neg", "frame")
	}
}

// latch is a relay that a push pulls in and that then holds itself.
func (m *machine) latch(feed string) {
	sw := m.toggle("push", "")
	m.wire(feed, sw+".in")
	m.relay(feed, sw+".out", "make")
	k := fmt.Sprintf("k%d", m.count)
	m.wire(k+".87", k+".86")
	m.load(k + ".87")
}

// stairs are two switches that work one lamp from two places.
func (m *machine) stairs(feed string) {
	one, two := m.toggle("toggle", "; throws 2"), m.toggle("toggle", "; throws 2")
	m.wire(feed, one+".in")
	m.wire(one+".out1", two+".out1")
	m.wire(one+".out2", two+".out2")
	m.load(two + ".in")
}

// reverser turns a motor round.
func (m *machine) reverser(feed string) {
	sw := m.toggle("toggle", "; throws 2; poles 2")
	l := m.name("l")
	m.say("load motor %s { at here; draws %d W }", l, 20+m.r.IntN(60))
	m.wire(feed, sw+".1.in")
	m.wire(sw+".2.in", "frame")
	m.wire(sw+".1.out1", l+".pos")
	m.wire(sw+".1.out2", l+".neg")
	m.wire(sw+".2.out1", l+".neg")
	m.wire(sw+".2.out2", l+".pos")
}

// strange is what a tired builder makes: loads from one feed to another, two
// feeds on one load, diodes.
func (m *machine) strange(feed string) {
	one, other := m.toggle("toggle", ""), m.feeds[m.r.IntN(len(m.feeds))]
	m.wire(feed, one+".in")
	m.load(one + ".out")
	switch m.r.IntN(3) {
	case 0:
		if m.hands > 0 {
			two := m.toggle("toggle", "")
			m.wire(other, two+".in")
			m.load(two + ".out")
			l := m.name("l")
			m.say("load %s %s { at here; draws %d W }", m.one("bulb", "led", "motor"), l, 1+m.r.IntN(30))
			m.wire(one+".out", l+".pos")
			m.wire(two+".out", l+".neg")
		}
	case 1:
		if m.hands > 0 {
			two := m.toggle("toggle", "")
			m.wire(other, two+".in")
			m.wire(two+".out", one+".out")
		}
	default:
		d := m.name("d")
		m.say("switch diode %s { at here; rating 20 A }", d)
		m.wire(one+".out", d+".anode")
		m.load(d + ".cathode")
	}
}
