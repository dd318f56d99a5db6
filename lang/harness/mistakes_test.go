package harness_test

import (
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"testing"

	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
	"hame/lang/wanted"
)

// TestMistakes: each mistake is one finding, on its line, and none follows
// from another.
func TestMistakes(t *testing.T) {
	for _, text := range []string{
		"harness h { system 12 V }\nharness i  # want name/duplicate\n",
		"harness h { system 12 V }\nplace p in nowhere  # want name/unknown\n",
		"harness h { system 12 V }\nzone z\nplace p in z\nbundle b p -> p 1 m  # want value/range \"joins two places\"\n",
		"harness h { system 12 V }\npart p is load led { draws 5 W }\npart q is load p\nswitch q x  # want kind/unknown \"a switch is declared\"\n",
		"harness h { system 12 V }\npart p is load q  # want kind/unknown \"of itself\"\npart q is load p\nload p x\n",
		"harness h { system 12 V }\njoin connector x { ways 2; way 3 \"brake\" }  # want value/range \"above the 2 ways\"\n",
		"harness h { system 12 V }\nswitch relay k { contacts 5 A; coil 96 ohm }\nmode m { closed k }  # want value/range \"it follows its coil\"\n",
		"harness h { system 12 V }\nswitch toggle s { rating 5 A; throws 2 }\nmode m { closed s }  # want value/range \"say which\"\n",
		"harness h { system 12 V }\nswitch toggle s { rating 5 A; throws 2 }\nmode m { throw s 3 }  # want value/range \"cannot stand on 3\"\n",
		"harness h { system 12 V }\nground chassis f\nground stud g { to f }\nground stud k { to g }  # want name/unknown \"ground chassis\"\n",
		"harness h { system 12 V }\nload led l { draws 5 W }\nwire w l -> l.neg 1 mm2  # want terminal/unknown \"say which\"\n",
		"harness h { system 12 V }\nload led l { draws 5 W }\nrequire l volts > 5 V in m  # want name/unknown\n",
		"harness h { system 12 V }\nload led l { draws 5 W }\nallow wire/hot on m because \"x\"  # want name/unknown\n",
		"harness h { system 12 V }\nload led l { draws 5 W }\nallow wire/hot on l because \" \"  # want value/range \"reason\"\n",
		"harness h { system 0 V }  # want value/range \"above zero\"\n",
		"harness h { system 12 V }\nload led l { draws 5 W }\nallow wire/hot on l because \"x\" until 2027-13-31  # want value/range \"no day\"\n",
		"harness h { system 12 V }\nload led l { draws 5 W }\nallow wire/hot on l because \"x\" until 2027-02-30  # want value/range \"no day\"\n",
		"harness h { system 12 V }\nground chassis f\nrequire f volts > 3 V  # want value/range \"a relay's coil\"\n",
		"harness h { system 12 V }\nload led l { draws 5 W }\nrequire l warmth < 60 degC  # want value/range \"required of a wire\"\n",
		"harness h { system 12 V }\nload led l { draws 5 W; least 18 V; most 9 V }  # want value/range \"above `least`\"\n",
		"harness h { system 12 V }\nswitch relay k { contacts 5 A; coil 96 ohm; pulls 5 V; releases 8 V }  # want value/range \"above `releases`\"\n",
		"harness h { system 12 V }\nload led l { draws 5 W }\nwire w l.pos -> l.pos 1 mm2 1 m  # want value/range \"joins two terminals\"\n",
		"harness h { system 12 V }\nwire w capped -> capped 1 mm2  # want value/range \"both ends\"\n",
		"harness h { system 12 V }\npart p is load bulb { input low 55 W }\nload p l { draws 5 W }  # want setting/repeated \"a second time\"\n",
		"harness h { system 12 V }\npart p is load bulb { draws 55 W }\nload p l { input low 5 W }\n",
		"harness h { system 12 V }\nload led capped { draws 5 W }\nwire w capped.pos -> capped 1 mm2 1 m  # want name/duplicate \"which is meant\"\nwire v capped.neg -> capped 1 mm2 1 m\n",
		"harness h { system 12 V }\nload battery x  # want kind/unknown \"a kind of supply\"\n",
		"harness h { system 12 V }\nload led l { draws 5 W }\nwire w l.pos -> l.neg 2.5 V  # want unit/wrong \"expected a gauge\"\nwire v l.pos -> l.neg 1 mm2 10 A  # want unit/wrong \"expected a length\"\n",
		"harness h { system 12 V }\nzone z\nplace p, q in z\nbundle b p -> q 1 V { existing }  # want unit/wrong \"expected a length\" name/unused\n",
		"harness h { system 12 V }\nplace a, b in z  # want name/unknown\nplace c in z\n",
		"harness h { system 12 V }\nswitch toggle s { rating 5 A }\nmode m { throw s 2 }  # want value/range \"has one throw,\"\n",
		"harness h { system 12 V }\npart p is protection fuse { rating 11 A }  # want value/range \"11 A\"\nprotection p a\nprotection p b\n",
		"supply battery b { capacity 5 Ah }  # want text/syntax \"no `harness` declaration\"\n",
	} {
		r := bound(text, nil)
		for _, f := range r.Files {
			wanted.Check(t, f.Source, r.Findings)
		}
	}
}

