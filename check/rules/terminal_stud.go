package rules

import (
	"fmt"
	"math"
	"strings"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/tables"
)

var _ = register(&Rule{
	Name:     "terminal/stud",
	Severity: finding.Error,
	Summary:  "a ring whose size differs from that of the stud that it lands on",
	Why: "A ring that is too big touches the nut's rim alone, works loose and burns. One that is too small gets filed out, " +
		"and half of its metal is gone.",
	Needs: "The ring's size in `ends`; without it the ring is taken to follow its stud. The stud's size: `post` of a battery, `feed` of a panel, `size` of a stud or bus, `studs` of others. " +
		"A wire straight on a chassis lands on no stud of known size, and is not judged.",
	Limits: []Limit{
		{"", "the stud hole size matches the stud", "common practice", "aircraft wiring practice", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"graph/loose-end", "ground/crowded"},
	Bad: `harness shed { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load led lamp       { at shelf; draws 27 W; least 9 V; tabs 6.3; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> lamp.pos 2.5 mm2 red   1 m
wire w3 lamp.neg -> main.neg 2.5 mm2 black 1 m { ends tab 6.3 female, ring M6 }  # want terminal/stud
mode lit { for 1 h }
`,
	Good: `harness shed { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load led lamp       { at shelf; draws 27 W; least 9 V; tabs 6.3; meant always }
wire w1 main.pos -> f1.in    2.5 mm2 red   0.15 m
wire w2 f1.out   -> lamp.pos 2.5 mm2 red   1 m
wire w3 lamp.neg -> main.neg 2.5 mm2 black 1 m { ends tab 6.3 female, ring M8 }
mode lit { for 1 h }
`,
	Check: checkRings,
})

func checkRings(c *Context) {
	for _, w := range c.Harness.Wires {
		for i, e := range w.Ends {
			ring, isRing := strings.CutPrefix(e.Hardware, "ring ")
			if !e.Given || e.Terminal == nil || !isRing {
				continue
			}
			switch f := e.Terminal.Fitting; {
			case f.Form == kinds.Stud && f.Size != ring:
				c.wrongRing(w, i, ring)
			case f.Form == kinds.Undeclared:
				if setting := studSetting(e.Terminal); setting != "" {
					d := e.Terminal.Device
					c.Wait(w.Name, finding.Need{Name: d.Name, Setting: setting}, d.Origin.Place())
				}
			}
		}
	}
}

// studSetting is the setting that says the size of a terminal's stud; "" where
// its kind has none.
func studSetting(t *harness.Terminal) string {
	for _, setting := range []string{"post", "feed", "size", "studs"} {
		if _, ok := t.Device.Kind.Setting(setting); ok && (setting != "feed" || t.Name == "feed") {
			return setting
		}
	}
	return ""
}

func (c *Context) wrongRing(w *harness.Wire, end int, ring string) {
	t := w.Ends[end].Terminal
	f := finding.Finding{
		At: w.Origin.Place(), Subject: w.Name, Source: "common practice: the stud hole size matches the stud",
		Message: fmt.Sprintf("`%s` has a ring %s on `%s`, whose stud is %s", w.Name, ring, t.FullName(), t.Fitting.Size),
		Related: []finding.Related{{Place: t.Device.Origin.Place(), Message: "the stud"}},
	}
	have, known := tables.StudNamed(ring)
	want, also := tables.StudNamed(t.Fitting.Size)
	if known && also && !math.IsNaN(have.DiameterMM) && !math.IsNaN(want.DiameterMM) {
		f.Measured, f.Limit, f.Unit = &have.DiameterMM, &want.DiameterMM, "mm"
	}
	if args, ok := w.Args("ends"); ok && len(args.List) == 2 {
		f.Fix = &finding.Fix{
			Title: "put a ring " + t.Fitting.Size + " on `" + w.Name + "`",
			Edits: []finding.Edit{{Place: finding.Place{File: w.Origin.File, Span: args.List[end].Span}, Text: t.Fitting.Hardware()}},
		}
	}
	c.Report(f)
}
