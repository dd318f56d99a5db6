package sheets

import (
	"math"
	"slices"
	"strings"

	"hame/check/network"
	"hame/check/rules"
	"hame/check/sheet"
	"hame/check/wording"
	"hame/lang/finding"
	"hame/lang/harness"
)

var _ = register(Maker{
	Name: "protect", Title: "Protection schedule",
	Summary: "Each protective device: what it protects, how it is loaded, and whether it opens in time and in order",
	Make:    protectSheet,
})

// protectWork is what the schedule is made from.
type protectWork struct {
	*Pack
	asked    rules.Asked
	elements []int // of the devices, in the order of the network
	weakest  map[*network.Device]rules.Weak
	races    map[*network.Device]rules.Race
	lacks    map[*network.Device]finding.Need
	above    map[*network.Device][]string
	below    map[*network.Device][]string
	positions
}

func protectSheet(p *Pack) *sheet.Sheet {
	w := newProtectWork(p)
	s := &sheet.Sheet{}
	s.Add(sheet.Heading{Words: "Devices, and who stands above and below"}, w.devices(),
		small("Above and below: the devices next to it on the way from a source. Closed contacts count as closed."),
		sheet.Heading{Words: "Load, and the weakest wire that it alone protects"}, w.loading(),
		small("Load: the greatest lasting current of every position of the switches, key and engine; cranking is left out. Ampacity: after the ambient's factor, by the practice. At most: a bound that no position goes above."),
		sheet.Heading{Words: "Shorts"}, w.shorts(),
		small("Far end: of the wires that it opens for, the one whose short at the far end draws the least; wires as hot as their insulation bears, the device at its slowest. Stands: until the copper's short-time limit. Greatest: right behind the device."),
		sheet.Heading{Words: "Where the figures come from"}, w.sources())
	w.positions.into(s)
	var wanted lacks
	p.undrawn(&wanted)
	w.missing(&wanted)
	wanted.into(s)
	return s
}

func newProtectWork(p *Pack) *protectWork {
	w := &protectWork{Pack: p, asked: rules.Ask(p.Facts), above: map[*network.Device][]string{}, below: map[*network.Device][]string{}}
	for i := range p.Facts.Network.Elements {
		if p.Facts.Network.Elements[i].Kind == network.Fuse {
			w.elements = append(w.elements, i)
		}
	}
	w.weakest = w.asked.Weakest()
	w.races, w.lacks = w.asked.Farthest()
	w.chains()
	return w
}

// chains notes each device's neighbours on the ways from the sources.
func (w *protectWork) chains() {
	for _, wire := range w.Harness.Wires {
		for _, path := range w.Facts.Protect.Cover(wire).Paths {
			for k := 1; k < len(path.Chain); k++ {
				first, next := path.Chain[k-1], path.Chain[k]
				w.below[first] = once(w.below[first], next.Name)
				w.above[next] = once(w.above[next], first.Name)
			}
		}
	}
}

func once(names []string, name string) []string {
	if slices.Contains(names, name) {
		return names
	}
	return append(names, name)
}

func (w *protectWork) fuse(element int) *network.Device {
	return w.Facts.Network.Elements[element].Fuse
}

func (w *protectWork) table(name string, columns []sheet.Column, row func(element int, d *network.Device) []sheet.Cell) *sheet.Table {
	t := &sheet.Table{Name: name, Columns: append([]sheet.Column{{Name: "device", Title: "device"}}, columns...), Empty: "There is no protective device."}
	for _, i := range w.elements {
		d := w.fuse(i)
		t.Rows = append(t.Rows, sheet.Row{Cells: append([]sheet.Cell{sheet.Is(d.Name)}, row(i, d)...), Name: d.Name})
	}
	return t
}

func (w *protectWork) devices() *sheet.Table {
	return w.table("devices", []sheet.Column{
		{Name: "label", Title: "label"},
		{Name: "what", Title: "what it is"},
		{Name: "rating_a", Title: "rating", Unit: "A", Right: true},
		{Name: "place", Title: "place"},
		{Name: "from", Title: "fed by"},
		{Name: "above", Title: "above it"},
		{Name: "below", Title: "below it"},
		{Name: "whose", Title: "whose"},
		{Name: "found", Title: "the check says"},
	}, func(i int, d *network.Device) []sheet.Cell {
		place := unknown
		if d.AtPlace != nil {
			place = d.AtPlace.Name
		}
		return []sheet.Cell{
			sheet.Is(labelOf(d)), sheet.Is(sortOf(d)), maybe(d.RatingA, d.RatingA > 0), sheet.Is(place), sheet.Is(list(w.feeders(i))),
			sheet.Is(list(w.above[d])), sheet.Is(list(w.below[d])), sheet.Is(own(d.Of.Existing)), sheet.Is(w.found(d)),
		}
	})
}

