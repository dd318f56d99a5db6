package harness_test

import (
	"fmt"
	"io/fs"
	"math"
	"strings"
	"testing"

	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

const yard = `harness yard { system 24 V; slack 100 mm; wire gxl }
zone  dry { ambient 0..40 degC }
zone  hot { ambient 0..90 degC }
place a, b, c, d in dry
place e in hot
bundle ab a -> b 1 m
bundle bc b -> c 1 m
bundle ac a -> c 3 m   { cover loom_pa }
bundle ce c -> e 0.5 m { zone hot; cover braid }
`

// bind binds a text that must have no findings but unused names.
func bind(t *testing.T, text string) *harness.Harness {
	t.Helper()
	r := bound(text, nil)
	for _, f := range r.Findings {
		if f.Rule != "name/unused" {
			t.Fatalf("%s [%s]", f.Message, f.Rule)
		}
	}
	return r.Harness
}

func bound(text string, with map[string]string) harness.Result {
	read := func(name string) (string, error) {
		if lib, ok := with[name]; ok {
			return lib, nil
		}
		return "", fs.ErrNotExist
	}
	return harness.Bind(syntax.Parse(source.New("t.hame", text)), harness.Options{Read: read})
}

func wire(t *testing.T, h *harness.Harness, name string) *harness.Wire {
	t.Helper()
	for _, w := range h.Wires {
		if w.Name == name {
			return w
		}
	}
	t.Fatalf("no wire %s", name)
	return nil
}

func TestRoutes(t *testing.T) {
	h := bind(t, yard+`
ground stud ga { at a; size M6 }
ground stud gc { at c; size M8 }
ground stud ge { at e; size M8 }
ground stud gf { at a; size M8 }
ground bus  gn { size M4 }
wire short ga -> gc 2.5 mm2 black
wire named ga -> gc 2.5 mm2 black { via ac }
wire loose ga -> ge 2.5 mm2 black { slack 50 mm }
wire given ga -> ge 2.5 mm2 black 4.2 m
wire lost  ga -> gn 2.5 mm2 black 1 m
wire same  ga -> gf 2.5 mm2 black
wire spare ga -> capped 2.5 mm2 black { via ab, bc }
`)
	for name, want := range map[string]struct {
		route   string
		lengthM float64
	}{
		"short": {"ab bc", 2.2},
		"named": {"ac", 3.2},
		"loose": {"ab bc ce", 2.6},
		"given": {"ab bc ce", 4.2},
		"lost":  {"", 1},
		"same":  {"", 0.2},
		"spare": {"ab bc", 2.2},
	} {
		w := wire(t, h, name)
		var route []string
		for _, b := range w.Route {
			route = append(route, b.Name)
		}
		if got := strings.Join(route, " "); got != want.route || math.Abs(w.LengthM-want.lengthM) > 1e-12 || !w.HasLength {
			t.Errorf("%s: route %q, %g m; want %q, %g m", name, got, w.LengthM, want.route, want.lengthM)
		}
	}
	if n := len(wire(t, h, "loose").Zones()); n != 2 {
		t.Errorf("loose runs through %d zones, want 2", n)
	}
	if h.SystemV != 24 {
		t.Errorf("system %g V", h.SystemV)
	}
}

// TestBundleDiameter: seven equal wires lie in three diameters, one in the
// middle (geometry).
func TestBundleDiameter(t *testing.T) {
	text := yard + "ground stud ga { at a; size M6 }\nground stud gb { at b; size M6 }\n"
	for i := range 7 {
		text += fmt.Sprintf("wire w%d ga -> gb 2.5 mm2 black\n", i)
	}
	h := bind(t, text)
	od, ok := h.Wires[0].OutsideDiameterMM()
	if !ok || len(h.Bundles[0].Members) != 7 || math.Abs(h.Bundles[0].DiameterMM-3*od) > 1e-9 {
		t.Errorf("7 wires of %g mm make %g mm", od, h.Bundles[0].DiameterMM)
	}
}

func TestHardware(t *testing.T) {
	h := bind(t, yard+`
supply battery main { at a; capacity 70 Ah; post M8 }
protection panel aux { at a; limit 40 A; feed stud M6; tabs 6.3; way 1 fuse 10 A }
join connector x1 { at a; ways 2 }
join splice s1 { at a }
load led lamp { at a; draws 5 W }
wire w1 main.pos -> aux.feed 6 mm2 red
wire w2 aux.1 -> x1.female.1 2.5 mm2 red
wire w3 x1.male.1 -> s1 2.5 mm2 red
wire w4 s1 -> lamp.pos 2.5 mm2 red { ends butt, bullet 4 male }
wire w5 lamp.neg -> capped 2.5 mm2 black
`)
	for name, want := range map[string][2]string{
		"w1": {"ring M8", "ring M6"},
		"w2": {"tab 6.3 female", "socket"},
		"w3": {"pin", "butt"},
		"w4": {"butt", "bullet 4 male"},
		"w5": {"", "cap"},
	} {
		w := wire(t, h, name)
		if got := [2]string{w.Ends[0].Hardware, w.Ends[1].Hardware}; got != want {
			t.Errorf("%s ends in %q, want %q", name, got, want)
		}
	}
}

// TestLandings: what each kind says that it offers is what is crimped; with a lead
// and no more it is a butt connector (common practice, no source). A part's tabs
// give way to a lead or studs of the device's own.
func TestLandings(t *testing.T) {
	for text, want := range map[string]string{
		"load led dev { at a; draws 5 W; lead 1 mm2 }":                                       "butt",
		"load led dev { at a; draws 5 W; lead 1 mm2; tabs 4.8 }":                             "tab 4.8 female",
		"load led dev { at a; draws 5 W; lead 1 mm2; studs M5 }":                             "ring M5",
		"load led dev { at a; draws 5 W }":                                                   "",
		"part p is load led { draws 5 W; tabs 6.3 }\nload p dev { at a; lead 18 AWG }":       "butt",
		"part p is load led { draws 5 W; tabs 6.3 }\nload p dev { at a; studs M4 }":          "ring M4",
		"part p is load led { draws 5 W; lead 1 mm2 }\nload p dev { at a; tabs 6.3 }":        "tab 6.3 female",
		"part p is load led { draws 5 W; lead 1 mm2 }\nload p dev { at a; label \"l\" }":     "butt",
		"supply tap dev { at a; behind fuse 5 A; carries 1 A; live on; lead 1.5 mm2 }":       "butt",
		"supply converter dev { at a; gives 5 V; output 3 A; lead 1.5 mm2 }":                 "butt",
		"supply alternator dev { at a; output 60 A; studs M8 }":                              "ring M8",
		"protection fuse dev { at a; rating 10 A; lead 2.5 mm2 }":                            "butt",
		"protection fuse dev { at a; rating 60 A; family post }":                             "ring M8",
		"protection fuse dev { at a; rating 60 A; family strip }":                            "",
		"protection fuse dev { at a; rating 200 A; family strip; studs M5 }":                 "ring M5",
		"protection fuse dev { at a; rating 225 A; family strip; studs M5 }":                 "", // made for M8 alone
		"protection breaker dev { at a; rating 10 A; lead 2.5 mm2 }":                         "butt",
		"protection link dev { at a; gauge 1 mm2 }":                                          "butt",
		"protection link dev { at a; gauge 1 mm2; studs M6 }":                                "ring M6",
		"protection panel dev { at a; limit 40 A; feed stud M6; studs M4; way 1 fuse 10 A }": "ring M6",
		"switch toggle dev { at a; rating 10 A; lead 1.5 mm2 }":                              "butt",
		"switch key dev { at a; rating 10 A; lead 1.5 mm2 }":                                 "butt",
		"switch relay dev { at a; contacts 20 A; coil 90 ohm; lead 1.5 mm2 }":                "butt",
		"switch diode dev { at a; rating 10 A; lead 1.5 mm2 }":                               "butt",
		"join bus dev { at a; size M5 }":                                                     "ring M5",
		"ground bus dev { at a; size no8 }":                                                  "ring no8",
	} {
		h := bind(t, yard+text+"\n")
		if got := h.Devices[0].Terminals[0].Fitting.Hardware(); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
	relay := bind(t, yard+"switch relay k { at a; contacts 200 A; coil 80 ohm; studs M8; tabs 6.3; form change }\n").Devices[0]
	for name, want := range map[string]string{"30": "ring M8", "87": "ring M8", "87a": "ring M8", "85": "tab 6.3 female", "86": "tab 6.3 female"} {
		if got := relay.Terminal(name).Fitting.Hardware(); got != want {
			t.Errorf("a contactor's %s takes %q, want %q", name, got, want)
		}
	}
	power := bind(t, yard+"switch relay k { at a; contacts 80 A; coil 80 ohm; tabs 9.5 coil 6.3 }\n").Devices[0]
	for name, want := range map[string]string{"30": "tab 9.5 female", "87": "tab 9.5 female", "85": "tab 6.3 female", "86": "tab 6.3 female"} {
		if got := power.Terminal(name).Fitting.Hardware(); got != want {
			t.Errorf("a power relay's %s takes %q, want %q", name, got, want)
		}
	}
	way := bind(t, yard+"protection panel dev { at a; limit 40 A; studs M4; way 1 fuse 10 A }\n").Devices[0].Terminal("1")
	if got := way.Fitting.Hardware(); got != "ring M4" {
		t.Errorf("a panel's way with studs takes %q", got)
	}
}

// TestTerminals: every kind's terminals as the language lists them.
func TestTerminals(t *testing.T) {
	for decl, want := range map[string]string{
		"supply battery x { capacity 1 Ah }":                                        "x.pos x.neg",
		"supply converter x { gives 12 V; output 5 A }":                             "x.in x.out x.neg",
		"supply tap x { behind fuse 5 A; carries 1 A; live on }":                    "x.out",
		"protection panel x { limit 9 A; way 1 fuse 5 A; way 3 spare }":             "x.feed x.1 x.3",
		"switch toggle x { rating 5 A }":                                            "x.in x.out",
		"switch toggle x { rating 5 A; throws 2 }":                                  "x.in x.out1 x.out2",
		"switch toggle x { rating 5 A; poles 2 }":                                   "x.1.in x.1.out x.2.in x.2.out",
		"switch push x { rating 5 A; poles 2; throws 2 }":                           "x.1.in x.1.out1 x.1.out2 x.2.in x.2.out1 x.2.out2",
		"switch key x { rating 5 A }":                                               "x.in x.acc x.ign x.start",
		"switch relay x { contacts 5 A; coil 96 ohm }":                              "x.30 x.87 x.85 x.86",
		"switch relay x { contacts 5 A; coil 96 ohm; form change }":                 "x.30 x.87 x.85 x.86 x.87a",
		"switch diode x { rating 5 A }":                                             "x.anode x.cathode",
		"load bulb x { input low 55 W; input high 60 W }":                           "x.low x.high x.neg",
		"load led x { draws 5 W }":                                                  "x.pos x.neg",
		"join splice x":                                                             "x",
		"join connector x { ways 2 }":                                               "x.female.1 x.female.2 x.male.1 x.male.2",
		"join connector x { ways 1; half male }":                                    "x.male.1",
		"ground chassis x":                                                          "x",
		"part p is load bulb { input low 5 W }; load p x { input high 60 W }":       "x.low x.high x.neg",
		"part p is switch toggle { throws 2; rating 3 A }; switch p x { throws 3 }": "x.in x.out1 x.out2 x.out3",
	} {
		h := bind(t, "harness h { system 12 V }\n"+decl+"\n")
		var names []string
		for _, terminal := range h.Devices[0].Terminals {
			names = append(names, terminal.FullName())
		}
		if got := strings.Join(names, " "); got != want {
			t.Errorf("%s: %s, want %s", decl, got, want)
		}
	}
}

// TestDefaults: defaults as the language states them, in SI.
func TestDefaults(t *testing.T) {
	h := bind(t, `harness h { system 24 V }
supply battery b { capacity 100 Ah }
supply alternator a { output 80 A }
switch relay k { contacts 5 A; coil 300 ohm }
load led l { draws 5 W }
part p is load led { draws 5 W; least 18 V }
load p q { least 20 V }
`)
	for _, c := range []struct {
		device, setting string
		want            float64
	}{
		{"b", "volts", 24},
		{"b", "accepts", 20},
		{"b", "sags", 16},
		{"a", "volts", 28.32},
		{"k", "pulls", 15.6},
		{"k", "releases", 2.4},
		{"l", "most", 32},
		{"q", "least", 20},
	} {
		for _, d := range h.Devices {
			if d.Name != c.device {
				continue
			}
			if got, ok := d.SI(c.setting); !ok || math.Abs(got-c.want) > 1e-9 {
				t.Errorf("%s.%s = %g, %t; want %g", c.device, c.setting, got, ok, c.want)
			}
		}
	}
	if len(h.Modes) != 2 || h.Modes[0].Name != "all_on" || h.Modes[1].Key != "off" {
		t.Errorf("implied modes: %v", h.Modes)
	}
}

// TestExistingOnly leaves new items out without a word.
func TestExistingOnly(t *testing.T) {
	f := syntax.Parse(source.New("t.hame", yard+`
supply battery bat { at a; capacity 1 Ah; existing }
load led l { at a; draws 5 W }
wire w1 bat.pos -> l.pos 1 mm2
wire w2 bat.pos -> bat.neg 1 mm2 { existing }
wire w3 bat.pos -> l.pos 1 mm2 { existing }
mode m { closed nothing }
`))
	r := harness.Bind(f, harness.Options{ExistingOnly: true})
	if len(r.Harness.Devices) != 1 || len(r.Harness.Wires) != 2 {
		t.Errorf("%d devices, %d wires", len(r.Harness.Devices), len(r.Harness.Wires))
	}
}

// FuzzBind: binding never panics and puts every finding inside its text.
func FuzzBind(f *testing.F) {
	f.Add(yard + "ground stud g { at a }\nwire w g -> capped 1 mm2 { via ab, bc }\nmode m { key on }\n")
	f.Add("part a is load b\npart b is load a\nuse \"t.hame\"\n")
	f.Add("harness h { practice land { drop critical 2 % } }\nrequire x.y volts < 3 V\n")
	f.Fuzz(func(t *testing.T, text string) {
		r := bound(text, map[string]string{"t.hame": text})
		for _, x := range r.Findings {
			if x.At.File == nil || x.At.Start < 0 || x.At.End > len(x.At.File.Text) || x.At.Start > x.At.End {
				t.Fatalf("%s lies at %v", x.Rule, x.At.Span)
			}
		}
	})
}

// TestScatteredSettings: the times of a setting belong together wherever they
// stand, and one that comes again is found among many.
func TestScatteredSettings(t *testing.T) {
	var b strings.Builder
	b.WriteString("harness h { system 12 V }\nprotection panel p {\n  way 1 fuse 5 A\n  limit 80 A\n")
	for i := 2; i <= 50; i++ {
		fmt.Fprintf(&b, "  way %d fuse %d A\n", i, []int{5, 10}[i%2])
	}
	b.WriteString("  each 20 A\n  way 51 spare\n")
	h := bind(t, b.String()+"}\n")
	ways := h.Devices[0].Given("way")
	if len(ways) != 51 || ways[0].Word("way") != "1" || ways[50].Word("device") != "spare" || !h.Devices[0].Has("each") || len(h.Devices[0].Given("limit")) != 1 {
		t.Errorf("%d ways: %v", len(ways), ways)
	}
	for _, again := range []string{"1", "49", "51"} {
		r := bound(b.String()+"  way "+again+" spare\n}\n", nil)
		if len(r.Findings) != 1 || r.Findings[0].Rule != "setting/repeated" || !strings.Contains(r.Findings[0].Message, "way "+again+"`") {
			t.Errorf("way %s again: %v", again, r.Findings)
		}
	}
}
