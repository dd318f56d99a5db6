package rules

import (
	"fmt"
	"strings"

	"hame/lang/finding"
)

// sneakPatterns is where the patterns are named.
const sneakPatterns = "sneak circuit analysis handbook D2-118341-1 (1970): ground dome, H"

func (c *Context) reportSneak(k sneak) {
	subject, at := c.tieAt(k.tie)
	f := finding.Finding{At: at, Subject: subject, Mode: c.statedName(k.before), Related: k.related}
	e := &c.Network.Elements[k.element]
	if e.Wire != nil {
		r, _ := c.Ampacity(e.Wire)
		f.Message = fmt.Sprintf("with `%s` open `%s` carries %s, and may carry %s", subject, e.Name, amps(k.amps), amps(r.Amps))
		f.Measured, f.Limit, f.Source = &k.amps, &r.Amps, source(r.Source)
	} else {
		limit := c.OnFromA(k.element)
		f.Message = fmt.Sprintf("with `%s` open `%s` runs on %s, and it should be off", subject, e.Name, amps(k.amps))
		f.Measured, f.Limit, f.Source = &k.amps, &limit, sneakPatterns
	}
	f.Unit = "A"
	f.Figures = []string{
		"the way: " + c.sneakWay(k),
		"position: " + where(k.before.Position.Figure()),
		"give each of the loads a return of its own, or tie what they share to the source twice",
	}
	c.Report(f)
}

// reportLead reports a way that was found and not solved.
func (c *Context) reportLead(k sneak, l lead) {
	subject, at := c.tieAt(k.tie)
	name := func(i int) string { return c.Network.Elements[i].Name }
	c.Report(finding.Finding{
		Severity: finding.Warning, At: at, Subject: subject, Mode: c.statedName(k.before), Related: k.related,
		Message: fmt.Sprintf("with `%s` open the current of `%s` has a way through `%s` to `%s`, which should be off", subject, name(l.on), name(l.off), name(l.runs)),
		Figures: []string{"how much flows was not worked out: the harness is too large", "position: " + where(k.before.Position.Figure())},
		Source:  sneakPatterns,
	})
}

// sneakWay is the way of the current that goes wrong, from a source back to it.
func (c *Context) sneakWay(k sneak) string {
	way, ok := c.Path(k.element, k.after)
	if !ok {
		return "from more than one source"
	}
	var route []int
	for _, s := range way.Feed {
		route = append(route, s.Element)
	}
	route = append(route, way.Load)
	for _, s := range way.Back {
		route = append(route, s.Element)
	}
	words := c.routeWords(c.Network.Hot(way.Source), route)
	return strings.ReplaceAll(words, ", ", " - ")
}
