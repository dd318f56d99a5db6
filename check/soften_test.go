package check_test

import (
	"strings"
	"testing"

	"hame/check"
	"hame/lang/finding"
	"hame/lang/source"
)

// old is a machine whose own fuse feeds its own outlet, and room for new work.
func old(outletA, more string) string {
	return `harness old { system 12 V; practice land; wire gxl; slack 100 mm }
zone  dry   { ambient 0..40 degC }
place shelf in dry
supply battery main { at shelf; capacity 70 Ah; resistance 20 mohm; post M8; covered; existing }
protection fuse fx  { at shelf; rating 20 A; covered; existing }
load outlet ox      { at shelf; rating ` + outletA + `; meant always; existing }
wire w1 main.pos -> fx.in    4 mm2 red   0.15 m { existing }
wire w2 fx.out   -> ox.pos   4 mm2 red   1 m    { existing }
wire w3 ox.neg   -> main.neg 4 mm2 black 1 m    { existing }
mode used { for 10 min }
` + more
}

const newOutlet = `load outlet extra { at shelf; rating 5 A; meant always }
wire n1 fx.out    -> extra.pos 4 mm2 red   1 m
wire n2 extra.neg -> main.neg  4 mm2 black 1 m
`

// TestSoften: a fault of the machine's own is advice, unless new work causes
// it or makes it worse; then it keeps its severity and names the new item
// (language: meaning, existing).
func TestSoften(t *testing.T) {
	for name, c := range map[string]struct {
		text     string
		severity finding.Severity
		says     string
	}{
		"its own":  {old("17 A", ""), finding.Advice, "without the new items too"},
		"worsened": {old("17 A", newOutlet), finding.Error, "make it worse: extra"},
		"caused":   {old("12 A", newOutlet), finding.Warning, "sound without the new items: extra"},
	} {
		run := check.File(source.New("t.hame", c.text), check.Options{})
		found := false
		for _, f := range run.Findings {
			if f.Rule != "protection/loaded" || f.Subject != "fx" {
				continue
			}
			found = true
			if f.Severity != c.severity || !strings.Contains(strings.Join(f.Figures, "\n"), c.says) {
				t.Errorf("%s: %s, %q", name, f.Severity, f.Figures)
			}
		}
		if !found {
			t.Errorf("%s: not found among %v", name, texts(run))
		}
	}
}
