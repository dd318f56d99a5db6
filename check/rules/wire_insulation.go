package rules

import (
	"fmt"
	"math"
	"strings"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "wire/insulation",
	Severity: finding.Error,
	Summary:  "insulation that does not bear the ambient, or bare metres in oil, sun or abrasion that it is not made for",
	Why: "Insulation that lives above its class hardens and cracks, carrying current or not. Oil swells PVC, sun makes it " +
		"brittle, and thin walls rub through.",
	Needs: "An insulation (the wire's own or the harness's `wire`), the zones' `ambient` and `exposure`. A zone with sun counts 20 K hotter. " +
		"The warning is for the metres inside bundles that have no cover; it names the first wire of an insulation in a bundle, and the others with it.",
	Limits: []Limit{
		{"", "the cable's temperature class", "SAE J1128, ISO 6722-1 and the cable's own standard", "", "seen; ISO, UL and AS from memory"},
		{"", "sun adds 20 K", "common practice", "trade judgement", "common practice"},
		{"", "cross-linked insulation suits oil and sun, PVC neither; thick cross-linked walls suit abrasion", "common practice", "", "common practice"},
	},
	Since:   "0.1.0",
	Related: []string{"wire/hot", "bundle/cover-heat", "bundle/bare"},
	Bad: run("", "cover loom_pa; clamp every 400 mm; zone roof; through none", "",
		"zone roof { ambient 0..70 degC; exposure sun }\nload led tail { at gate; draws 5 W; least 9 V; meant always }\n"+
			"wire w4 f1.out   -> tail.pos 2.5 mm2 gpt red  # want wire/insulation\nwire w5 tail.neg -> main.neg 2.5 mm2 black\n"),
	Good: run("", "cover loom_pa; clamp every 400 mm; zone roof; through none", "",
		"zone roof { ambient 0..70 degC; exposure sun }\nload led tail { at gate; draws 5 W; least 9 V; meant always }\n"+
			"wire w4 f1.out   -> tail.pos 2.5 mm2 red\nwire w5 tail.neg -> main.neg 2.5 mm2 black\n"),
	Check: checkInsulation,
})

// sunK is what the sun adds to a zone's ambient, for insulation (trade
// judgement, no source).
const sunK = 20

func checkInsulation(c *Context) {
	said := make([]bool, len(c.Harness.Wires)) // by wire
	for _, w := range c.Harness.Wires {
		if cable, ok := w.Cable(); ok {
			said[w.Index] = c.belowAmbient(w, cable)
		} else if len(w.Zones()) > 0 && c.Harness.Insulation == "" {
			c.Wait(w.Name, finding.Need{Name: c.Harness.Name, Setting: "wire"}, c.Harness.Origin.Place())
		}
	}
	for _, b := range c.Harness.Bundles {
		if b.Cover == nil {
			c.unsuited(b, said)
		}
	}
}

// belowAmbient judges a wire's class in the zones that it runs through; an
// unknown ambient is said.
func (c *Context) belowAmbient(w *harness.Wire, cable tables.CableType) bool {
	for _, z := range w.Zones() {
		if !z.Known {
			c.Wait(w.Name, finding.Need{Name: z.Name, Setting: "ambient"}, z.Origin.Place())
		}
	}
	worst, most := sunniest(w)
	if worst == nil || most <= cable.TemperatureC {
		return false
	}
	c.tooHotFor(w, cable, worst, most)
	return true
}

func (c *Context) tooHotFor(w *harness.Wire, cable tables.CableType, worst *harness.Zone, most float64) {
	how := degrees(worst.MostC)
	if worst.Exposed["sun"] {
		how = fmt.Sprintf("%s and %s K by the sun", how, number(sunK))
	}
	c.Report(finding.Finding{
		At: w.Origin.Place(), Subject: w.Name,
		Message:  fmt.Sprintf("the %s of `%s` bears %s, and `%s` reaches %s", cable.Name, w.Name, degrees(cable.TemperatureC), worst.Name, how),
		Measured: &most, Limit: &cable.TemperatureC, Unit: "degC", Source: source(cable.Source),
		Related: []finding.Related{{Place: worst.Origin.Place(), Message: "the zone"}},
	})
}

// sunniest is the zone along a wire that is hottest with what the sun adds, and
// how hot that is; nil where no ambient is known.
func sunniest(w *harness.Wire) (*harness.Zone, float64) {
	var worst *harness.Zone
	most := math.Inf(-1)
	for _, z := range w.Zones() {
		tempC := z.MostC
		if z.Exposed["sun"] {
			tempC += sunK
		}
		if z.Known && tempC > most {
			worst, most = z, tempC
		}
	}
	return worst, most
}

// unsuited judges the wires of a bundle without a cover, those of one
// insulation together.
func (c *Context) unsuited(b *harness.Bundle, said []bool) {
	var order []string
	alike := map[string][]*harness.Wire{}
	for _, w := range b.Members {
		if cable, ok := w.Cable(); ok && w.Cover == nil && len(notMadeFor(cable, b.Zones())) > 0 {
			if alike[cable.Name] == nil {
				order = append(order, cable.Name)
			}
			alike[cable.Name] = append(alike[cable.Name], w)
		}
	}
	for _, name := range order {
		c.unsuitedWires(b, name, alike[name], said)
	}
}

func (c *Context) unsuitedWires(b *harness.Bundle, name string, wires []*harness.Wire, said []bool) {
	for len(wires) > 0 && said[wires[0].Index] {
		wires = wires[1:]
	}
	if len(wires) == 0 {
		return
	}
	cable, _ := tables.Cable(name)
	f := finding.Finding{
		At: wires[0].Origin.Place(), Subject: wires[0].Name, Severity: finding.Warning,
		Message: fmt.Sprintf("`%s` lies bare in `%s`, and %s is not made for %s", wires[0].Name, b.Name, name,
			strings.Join(notMadeFor(cable, b.Zones()), " and ")),
		Source:  "common practice: what insulations suit",
		Related: []finding.Related{{Place: b.Origin.Place(), Message: "no cover"}},
	}
	const most = 8
	for k, w := range wires {
		said[w.Index] = true
		if k > 0 && k <= most {
			f.Related = append(f.Related, finding.Related{Place: w.Origin.Place(), Message: "lies there too"})
		}
	}
	if len(wires) > 1 {
		f.Figures = append(f.Figures, fmt.Sprintf("%d wires of %s lie there", len(wires), name))
	}
	f.Figures = append(f.Figures, "cover `"+b.Name+"`, or take an insulation that is made for it")
	c.Report(f)
}

// notMadeFor lists what zones expose a cable to that it is not made for.
func notMadeFor(cable tables.CableType, zones []*harness.Zone) []string {
	var list []string
	for _, to := range []struct {
		name string
		ok   bool
	}{{"oil", cable.Oil()}, {"sun", cable.Sun()}, {"abrasion", cable.Abrasion}} {
		if !to.ok && exposed(zones, to.name) != nil {
			list = append(list, to.name)
		}
	}
	return list
}
