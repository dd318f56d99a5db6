package sheets

import (
	"sort"
	"strings"

	"hame/check/wording"
	"hame/lang/harness"
)

// walk lists the places as one comes by them who follows the bundles: from the
// first place of the text on, each run to its end, the earlier one first.
func walk(h *harness.Harness) []*harness.Place {
	var all []*harness.Place
	seen := map[*harness.Place]bool{}
	for _, first := range h.Places {
		for todo := []*harness.Place{first}; len(todo) > 0; {
			at := todo[len(todo)-1]
			todo = todo[:len(todo)-1]
			if at == nil || seen[at] {
				continue
			}
			seen[at] = true
			all = append(all, at)
			for i := len(at.Bundles) - 1; i >= 0; i-- {
				todo = append(todo, at.Bundles[i].From, at.Bundles[i].To)
			}
		}
	}
	return all
}

// placeWords is a place with its zone: "cowl (dash, -20 to 50 degC)".
func placeWords(p *harness.Place) string {
	if p.Zone == nil {
		return p.Name
	}
	return p.Name + " (" + zoneWords(p.Zone) + ")"
}

// zoneWords is a zone: "engine, -20 to 80 degC, oil, splash".
func zoneWords(z *harness.Zone) string {
	parts := []string{z.Name, "ambient " + unknown}
	if z.Known {
		parts[1] = wording.Number(z.LeastC) + " to " + wording.Number(z.MostC) + " degC"
	}
	var exposed []string
	for word, is := range z.Exposed {
		if is {
			exposed = append(exposed, word)
		}
	}
	sort.Strings(exposed)
	return strings.Join(append(parts, exposed...), ", ")
}
