package yard

import "fmt"

// feed is a terminal that circuits hang on.
type feed struct {
	term  string
	at    *spot
	keyed bool
}

// supply puts the battery in, with its own return, alternator and starter.
func (b *builder) supply() {
	bat := b.add("supply battery", "main", b.tray).Set("post", "M8").Set("covered", "")
	b.battery = bat
	if b.SystemV == 48 {
		bat.Set("capacity", fmt.Sprintf("%d Ah", 60+20*b.r.IntN(5))).Set("resistance", fmt.Sprintf("%d mohm", 64+8*b.r.IntN(3)))
		if b.chance(40) {
			bat.Set("chemistry", "lithium")
		}
	} else {
		bat.Set("capacity", fmt.Sprintf("%d Ah", 70+10*b.r.IntN(9)))
		if b.crank || b.chance(60) {
			bat.Set("cranking", fmt.Sprintf("%d A", 480+40*b.r.IntN(5)))
		} else {
			bat.Set("resistance", fmt.Sprintf("%g mohm", float64(18+b.r.IntN(6))*b.SystemV/12))
		}
	}
	if b.chance(50) {
		bat.Set("standby", fmt.Sprintf("%d mA", 4+b.r.IntN(12)))
	}
	if b.chance(40) {
		bat.Set("existing", "")
	}
	if !b.Wired {
		c := &Item{Decl: "ground chassis", Name: "frame"}
		b.Devices = append(b.Devices, c)
	}
	if b.chance(65) || b.crank {
		b.charge()
	}
	b.later = append(b.later, b.batteryReturn)
	if b.crank {
		b.starter()
	}
}

// charge puts an alternator in, brought in on the battery's own post.
func (b *builder) charge() {
	b.alternator = b.add("supply alternator", "alt", b.tray).Set("covered", "")
	b.later = append(b.later, func() {
		out := 10 * float64(int((b.totalA*1.35+12)/10)+2)
		b.alternator.Set("output", fmt.Sprintf("%g A", out)).Set("idle", fmt.Sprintf("%g A", out*0.9))
		if b.chance(50) {
			b.alternator.Set("already", "3 A")
		}
		rating := atLeast(postA, out/b.share(b.tray))
		d := demand{amps: out, ratingA: rating, dropV: 1}
		b.add("protection fuse", "alt_fuse", b.tray).Set("rating", fmt.Sprintf("%g A", rating)).Set("family", "post").Set("covered", "")
		b.short("main.pos", "alt_fuse.in", 0.15, d, b.tray, "red")
		b.short("alt_fuse.out", "alt.pos", 0.5, d, b.tray, "brown")
		to := "main.neg"
		if !b.Wired {
			to = "frame"
		}
		b.short("alt.neg", to, 0.3, d, b.tray, "black")
	})
}

// batteryReturn brings everything home to the battery's negative.
func (b *builder) batteryReturn() {
	if b.Wired {
		return // the bus comes home by itself
	}
	a := max(b.totalA*1.6, b.mainRating())
	if b.crank {
		a = 230
	}
	w := b.short("main.neg", "frame", 0.4, demand{amps: a, ratingA: a, dropV: 0.5}, b.tray, "black")
	w.Set("existing", "")
}

// starter is the machine's own, with its cable straight from the battery.
func (b *builder) starter() {
	s := b.add("load starter", "cranker", b.tray).Set("draws", "150 A").Set("existing", "")
	w := b.short("main.pos", "cranker.pos", 0.9, demand{amps: 150, dropV: 0.3}, b.tray, "red")
	w.Set("existing", "")
	if b.Wired {
		b.short("cranker.neg", "main.neg", 0.9, demand{amps: 150, dropV: 0.3}, b.tray, "black").Set("existing", "")
		return
	}
	s.Set("case", "frame")
}

// bolt puts the main fuse in, near the battery, and says where it leaves off.
func (b *builder) bolt(name string) (*Item, *feed) {
	i := b.add("protection fuse", name, b.tray).Set("family", "post").Set("covered", "")
	from := "main.pos"
	master := b.chance(30) && !b.crank && b.mostA > 20 && b.circuits < 8
	if master {
		b.mostA = min(b.mostA, 25) // its contact takes volts too
		b.add("switch isolator", "cutoff", b.tray).Set("rating", "2000 A").Set("studs", "M8").Set("covered", "").Set("master", "")
		if b.SystemV == 48 {
			b.Device("cutoff").Set("volts", "60 V")
		}
		b.switches = append(b.switches, b.Device("cutoff"))
	}
	b.later = append(b.later, func() {
		rating := b.mainRating()
		i.Set("rating", fmt.Sprintf("%g A", rating))
		d := demand{amps: b.totalA, ratingA: rating, dropV: b.volts.main / 4}
		if master {
			b.short(from, "cutoff.in", 0.07, d, b.tray, "red")
			from = "cutoff.out"
		}
		b.short(from, name+".in", 0.08, d, b.tray, "red")
	})
	return i, &feed{term: name + ".out", at: b.tray}
}

// mainRating is the main fuse's: above its load, and slower than any way.
func (b *builder) mainRating() float64 {
	most := 0.0
	for _, c := range b.Circuits {
		most = max(most, c.RatingA)
	}
	return atLeast(postA, max(b.totalA/b.share(b.tray), 3.2*most))
}
