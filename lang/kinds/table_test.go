package kinds

import (
	"slices"
	"strings"
	"testing"

	"hame/lang/source"
	"hame/lang/syntax"
)

// TestTableIsWhole: every row is described and every default fits its own form.
func TestTableIsWhole(t *testing.T) {
	for _, k := range All() {
		if k.Doc == "" {
			t.Errorf("%s has no description", k.Title())
		}
		if k.Family != "" && k.TerminalDoc == "" {
			t.Errorf("%s does not say its terminals", k.Title())
		}
		names := k.SettingNames()
		if len(slices.Compact(slices.Clone(names))) != len(names) {
			t.Errorf("%s has a setting twice: %v", k.Title(), names)
		}
		for _, s := range k.Settings {
			testSetting(t, k, s)
		}
	}
}

func testSetting(t *testing.T, k *Kind, s *Setting) {
	if s.Doc == "" {
		t.Errorf("%s: `%s` has no description", k.Title(), s.Name)
	}
	if len(s.forms) != len(s.Forms) {
		t.Errorf("%s: `%s` has %d forms and %d were read", k.Title(), s.Name, len(s.Forms), len(s.forms))
	}
	if s.Instead != "" {
		if _, ok := k.Setting(s.Instead); !ok {
			t.Errorf("%s: `%s` may be replaced by `%s`, which is no setting", k.Title(), s.Name, s.Instead)
		}
	}
	for _, name := range s.Over {
		if !slices.ContainsFunc(All(), func(k *Kind) bool { _, ok := k.Setting(name); return ok }) {
			t.Errorf("%s: `%s` replaces `%s`, which is no setting of any kind", k.Title(), s.Name, name)
		}
	}
	if s.Default.Of != "" && s.Default.Of != "system" {
		if _, ok := k.Setting(s.Default.Of); !ok {
			t.Errorf("%s: the default of `%s` hangs on `%s`, which is no setting", k.Title(), s.Name, s.Default.Of)
		}
	}
	if s.Default.Text != "" {
		if _, wrong := s.Match(setting(t, s.Name+" "+s.Default.Text)); wrong != nil {
			t.Errorf("%s: the default `%s %s` does not fit: %s", k.Title(), s.Name, s.Default.Text, wrong.Message)
		}
	}
}

// setting reads one setting as it would stand in a block.
func setting(t *testing.T, text string) *syntax.Setting {
	t.Helper()
	f := syntax.Parse(source.New("t.hame", "zone z { "+text+" }\n"))
	if len(f.Mistakes) > 0 || len(f.Decls) != 1 || len(f.Decls[0].Header().Block.Settings) != 1 {
		t.Fatalf("%q: %v", text, f.Mistakes)
	}
	return f.Decls[0].Header().Block.Settings[0]
}

// TestFamilies: the kinds of the language's own table, family by family.
func TestFamilies(t *testing.T) {
	want := map[Family]string{
		Supply:     "battery alternator converter tap",
		Protection: "fuse breaker link panel",
		Switch:     "toggle push isolator key relay diode",
		Load:       "led bulb heater motor starter outlet module solenoid",
		Join:       "splice stud bus connector",
		Ground:     "chassis stud bus",
	}
	for f, kinds := range want {
		var got []string
		for _, k := range Of(f) {
			got = append(got, k.Name)
		}
		if strings.Join(got, " ") != kinds {
			t.Errorf("%s has %v, want %s", f, got, kinds)
		}
	}
}

