package check_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hame/check"
	"hame/check/rules"
	"hame/lang/finding"
)

// post is one circuit: a load behind a device behind a battery.
type post struct {
	system, practice, insulation, battery, device, feed, load, more string
}

func (p post) text() string {
	or := func(s, usual string) string {
		if s == "" {
			return usual
		}
		return s
	}
	return fmt.Sprintf(`harness worked { system %s; practice %s; wire %s; slack 100 mm }
zone dry { ambient 0..30 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; post M8; covered; %s }
protection %s
load %s
wire w1 main.pos -> f1.in  %s
wire w2 f1.out -> lamp.pos %s
wire w3 lamp.neg -> main.neg %s
mode lit { key on; for 1 h }
%s`,
		or(p.system, "12 V"), or(p.practice, "cfr183"), or(p.insulation, "bc5w2"), or(p.battery, "resistance 20 mohm"),
		or(p.device, "fuse f1 { at shelf; rating 10 A; covered }"),
		or(p.load, "led lamp { at shelf; draws 24 W; least 5 V; meant always }"),
		or(p.feed, "6 mm2 red 0.15 m"), or(p.feed, "6 mm2 red 0.15 m"), or(p.feed, "6 mm2 red 0.15 m"), p.more)
}

// ruled gives the severity of a rule's finding on a subject, "" where there is
// none.
func ruled(t *testing.T, text, rule, subject string) string {
	t.Helper()
	for _, f := range example(text, nil).Findings {
		if f.Severity == finding.Error && strings.HasPrefix(f.Rule, "text/") || f.Rule == "kind/unknown" {
			t.Errorf("%s: %s", f.Rule, f.Message)
		}
		if f.Rule == rule && f.Subject == subject {
			return f.Severity.String()
		}
	}
	return ""
}

// TestInterruptingTable: what a breaker must interrupt by the cranking amperes of
// its battery (ABYC E-11 Table V.A, as quoted: read): 600 A needs 1500 A main and
// 750 A branch, 651 A 3000 and 1500, 1500 A 5000 and 2500. At 24 V, so that the
// margin of 12 V does not come in.
func TestInterruptingTable(t *testing.T) {
	for cranking, needs := range map[int][2]int{600: {1500, 750}, 651: {3000, 1500}, 1500: {5000, 2500}} {
		for i, device := range []string{"f1", "f2"} {
			for short, want := range map[int]string{0: "", 1: "error"} {
				p := post{
					system: "24 V", battery: fmt.Sprintf("cranking %d A", cranking),
					device: "breaker f1 { at shelf; rating 10 A; breaks 9 kA; covered }",
					more: `protection breaker f2 { at shelf; rating 5 A; breaks 9 kA; covered }
load led more { at shelf; draws 12 W; least 5 V; meant always }
wire w4 f1.out -> f2.in 6 mm2 red 0.15 m
wire w5 f2.out -> more.pos 6 mm2 red 0.15 m
wire w6 more.neg -> main.neg 6 mm2 black 0.15 m
`,
				}
				text := strings.Replace(p.text(), device+" { at shelf; rating 10 A; breaks 9 kA", fmt.Sprintf("%s { at shelf; rating 10 A; breaks %d A", device, needs[i]-short), 1)
				text = strings.Replace(text, device+" { at shelf; rating 5 A; breaks 9 kA", fmt.Sprintf("%s { at shelf; rating 5 A; breaks %d A", device, needs[i]-short), 1)
				if got := ruled(t, text, "protection/breaking", device); got != want {
					t.Errorf("%d A cranking, %s at %d A: %q", cranking, device, needs[i]-short, got)
				}
			}
		}
	}
}

