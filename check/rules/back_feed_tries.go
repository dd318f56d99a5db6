package rules

import (
	"maps"
	"slices"

	"hame/check/facts"
	"hame/check/network"
	"hame/check/states"
	"hame/lang/harness"
)

// try solves what the survey may have left out: every contact that leads into a
// zone against what is meant, closed, with all else closed but that zone's own.
// Most of them ask for the very same: that is solved once.
func (b *backFeeds) try() {
	const most = 40
	tries, closed := 0, b.c.throwsOf(nil, true)
	var tried []map[*harness.Device]int
	for _, i := range b.c.of(network.Contact) {
		feeds, against := b.against(i)
		if !against {
			continue
		}
		if tries >= most {
			return
		}
		if moved := b.moved(closed, i, feeds); !slices.ContainsFunc(tried, func(m map[*harness.Device]int) bool { return maps.Equal(m, moved) }) {
			tried = append(tried, moved)
			b.seeAt(closed, moved, most-tries)
		}
		tries += len(tryKeys)
	}
}

// tryKeys is where the key stands in tries.
var tryKeys = [...]string{"off", "acc", "on"}

// against reports whether a hand's contact leads into a zone that others are meant
// to feed, and lists those.
func (b *backFeeds) against(contact int) ([]facts.Link, bool) {
	e := &b.c.Network.Elements[contact]
	if e.Gate.By != network.Hand {
		return nil, false
	}
	feeds := b.meant.Feeds(b.meant.Zone(e.A))
	return feeds, len(feeds) > 0 && !slices.ContainsFunc(feeds, func(l facts.Link) bool { return l.Element == contact })
}

// moved is how a try differs from all being closed: the contact the way that closes
// it, and what is meant to feed its zone open.
func (b *backFeeds) moved(closed map[*harness.Device]int, contact int, feeds []facts.Link) map[*harness.Device]int {
	moved := map[*harness.Device]int{}
	move := func(d *harness.Device, throw int) {
		if moved[d] = throw; closed[d] == throw {
			delete(moved, d)
		}
	}
	e := &b.c.Network.Elements[contact]
	move(e.Device, e.Gate.Throw)
	for _, l := range feeds {
		move(b.c.Network.Elements[l.Element].Device, 0)
	}
	return moved
}

// seeAt solves and looks at one try with the key in up to so many places.
func (b *backFeeds) seeAt(closed, moved map[*harness.Device]int, keys int) {
	throws := maps.Clone(closed)
	for d, throw := range moved {
		throws[d] = throw
	}
	for _, key := range tryKeys[:min(keys, len(tryKeys))] {
		p := b.c.Again(&states.Position{Key: key, Engine: "off", Corner: states.HotLow, Charge: 1, Throws: throws})
		if _, short := b.c.ShortIn(p); !short {
			b.see(p)
		}
	}
}
