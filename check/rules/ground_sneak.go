package rules

import (
	"hame/check/states"
	"hame/lang/finding"
)

var _ = register(&Rule{
	Name:     "ground/sneak",
	Severity: finding.Error,
	Summary:  "with any one return open a load runs that should be off, or a wire carries more than it can",
	Why: "A shared return that breaks does not stop its loads: their current goes on through a neighbour, backwards, to whatever that one shares a feed with. The stop lamp " +
		"glows with the tail lamp, a relay pulls in by itself, or a thin strap carries the starter. It is the commonest fault that nobody finds.",
	Needs: "The wires and what the loads draw. Of every return wire, ring, bond and contact that alone ties two loads or more, what they would feed in its absence is looked for in each position that was solved, " +
		"and solved anew where there is a way; a return that current finds another way round is opened where it carries the most. A load counts as on from 2 % of its rated current. " +
		"Loads are taken to conduct backwards as they do forwards. In harnesses so large that this comes to more work than some thousand positions of a small one, the returns that tie the fewest loads are solved first; of the rest a way is said as a warning without its current. " +
		"Returns that current finds another way round, and ways beyond some million looks, are then left out.",
	Limits: []Limit{
		{"", "the patterns of ground dome and H", "sneak circuit analysis handbook D2-118341-1 (1970)", "clues: ground-to-ground tie, reverse current", "seen as headings; the cases from memory"},
		{"", "a wire's ampacity", "33 CFR 183.425", "Table 5 and note 1", "seen (note 1 in part from memory)"},
	},
	Since:   "0.1.0",
	Related: []string{"graph/back-feed", "graph/no-return", "ground/crowded"},
	Bad:     cluster("splice1", "  # want ground/sneak"),
	Good:    cluster("main.neg", ""),
	Watch:   watchSneaks,
	Check:   checkSneaks,
})

// cluster is a pair of tail and stop lamps on each side; on the left the stop
// lamp's return goes to a splice that the tail lamp shares, or home by itself.
func cluster(to, want string) string {
	splice, w9, w10 := "", "main.neg", ""
	if to != "main.neg" {
		splice, w9 = "join splice splice1  { at shelf; takes 1 mm2..4 mm2; seal IP67 }\n", to
		w10 = "wire w10 splice1    -> main.neg   2.5 mm2 black 1 m" + want + "\n"
	}
	return `harness trailer { system 12 V; practice land; wire gxl }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main  { at shelf; capacity 70 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1   { at shelf; rating 10 A; covered }
protection fuse f2   { at shelf; rating 10 A; covered }
switch toggle tails  { at shelf; rating 10 A; for bulb }
switch toggle brake  { at shelf; rating 10 A; for bulb }
load bulb tail_left  { at shelf; draws 5 W; least 9 V; meant always }
load bulb stop_left  { at shelf; draws 21 W; least 9 V; meant always }
load bulb stop_right { at shelf; draws 21 W; least 9 V; meant always }
` + splice + `wire w1  main.pos   -> f1.in      2.5 mm2 red    0.15 m
wire w2  main.pos   -> f2.in      2.5 mm2 red    0.15 m
wire w3  f1.out     -> tails.in   2.5 mm2 brown  1 m
wire w4  f2.out     -> brake.in   2.5 mm2 red    1 m
wire w5  tails.out  -> tail_left.pos  2.5 mm2 brown 1 m
wire w6  brake.out  -> stop_left.pos  2.5 mm2 red   1 m
wire w7  brake.out  -> stop_right.pos 2.5 mm2 red   1 m
wire w8  tail_left.neg  -> ` + w9 + ` 2.5 mm2 black 1 m
wire w9  stop_left.neg  -> ` + w9 + ` 2.5 mm2 black 1 m
wire w11 stop_right.neg -> main.neg 2.5 mm2 black 1 m
` + w10 + `mode night { closed tails; for 1 h }
`
}

// sneakWork is the work that is done for this rule, in elements solved: as much
// as some thousand positions of a small harness; sneakLooks is how many nodes
// are looked at for ways; sneakWhole is the greatest network, in elements, whose
// looped returns are opened: to make one ready takes long.
const (
	sneakWork  = 500_000
	sneakLooks = 5_000_000
	sneakWhole = 10_000
)

// watchSneaks keeps the positions in which a sneak may begin, the declared modes
// first: one corner of each is enough to find it.
func watchSneaks(c *Context) func(*states.Point) {
	const most = 5000
	list := &[]*states.Point{}
	c.kept = list
	return func(p *states.Point) {
		if p.Position.Corner != states.HotLow && p.Failed == nil && len(*list) < most {
			*list = append(*list, p)
		}
	}
}

func checkSneaks(c *Context) {
	if c.Harness.Hazy {
		return // a return that could not be read may be the one that is missing
	}
	s := &sneaks{c: c, points: *c.kept.(*[]*states.Point), left: sneakWork, looks: sneakLooks}
	hanging, looped := c.Hangings()
	for _, h := range hanging {
		if len(h.Loads) > 1 && !s.holdsFound(h.Loads) {
			s.search(h)
		}
	}
	s.reroute(looped)
}
