package rules

import (
	"fmt"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(&Rule{
	Name:     "protection/reset",
	Severity: finding.Error,
	Summary:  "a breaker that closes again by itself, with no note that says why; worse on a motor",
	Why: "It feeds the fault again and again, for as long as nobody looks: the wire is heated each time, and to whoever searches it looks like a loose contact. " +
		"A motor behind it starts by itself, with the hand in it that was freeing it.",
	Needs: "`reset` of the breaker; with none it is put back by hand. A `note` on the breaker says why it resets itself, and quiets the warning and the advice; not the error on a motor. " +
		"A breaker of `reset power` (SAE J553 type II) stays open as long as it is fed: advice. A motor counts wherever the breaker stands on its way from a source.",
	Limits: []Limit{
		{"", "a manually reset, trip-free breaker", "33 CFR 183.455", "(a)", "seen"},
		{"", "types I, II and III", "SAE J553", "reset types", "seen"},
	},
	Since:   "0.1.0",
	Related: []string{"protection/missing", "protection/stall"},
	Bad: shedWith(`protection breaker b1 { at shelf; rating 10 A; reset auto; breaks 2000 A; covered }  # want protection/reset
load led rear       { at shelf; draws 27 W; least 9 V; meant always }
wire w4 main.pos -> b1.in    2.5 mm2 red   0.15 m
wire w5 b1.out   -> rear.pos 2.5 mm2 red   1 m
wire w6 rear.neg -> main.neg 2.5 mm2 black 1 m
`),
	Good: shedWith(`protection breaker b1 { at shelf; rating 10 A; reset manual; breaks 2000 A; covered }
load led rear       { at shelf; draws 27 W; least 9 V; meant always }
wire w4 main.pos -> b1.in    2.5 mm2 red   0.15 m
wire w5 b1.out   -> rear.pos 2.5 mm2 red   1 m
wire w6 rear.neg -> main.neg 2.5 mm2 black 1 m
`),
	Check: checkReset,
})

func checkReset(c *Context) {
	motors := c.motorsBehind()
	for _, d := range c.Harness.Devices {
		if !d.Is(kinds.Protection, "breaker") {
			continue
		}
		severity, message := finding.Warning, "`%s` closes again by itself on a fault that still stands, and no `note` says why"
		var related []finding.Related
		motor := motors[d]
		switch reset := d.Word("reset"); {
		case reset == "auto" && motor != nil:
			severity, message = finding.Error, "`%s` closes again by itself, and the motor `"+motor.Name+"` behind it then starts by itself"
			related = []finding.Related{{Place: motor.Origin.Place(), Message: "the motor"}}
		case reset == "manual" || d.Has("note"):
			continue
		case reset == "power":
			severity, message = finding.Advice, "`%s` closes again when its feed has been off: it is reset by turning the key"
		}
		c.Report(finding.Finding{
			Severity: severity, At: d.Origin.Place(), Subject: d.Name, Message: fmt.Sprintf(message, d.Name),
			Figures: []string{"take one that is put back by hand (`reset manual`)"},
			Source:  "33 CFR 183.455 (a); SAE J553", Related: related,
		})
	}
}

// motorsBehind finds the first motor behind each protective device.
func (c *Context) motorsBehind() map[*harness.Device]*harness.Device {
	found := map[*harness.Device]*harness.Device{}
	for _, i := range c.loads() {
		e := &c.Network.Elements[i]
		if !e.Device.Is(kinds.Load, "motor") {
			continue
		}
		for _, p := range c.atNode(c.feedNode(i)) {
			for _, d := range p.Chain {
				if found[d.Of] == nil {
					found[d.Of] = e.Device
				}
			}
		}
	}
	return found
}