func TestMatch(t *testing.T) {
	for _, c := range []struct {
		family   Family
		kind     string
		text     string
		rule     string // "" where it fits
		mentions string
	}{
		{Load, "led", "draws 27 W", "", ""},
		{Load, "led", "draws 7.5 A at 12 V", "", ""},
		{Load, "led", "draws 27 V", "unit/wrong", "a voltage"},
		{Load, "led", "draws 27", "unit/wrong", "no unit"},
		{Load, "led", "draws 27 Watt", "unit/wrong", "27 Watt"},
		{Load, "led", "draws", "text/syntax", "wants"},
		{Load, "led", "draws 0 W", "value/range", "zero"},
		{Load, "led", "draws -2 W", "value/range", "below zero"},
		{Load, "led", "draws 27 W at 12 A", "unit/wrong", "a current"},
		{Load, "led", "draws 27 W 3 A", "text/syntax", "expected `at`"},
		{Load, "led", "sealed IP67 IP68", "text/syntax", "too much"},
		{Load, "led", "polarity strickt", "value/range", "did you mean `strict`"},
		{Load, "led", "lead 18 AWG", "", ""},
		{Switch, "toggle", "lead 1.5 mm2", "", ""},
		{Protection, "fuse", "lead 1.5 A", "unit/wrong", "a current"},
		{Join, "bus", "size M5", "", ""},
		{Load, "led", "meant always", "", ""},
		{Load, "led", "meant sometimes", "text/syntax", "`always`"},
		{Load, "led", "critical", "", ""},
		{Load, "led", "critical 3", "text/syntax", "takes no value"},
		{Load, "led", "sealed IP67", "", ""},
		{Load, "led", "sealed IP6K9K", "", ""},
		{Load, "led", "sealed 67", "value/range", "IP67"},
		{Load, "led", "label hello", "text/syntax", "text in quotes"},
		{Load, "motor", "starts 22 A for 0.3 s", "", ""},
		{Load, "motor", "starts 22 A", "text/syntax", "`for`"},
		{Load, "led", "fuse most 10 A", "", ""},
		{Supply, "tap", "behind fuse 15 A at cowl", "", ""},
		{Supply, "tap", "live acc, on", "", ""},
		{Supply, "tap", "live acc, lately", "value/range", "lately"},
		{Supply, "battery", "post M8", "", ""},
		{Supply, "battery", "post taper", "", ""},
		{Supply, "battery", "post 5/16 in", "", ""},
		{Supply, "battery", "post M9", "value/range", "M9"},
		{Protection, "panel", `way 1 fuse 10 A "front lamps"`, "", ""},
		{Protection, "panel", "way 4 spare", "", ""},
		{Protection, "panel", "way fuse 10 A", "text/syntax", "whole number"},
		{Protection, "panel", "feed stud M6", "", ""},
		{Protection, "panel", "tabs 6.3", "", ""},
		{Protection, "panel", "tabs 6.3 mm", "", ""},
		{Join, "splice", "takes 0.5 mm2..2.5 mm2", "", ""},
		{Join, "splice", "takes 22 AWG..16 AWG", "", ""},
		{Join, "splice", "takes 2.5 mm2..0.5 mm2", "value/range", "downwards"},
		{Switch, "relay", "coil 96 ohm", "", ""},
		{Switch, "relay", "coil 140 mA", "", ""},
		{Switch, "relay", "tabs 9.5 coil 6.3", "", ""},
		{Switch, "relay", "tabs 9.5 coil", "text/syntax", "wants"},
		{"", "zone", "ambient -20..85 degC", "", ""},
		{"", "zone", "exposure oil, splash", "", ""},
		{"", "bundle", "through bulkhead grommet 20 mm", "", ""},
		{"", "bundle", "through none", "", ""},
		{"", "bundle", "cover loom_pa 13 rated 105 degC", "", ""},
		{"", "bundle", "cover lom_pa", "value/range", "did you mean `loom_pa`"},
		{"", "wire", "ends ring M8, tab 6.3 female", "", ""},
		{"", "wire", "ends ring M7, pin", "value/range", "a stud `M7`"},
		{"", "wire", "ends rign M8, pin", "value/range", "not `rign`"},
		{"", "wire", "slack -1 mm", "value/range", "below zero"},
		{"", "bundle", "clamp every -1 m", "value/range", "a length above zero"},
		{"", "zone", "ambient -20 to 50 degC", "unit/wrong", "two points"},
		{"", "mode", "charge 110 %", "value/range", "at most 100 %"},
		{"", "harness", "system 48 V", "", ""},
		{"", "harness", "system 400 V", "value/range", "at most 60 V"},
		{"", "harness", "system 0 V", "value/range", "above zero"},
		{Supply, "converter", "efficiency 150 %", "value/range", "at most 100 %"},
		{Supply, "converter", "efficiency 0 %", "value/range", "above zero"},
		{"", "mode", "charge 80 %", "", ""},
	} {
		k := Find(c.family, c.kind)
		in := setting(t, c.text)
		row, ok := k.Setting(in.Key.Text)
		if !ok {
			t.Errorf("%s has no `%s`", k.Title(), in.Key.Text)
			continue
		}
		_, wrong := row.Match(in)
		switch {
		case wrong == nil && c.rule != "":
			t.Errorf("%q fits, want %s", c.text, c.rule)
		case wrong != nil && (wrong.Rule != c.rule || !strings.Contains(wrong.Message, c.mentions)):
			t.Errorf("%q: %s %q, want %s with %q", c.text, wrong.Rule, wrong.Message, c.rule, c.mentions)
		}
	}
}

func TestArgs(t *testing.T) {
	row, _ := Find(Protection, "panel").Setting("way")
	a, wrong := row.Match(setting(t, `way 2 fuse 15 A "sap pump"`))
	if wrong != nil {
		t.Fatal(wrong.Message)
	}
	amps, _ := a.SI("")
	if a.RepeatKey() != "2" || a.Word("device") != "fuse" || amps != 15 || a.Word("label") != "sap pump" {
		t.Errorf("way 2 reads as %q %q %g %q", a.RepeatKey(), a.Word("device"), amps, a.Word("label"))
	}
	if usage := row.Usage(); !strings.Contains(usage, `way NUMBER fuse|breaker A ["TEXT"]`) {
		t.Errorf("usage %q", usage)
	}
}

func TestNearest(t *testing.T) {
	for word, want := range map[string]string{
		"rateing": "rating", "RATING": "rating", "volt": "volts", "zzz": "", "rating": "rating",
		"glx": "gxl", "ratnig": "rating", "rde": "red", "re": "red", "q": "", "s": "", "bed": "", "limti": "limit", "boks": "box", "koks": "",
	} {
		if got := Nearest(word, []string{"a", "f", "rating", "volts", "limit", "gxl", "red", "sxl", "box"}); got != want {
			t.Errorf("Nearest(%q) = %q, want %q", word, got, want)
		}
	}
}