// TestBanks: batteries in parallel add, those in series do not (ABYC E-11 as quoted
// in a forum: read). Two of 600 A in parallel are 1200 A and want 5000 A; in
// series they want 1500 A.
func TestBanks(t *testing.T) {
	bank := func(wires string, breaks int) string {
		p := post{system: "24 V", battery: "volts 24 V; cranking 600 A", device: fmt.Sprintf("breaker f1 { at shelf; rating 10 A; breaks %d A; covered }", breaks)}
		return p.text() + "supply battery second { at shelf; volts 24 V; capacity 70 Ah; cranking 600 A; post M8; covered }\n" + wires
	}
	parallel := "wire p1 second.pos -> main.pos 16 mm2 red 0.1 m\nwire p2 second.neg -> main.neg 16 mm2 black 0.1 m\n"
	series := strings.ReplaceAll(bank("wire s1 second.neg -> main.pos 16 mm2 red 0.1 m\n", 1500), "volts 24 V", "volts 12 V")
	series = strings.Replace(series, "w1 main.pos", "w1 second.pos", 1)
	for name, c := range map[string]struct{ text, want string }{
		"parallel, enough": {bank(parallel, 5000), ""},
		"parallel":         {bank(parallel, 4999), "error"},
		"series, enough":   {series, ""},
		"series":           {strings.Replace(series, "breaks 1500 A", "breaks 1499 A", 1), "error"},
	} {
		if got := ruled(t, c.text, "protection/breaking", "f1"); got != c.want {
			t.Errorf("%s: %q", name, got)
		}
	}
}

// The same quotation in figures: 2400 A each, two in series and three such strings side
// by side, 7200 A (read). Here they are milliamperes, so that the links between them
// take nothing off: 12.65 V behind 5.27 ohm each.
func TestBankOfStrings(t *testing.T) {
	text := post{system: "24 V", battery: "volts 12 V; resistance 5.2708 ohm", device: "fuse f1 { at shelf; rating 5 A; breaks 7.1 A; covered }"}.text()
	text = strings.Replace(text, "w1 main.pos", "w1 top0.pos", 1)
	for i := range 3 {
		if i > 0 {
			text += fmt.Sprintf("supply battery low%d { at shelf; volts 12 V; capacity 70 Ah; resistance 5.2708 ohm; post M8; covered }\n", i)
		}
		low := strings.Replace(fmt.Sprintf("low%d", i), "low0", "main", 1)
		text += fmt.Sprintf("supply battery top%d { at shelf; volts 12 V; capacity 70 Ah; resistance 5.2708 ohm; post M8; covered }\n", i) +
			fmt.Sprintf("wire s%d %s.pos -> top%d.neg 50 mm2 black 0.1 m\n", i, low, i)
		if i > 0 {
			text += fmt.Sprintf("wire p%[1]d top%[1]d.pos -> top0.pos 50 mm2 red 0.1 m\nwire n%[1]d low%[1]d.neg -> main.neg 50 mm2 black 0.1 m\n", i)
		}
	}
	if f := of(t, text, "protection/breaking", "f1"); math.Abs(*f.Measured-7.2) > 0.01 {
		t.Errorf("%g A, want 7.2 A", *f.Measured)
	}
	if got := ruled(t, strings.Replace(text, "breaks 7.1 A", "breaks 7.21 A", 1), "protection/breaking", "f1"); got != "" {
		t.Errorf("7.21 A: %q", got)
	}
}

