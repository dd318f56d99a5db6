package yard

import (
	"math/rand/v2"
	"strings"

	"hame/lang/kinds"
)

// landings says of most devices what they offer to a wire. It draws by itself, so
// that the harness of a seed is otherwise the same with it and without.
func (b *builder) landings() {
	const stream = 0x1a2d
	r := rand.New(rand.NewPCG(b.Seed, stream))
	for _, d := range b.Devices {
		n := r.IntN(100)
		if offers := b.offers(d); n < 80 && len(offers) > 0 {
			said := offers[n%len(offers)]
			d.Set(said.Key, said.Value)
		}
	}
}

// offers lists what a device may say that it offers; none where it has said, or
// where its kind is bolted up or has no such setting. A load's lead is in its
// circuit's gauge, which its circuit sees to.
func (b *builder) offers(d *Item) []Setting {
	words := strings.Fields(d.Decl)
	k := kinds.Find(kinds.Family(words[0]), words[len(words)-1])
	if k == nil || d.Has("tabs") || d.Has("studs") || d.Has("lead") || d.Has("feed") || d.Is("load starter") {
		return nil
	}
	if family, _ := d.Get("family"); family == "post" {
		return nil
	}
	tabs, lead := Setting{"tabs", "6.3"}, Setting{"lead", b.small()}
	_, takesTabs := k.Setting("tabs")
	_, takesLead := k.Setting("lead")
	var list []Setting
	if takesTabs && !b.tight() { // a tab takes more of the volts than a crimp
		list = append(list, tabs)
	}
	if takesLead && k.Family != kinds.Load {
		list = append(list, lead)
	}
	return list
}

// tight: hardly a drop is allowed.
func (b *builder) tight() bool { return b.Practice == "ac43" || b.critical }