func TestUses(t *testing.T) {
	with := map[string]string{
		"parts/a.hame": "use \"b.hame\"\npart pa is load pb { least 9 V }\n",
		"parts/b.hame": "part pb is load led { draws 7 W }\n",
	}
	r := bound("harness h { system 12 V }\nuse \"parts/a.hame\"\nuse \"hame:lamps\"\nload pa x\n", with)
	if len(r.Findings) > 0 {
		t.Fatalf("%v", r.Findings)
	}
	if len(r.Files) != 4 || len(r.Harness.Devices) != 1 {
		t.Errorf("%d files, %d devices", len(r.Files), len(r.Harness.Devices))
	}
	for _, path := range []string{"../x.hame", "/etc/passwd", "a/../../x.hame", `..\x.hame`, "C:x"} {
		r := bound("harness h { system 12 V }\nuse \""+strings.ReplaceAll(path, `\`, `\\`)+"\"\n", with)
		if len(r.Findings) != 1 || r.Findings[0].Rule != "use/outside" {
			t.Errorf("use %q: %v", path, r.Findings)
		}
	}
}

// TestPartDepth: a part may be of a part, eight deep. A longer chain is said
// once, however many parts and devices hang on it.
func TestPartDepth(t *testing.T) {
	for deep, want := range map[int]int{8: 0, 9: 1, 100: 1} {
		text := "harness h { system 12 V }\npart p1 is load led { draws 5 W }\n"
		for i := 2; i <= deep; i++ {
			text += fmt.Sprintf("part p%d is load p%d\n", i, i-1)
		}
		r := bound(text+fmt.Sprintf("load p%d x\nload p%d y\n", deep, deep), nil)
		if len(r.Findings) != want {
			t.Errorf("%d deep: %v", deep, r.Findings)
		}
	}
}

// TestUseSaysWhy: what stands in a library's place is said as what it is.
func TestUseSaysWhy(t *testing.T) {
	read := func(name string) (string, error) {
		switch name {
		case "folder.hame":
			return "", fs.ErrInvalid
		case "whole.hame":
			return "harness other { system 12 V }\n", nil
		case "secret.hame":
			return "", fs.ErrPermission
		}
		return "", fs.ErrNotExist
	}
	for path, want := range map[string][2]string{
		"":            {"use/missing", "none between the quotes"},
		"folder.hame": {"use/missing", "a plain file"},
		"gone.hame":   {"use/missing", "no library"},
		"secret.hame": {"use/outside", "leads out"},
		"whole.hame":  {"text/syntax", "a harness of its own"},
	} {
		r := harness.Bind(syntax.Parse(source.New("t.hame", "harness h { system 12 V }\nuse \""+path+"\"\n")), harness.Options{Read: read})
		if len(r.Findings) != 1 || r.Findings[0].Rule != want[0] || !strings.Contains(r.Findings[0].Message, want[1]) {
			t.Errorf("use %q: %v, want %v", path, r.Findings, want)
		}
	}
}

// TestPartsOfLostLibraries: where a library is missing so are its parts, however
// much they are named like a kind. What is a kind of another family is no part.
func TestPartsOfLostLibraries(t *testing.T) {
	for _, c := range []struct {
		use, kind string
		want      []string
	}{
		{"gone.hame", "work_lamp", []string{"use/missing"}},
		{"gone.hame", "led2", []string{"use/missing"}},
		{"hame:lampz", "leds", []string{"use/missing"}},
		{"gone.hame", "battery", []string{"use/missing", "kind/unknown"}},
		{"here.hame", "leds", []string{"kind/unknown"}},
	} {
		text := "harness h { system 12 V }\nuse \"" + c.use + "\"\nload " + c.kind + " l1\n"
		var got []string
		for _, f := range bound(text, map[string]string{"here.hame": ""}).Findings {
			got = append(got, f.Rule)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("use %q, load %s: %v, want %v", c.use, c.kind, got, c.want)
		}
	}
}

// TestTooManyLibraries: of the two bounds, the one that was reached is said.
func TestTooManyLibraries(t *testing.T) {
	chain, many, wide := map[string]string{}, map[string]string{}, "harness h { system 12 V }\n"
	for i := range 70 {
		chain[fmt.Sprintf("l%d.hame", i)] = fmt.Sprintf("use \"l%d.hame\"\n", i+1)
		many[fmt.Sprintf("l%d.hame", i)] = ""
		wide += fmt.Sprintf("use \"l%d.hame\"\n", i)
	}
	deep := bound("harness h { system 12 V }\nuse \"l0.hame\"\n", chain).Findings
	if len(deep) != 1 || !strings.Contains(deep[0].Message, "8 deep") {
		t.Errorf("a chain: %v", deep)
	}
	all := bound(wide, many).Findings
	if len(all) != 70-64 || !strings.Contains(all[0].Message, "64 libraries in all") {
		t.Errorf("too many: %v", all)
	}
}