// The voltage rule: 32 V devices on 12 and 24 V systems, 58 V ones on 48 V
// (ISO 8820-3 scope: read). And the trade's margin: up to twice the capacity of a
// 32 V device on 12 V lead-acid is a warning (trade judgement, no source).
func TestBreakingMargins(t *testing.T) {
	blade := "fuse f1 { at shelf; rating 10 A; covered }" // 1000 A (ISO 8820-3: read)
	for name, c := range map[string]struct {
		post
		want string
	}{
		"12 V":                {post{device: blade}, ""},
		"24 V":                {post{system: "24 V", battery: "resistance 40 mohm", device: blade}, ""},
		"48 V":                {post{system: "48 V", battery: "resistance 80 mohm", device: blade}, "error"},
		"48 V, 58 V blade":    {post{system: "48 V", battery: "resistance 80 mohm", device: "fuse f1 { at shelf; rating 10 A; volts 58 V; covered }"}, ""},
		"up to twice":         {post{battery: "resistance 7 mohm", device: blade}, "warning"},
		"above twice":         {post{battery: "resistance 3 mohm", device: blade}, "error"},
		"24 V has none":       {post{system: "24 V", battery: "resistance 14 mohm", device: blade}, "error"},
		"lithium has none":    {post{battery: "chemistry lithium; resistance 7 mohm", device: blade}, "error"},
		"lithium by cranking": {post{battery: "chemistry lithium; cranking 600 A", device: blade}, ""}, // open, of the battery
		"declared":            {post{battery: "cranking 600 A", device: "fuse f1 { at shelf; rating 10 A; breaks 1500 A; covered }"}, ""},
		"breaker, undeclared": {post{battery: "cranking 600 A", device: "breaker f1 { at shelf; rating 10 A; covered }"}, "open"},
		"glass, undeclared":   {post{battery: "cranking 600 A", device: "fuse f1 { at shelf; rating 10 A; family glass; covered }"}, "open"},
		"a link":              {post{battery: "cranking 600 A", device: "link f1 { at shelf; gauge 14 AWG; covered }"}, ""},
	} {
		if got := ruled(t, c.text(), "protection/breaking", "f1"); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
	if got := ruled(t, post{battery: "chemistry lithium; cranking 600 A", device: blade}.text(), "protection/breaking", "main"); got != "open" {
		t.Errorf("lithium by cranking: %q", got)
	}
	if got := ruled(t, post{battery: "standby 1 mA", device: blade}.text(), "protection/slow", "main"); got != "open" {
		t.Errorf("neither resistance nor cranking: %q", got)
	}
}

// 33 CFR 183.455(c)(1) and Table 5 (rule and table read, products computed): the
// largest device below 50 V for 16 AWG of 105 degC is 37.5 A, 150 % of 25 A, and for
// 14 AWG 52.5 A, 150 % of 35 A. On land above 100 % there is a warning.
func TestDeviceAgainstWire(t *testing.T) {
	for _, c := range []struct {
		practice, gauge, rating, want string
		limit                         float64
	}{
		{"cfr183", "16 AWG", "35 A", "", 0},
		{"cfr183", "16 AWG", "40 A", "error", 37.5},
		{"cfr183", "14 AWG", "50 A; family maxi", "", 0},
		{"cfr183", "14 AWG", "60 A; family maxi", "error", 52.5},
		{"land", "16 AWG", "25 A", "", 0},
		{"land", "16 AWG", "30 A", "warning", 25},
		{"land", "16 AWG", "35 A", "error", 31.25},
	} {
		p := post{practice: c.practice, feed: c.gauge + " red 0.15 m", device: "fuse f1 { at shelf; rating " + c.rating + "; covered }"}
		if got := ruled(t, p.text(), "protection/oversized", "f1"); got != c.want {
			t.Errorf("%+v: %q", c, got)
		} else if got != "" {
			if f := of(t, p.text(), "protection/oversized", "f1"); math.Abs(*f.Limit-c.limit) > 1e-9 {
				t.Errorf("%+v: the limit is %g A", c, *f.Limit)
			}
		}
	}
}

// AC 43.13-1B (read): by 11-48 no device may be above what the wire carries, by Table
// 11-9 7 A for 16 AWG of 105 degC and 11 A of 150 degC. That is the stricter of the
// document's two answers: its chart, Table 11-3, has a fuse of 10 A and a breaker of
// 15 A for 16 AWG.
func TestAircraftDevices(t *testing.T) {
	const fuse, breaker = "fuse f1 { at shelf; rating %s; covered }", "breaker f1 { at shelf; rating %s; breaks 9 kA; covered }"
	for _, c := range []struct{ insulation, device, rating, want string }{
		{"bc5w2", fuse, "5 A", ""},
		{"bc5w2", fuse, "7.5 A", "error"},
		{"bc5w2", fuse, "10 A", "error"},
		{"bc5w2", breaker, "15 A", "error"},
		{"m22759-16", fuse, "10 A", ""},
		{"m22759-16", breaker, "15 A", "error"},
	} {
		p := post{practice: "ac43", feed: "16 AWG red 0.15 m", insulation: c.insulation, device: fmt.Sprintf(c.device, c.rating)}
		if got := ruled(t, p.text(), "protection/oversized", "f1"); got != c.want {
			t.Errorf("%+v: %q", c, got)
		}
	}
}

// 33 CFR 183.455(b) (read), which land takes over: 5 in of bare wire are allowed, 9
// and 20 in are not, 38 in in a sheath are. In a sheath from a battery a boat has 72 in
// (183.460, from memory).
func TestDistances(t *testing.T) {
	for _, c := range []struct{ length, land, boat string }{
		{"5 in", "", ""},
		{"7 in", "", ""},
		{"9 in", "error", "error"},
		{"20 in", "error", "error"},
		{"38 in { cover loom_pa }", "", ""},
		{"41 in { cover loom_pa }", "error", ""},
		{"73 in { cover loom_pa }", "error", "error"},
	} {
		for practice, want := range map[string]string{"land": c.land, "cfr183": c.boat} {
			text := strings.Replace(post{practice: practice}.text(), "f1.in  6 mm2 red 0.15 m", "f1.in 6 mm2 red "+c.length, 1)
			if got := ruled(t, text, "protection/far", "w1"); got != want {
				t.Errorf("%s, %s: %q", practice, c.length, got)
			}
		}
	}
}

// AC 43.13-1B 11-35 (rule read, product computed): of 60 A, 48 A may be carried
// lastingly, 80 %; just at the limit is allowed. In a hot zone land allows 60 %, 36 A (trade
// judgement, no source).
func TestSteadyLoad(t *testing.T) {
	motor := func(amps string) post {
		return post{
			practice: "ac43", battery: "resistance 2 mohm", feed: "25 mm2 red 0.15 m", device: "fuse f1 { at shelf; rating 60 A; family post; covered }",
			load: "motor lamp { at shelf; draws " + amps + " at 12 V; least 5 V; meant always }",
		}
	}
	for amps, want := range map[string]string{"48 A": "", "48.5 A": "warning", "60 A": "warning", "60.5 A": "error"} {
		if got := ruled(t, motor(amps).text(), "protection/loaded", "f1"); got != want {
			t.Errorf("%s: %q", amps, got)
		}
	}
	for amps, want := range map[string]string{"36 A": "", "36.5 A": "warning"} {
		text := strings.NewReplacer("practice ac43", "practice land", "0..30 degC", "0..60 degC").Replace(motor(amps).text())
		if got := ruled(t, text, "protection/loaded", "f1"); got != want {
			t.Errorf("hot, %s: %q", amps, got)
		}
	}
}

// Gates of ISO 8820-3 type C (from memory): at 160 % a blade may take 50 s, below
// 135 % it need not open; at 200 % it may open after 0.15 s and no sooner.
func TestStallAndStart(t *testing.T) {
	for load, want := range map[string][2]string{
		"draws 4 A at 12 V; stalls 16 A":                        {"", ""},
		"draws 4 A at 12 V; stalls 13 A":                        {"warning", ""},
		"draws 3 A at 12 V":                                     {"", ""}, // six times: 18 A
		"draws 2 A at 12 V":                                     {"warning", ""},
		"draws 4 A at 12 V; starts 20 A for 0.14 s":             {"", ""},
		"draws 4 A at 12 V; starts 20 A for 0.16 s":             {"", "warning"},
		"draws 4 A at 12 V; starts 11 A for 1 min; stalls 20 A": {"", ""},
	} {
		text := post{load: "motor lamp { at shelf; least 5 V; meant always; " + load + " }"}.text()
		if got := ruled(t, text, "protection/stall", "f1"); got != want[0] {
			t.Errorf("%s: stall %q", load, got)
		}
		if got := ruled(t, text, "protection/inrush", "f1"); got != want[1] {
			t.Errorf("%s: inrush %q", load, got)
		}
	}
}

// SAE J553 types (read): I closes again by itself, II when its feed was off, III
// by hand.
func TestResets(t *testing.T) {
	const lamp, motor = "led lamp { at shelf; draws 24 W; least 5 V; meant always }", "motor lamp { at shelf; draws 4 A; least 5 V; meant always }"
	for device, want := range map[string][2]string{
		"":             {"", ""},
		"reset manual": {"", ""},
		"reset power":  {"advice", "advice"},
		"reset auto":   {"warning", "error"},
		"reset auto; note \"a lamp must come back\"": {"", "error"},
		"reset power; note \"the key is beside it\"": {"", ""},
	} {
		for i, load := range []string{lamp, motor} {
			text := post{load: load, device: "breaker f1 { at shelf; rating 10 A; breaks 9 kA; covered; " + device + " }"}.text()
			if got := ruled(t, text, "protection/reset", "f1"); got != want[i] {
				t.Errorf("%s on %s: %q", device, load, got)
			}
		}
	}
}

// fixed applies a finding's fix to its text.
func fixed(run *check.Run, fix *finding.Fix) string {
	text := run.Files[0].Text
	for i := len(fix.Edits) - 1; i >= 0; i-- {
		e := fix.Edits[i]
		text = text[:e.Start] + e.Text + text[e.End:]
	}
	return text
}

// A fix of a protection rule takes its finding away and brings no new one.
func TestProtectionFixes(t *testing.T) {
	seen := 0
	for _, r := range rules.All() {
		if r.Area() == "protection" {
			seen += fixesHold(t, example(r.Bad, r.BadWith))
		}
	}
	under(t, "faulty", func(t *testing.T, run *check.Run) {
		if len(run.Files) == 1 {
			seen += fixesHold(t, run)
		}
	})
	if seen < 10 {
		t.Errorf("only %d fixes", seen)
	}
}

// fixesHold applies each fix of a protection rule by itself, and counts them.
func fixesHold(t *testing.T, run *check.Run) int {
	t.Helper()
	seen := 0
	for _, f := range run.Findings {
		if f.Fix == nil || !strings.HasPrefix(f.Rule, "protection/") {
			continue
		}
		seen++
		if left := example(fixed(run, f.Fix), nil).Findings; len(left) >= len(run.Findings) {
			t.Errorf("%s: %s leaves %d findings of %d: %s [%s]", f.Rule, f.Fix.Title, len(left), len(run.Findings), left[0].Message, left[0].Rule)
		}
	}
	return seen
}

// A wire on the battery's own post, within the length that 33 CFR 183.455(b)
// allows ahead of its fuse, is none that the alternator's fuse would have to
// protect. The alternator's own cable is.
func TestAnAlternatorBeside(t *testing.T) {
	const beside = `supply alternator alt { at shelf; output 80 A; idle 30 A; covered }
protection fuse af { at shelf; rating 100 A; family strip; breaks 2000 A; covered }
wire w4 main.pos -> af.in 25 mm2 red 0.15 m
wire w5 af.out -> alt.pos CABLE red 1 m
wire w6 alt.neg -> main.neg 25 mm2 black 1 m
`
	for cable, want := range map[string][2]string{"25 mm2": {"", ""}, "10 mm2": {"error", ""}} {
		text := post{practice: "land", feed: "2.5 mm2 red 0.15 m", more: strings.Replace(beside, "CABLE", cable, 1)}.text()
		for i, rule := range []string{"protection/oversized", "protection/slow"} {
			if got := ruled(t, text, rule, "af"); got != want[i] {
				t.Errorf("%s, %s: %q", cable, rule, got)
			}
		}
	}
}

// TestLinks: the trade's table gives a 14 AWG link to a 10 AWG wire, four gauge
// numbers (trade practice: read). A link as thick as the wire leaves the wire to
// be the link.
func TestLinks(t *testing.T) {
	for link, want := range map[string]string{"14 AWG": "", "16 AWG": "", "10 AWG": "error"} {
		p := post{feed: "10 AWG red 0.15 m", insulation: "gxl", battery: "resistance 8 mohm", device: "link f1 { at shelf; gauge " + link + "; studs M6; covered }"}
		if got := ruled(t, p.text(), "protection/slow", "f1"); got != want {
			t.Errorf("%s: %q", link, got)
		}
	}
}

// TestNoAmpacityLeft: at an ambient of the insulation's own class note 1 of Table 5
// leaves nothing, and the finding says so instead of an endless share.
func TestNoAmpacityLeft(t *testing.T) {
	text := strings.Replace(post{insulation: "gpt"}.text(), "0..30 degC", "0..80 degC", 1)
	said := false
	for _, f := range example(text, nil).Findings {
		for _, figure := range f.Figures {
			if strings.Contains(figure, "Inf") {
				t.Errorf("%s: %s", f.Rule, figure)
			}
		}
		said = said || f.Rule == "protection/oversized"
	}
	if !said {
		t.Error("protection/oversized is not said")
	}
}