// feeders names the sources that lead to a device.
func (w *protectWork) feeders(element int) []string {
	var names []string
	for _, f := range w.Facts.Faults.Behind(element) {
		names = once(names, w.Facts.Network.Elements[f.Source].Name)
	}
	return names
}

// found names the findings of protection about a device, or its panel.
func (w *protectWork) found(d *network.Device) string {
	var all []string
	for _, f := range w.Run.Findings {
		if (f.Subject == d.Name || f.Subject == d.Of.Name) && (strings.HasPrefix(f.Rule, "protection/") || strings.HasPrefix(f.Rule, "tap/")) {
			words := f.Rule + " (" + f.Severity.String() + ")"
			if f.Allowed != nil {
				words = f.Rule + " (allowed)"
			}
			all = once(all, words)
		}
	}
	return strings.Join(all, ", ")
}

// device finds a device by its name, or nil.
func (p *Pack) device(name string) *harness.Device {
	for _, d := range p.Harness.Devices {
		if d.Name == name {
			return d
		}
	}
	return nil
}

// labelOf is what is written beside a device: of a panel's way its own label.
func labelOf(d *network.Device) string {
	if d.Way == nil {
		args, _ := d.Of.Args("label")
		return args.Word("")
	}
	for _, args := range d.Of.Given("way") {
		if args.RepeatKey() == d.Way.Name {
			return args.Word("label")
		}
	}
	return ""
}

// sortOf is a device's sort without its rating.
func sortOf(d *network.Device) string {
	switch d.Sort {
	case "link":
		return wording.Protection(d)
	case "breaker":
		return "breaker, reset " + d.Family
	}
	return d.Family + " fuse"
}

func (w *protectWork) loading() *sheet.Table {
	return w.table("loading", []sheet.Column{
		{Name: "load_a", Title: "load at worst", Unit: "A", Right: true},
		{Name: "load_percent", Title: "of rating", Unit: "%", Right: true},
		{Name: "allowed_percent", Title: "allowed", Unit: "%", Right: true},
		{Name: "position", Title: "worst position"},
		{Name: "weakest", Title: "weakest wire"},
		{Name: "size", Title: "its size"},
		{Name: "ampacity_a", Title: "its ampacity", Unit: "A", Right: true},
		{Name: "rating_percent", Title: "rating of it", Unit: "%", Right: true},
	}, func(i int, d *network.Device) []sheet.Cell {
		return append(w.loadCells(i, d), w.weakestCells(d)...)
	})
}

func (w *protectWork) loadCells(i int, d *network.Device) []sheet.Cell {
	worst := w.Facts.Steady(i)
	amps := figure(worst.Amps)
	if !w.Facts.Judged() {
		return []sheet.Cell{sheet.Is(unknown), sheet.Is(unknown), sheet.Is(unknown), sheet.Is("a dead short leaves nothing to say")}
	}
	if worst.Bound {
		amps = atMost(worst.Amps)
	}
	if d.RatingA == 0 {
		return []sheet.Cell{amps, {}, {}, w.at(worst.At)}
	}
	allowed, _ := w.asked.SteadyShare(d)
	return []sheet.Cell{amps, shareOf(worst.Amps / d.RatingA), shareOf(allowed), w.at(worst.At)}
}

// shareOf is a share of 1 in whole per cent, the exact one in Raw.
func shareOf(share float64) sheet.Cell {
	c := figure(100 * share)
	if !math.IsInf(share, 0) && !math.IsNaN(share) {
		c.Words = wording.Number(math.Round(100 * share))
	}
	return c
}

func (w *protectWork) weakestCells(d *network.Device) []sheet.Cell {
	weak, ok := w.weakest[d]
	if !ok {
		return []sheet.Cell{sheet.Is("none, or not known"), {}, {}, {}}
	}
	name, size := "pigtail of "+weak.Name, ""
	if weak.Wire != nil {
		name, size = weak.Name, sizeWords(weak.Wire)
	} else if d := w.device(weak.Name); d != nil {
		size = d.Word("lead")
	}
	rated := sheet.Cell{}
	if d.RatingA > 0 && weak.Rating.Amps > 0 {
		rated = shareOf(d.RatingA / weak.Rating.Amps)
	}
	return []sheet.Cell{sheet.Is(name), sheet.Is(size), figure(weak.Rating.Amps), rated}
}

// sizeWords is a wire's size and insulation: "4 mm2 gxl".
func sizeWords(w *harness.Wire) string {
	if w.AreaMM2 == 0 {
		return unknown
	}
	return strings.TrimSpace(w.Size.String() + " " + w.Insulation)
}
