package wiring_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"hame/check"
	"hame/check/draw"
	"hame/check/draw/wiring"
	"hame/check/facts"
	"hame/check/internal/yard"
	"hame/check/sheet"
	"hame/lang/harness"
	"hame/lang/source"
	"hame/lang/syntax"
)

func text(name, src string) *check.Run {
	return check.File(source.New(name, src), check.Options{Today: "2026-01-01"})
}

// unjudged is what a check works out before it judges, which is all that is drawn.
func unjudged(src string) *check.Run {
	b := harness.Bind(syntax.Parse(source.New("yard.hame", src)), harness.Options{})
	f := facts.Work(b.Harness, nil)
	return &check.Run{Harness: b.Harness, Facts: f, Figures: f.Figures}
}

// printed is a run's pages with all that a page may have on it.
func printed(run *check.Run, mode, paper string) []*draw.Picture {
	return wiring.Pictures(run, wiring.Options{
		Mode: mode, Paper: paper, Verdict: "NOT FOR BUILD: 2 errors", Date: "2026-01-01", File: "t.hame",
		Cautions: sheet.Cautions, Defer: sheet.Defer,
	})
}

func sound(t *testing.T, what string, run *check.Run, pages []*draw.Picture) {
	t.Helper()
	for _, f := range drawn(run.Harness, pages) {
		t.Errorf("%s: %s", what, f)
	}
	for _, p := range pages {
		for _, f := range faults(p) {
			t.Errorf("%s, %s: %s", what, p.Title, f)
		}
	}
}

// modes are those of a harness, and none.
func modes(run *check.Run) []string {
	list := []string{""}
	for _, m := range run.Harness.Modes {
		list = append(list, m.Name)
	}
	return list
}

// TestExamples: every example, the faulty ones too, in every mode and on every
// paper, is drawn whole and nothing lies on anything.
func TestExamples(t *testing.T) {
	for _, name := range harnesses(t, ".") {
		run := checked(t, name)
		if run.Harness == nil {
			continue
		}
		for _, mode := range modes(run) {
			sound(t, name+" "+mode, run, printed(run, mode, ""))
		}
		for _, paper := range []string{"a4", "a3", "letter"} {
			sound(t, name+" "+paper, run, printed(run, "", paper))
		}
		inPage := wiring.Pictures(run, wiring.Options{InPage: true, Verdict: "NOT FOR BUILD: 2 errors"})
		sound(t, name+" in a page", run, inPage)
	}
}

// TestYard: so is what a careful practitioner builds, 500 times.
func TestYard(t *testing.T) {
	for seed := range uint64(500) {
		run := unjudged(yard.Make(seed).Print().Source)
		mode := modes(run)
		sound(t, fmt.Sprintf("seed %d", seed), run, printed(run, mode[seed%uint64(len(mode))], ""))
		if t.Failed() {
			return
		}
	}
}

// TestSVG: the pages are XML, and the same harness gives the same bytes.
func TestSVG(t *testing.T) {
	for _, name := range harnesses(t, ".") {
		run := checked(t, name)
		if run.Harness == nil {
			continue
		}
		once, twice := svg(t, printed(run, "", "a4")), svg(t, printed(checked(t, name), "", "a4"))
		if !bytes.Equal(once, twice) {
			t.Errorf("%s: drawn twice, it differs", name)
		}
		d := xml.NewDecoder(bytes.NewReader(once))
		for {
			_, err := d.Token()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatalf("%s: %v", name, err)
			}
		}
	}
}

func svg(t *testing.T, pages []*draw.Picture) []byte {
	var b bytes.Buffer
	for _, p := range pages {
		if err := draw.SVG(&b, p); err != nil {
			t.Fatal(err)
		}
	}
	return b.Bytes()
}

// odd are harnesses that nobody builds, by what is odd about them.
var odd = map[string]string{
	"nothing":    "",
	"one device": "load led a { draws 1 W }\n",
	"no source":  "load led a { draws 1 W }\nload led b { draws 1 W }\nwire w1 a.pos -> b.pos 1 mm2 red 1 m\nwire w2 a.neg -> b.neg 1 mm2 black 1 m\n",
	"self loop":  "load led a { draws 1 W }\nwire w1 a.pos -> a.neg 1 mm2 red 1 m\nwire w2 a.pos -> a.pos 1 mm2 red 1 m\nwire w3 a.neg -> a.neg 1 mm2 red 1 m\n",
	"a circle": "join splice a\njoin splice b\njoin splice c\nwire w1 a -> b 1 mm2 red 1 m\nwire w2 b -> c 1 mm2 red 1 m\nwire w3 c -> a 1 mm2 red 1 m\n" +
		"wire w4 a -> a 1 mm2 red 1 m\nwire w5 a -> b 1 mm2 red 1 m\n",
	"latch": "supply battery m { capacity 70 Ah; cranking 600 A }\nswitch relay k { contacts 30 A; coil 90 ohm }\nwire w1 m.pos -> k.30 1 mm2 red 1 m\nwire w2 k.87 -> k.86 1 mm2 red 1 m\nwire w3 k.85 -> m.neg 1 mm2 black 1 m\n",
	"backwards": "supply battery m { capacity 70 Ah; cranking 600 A }\nprotection fuse f { rating 10 A }\nswitch toggle s { rating 10 A }\nload led l { draws 5 W }\n" +
		"wire w1 m.pos -> f.out 1 mm2 red 1 m\nwire w2 f.in -> s.out 1 mm2 red 1 m\nwire w3 s.in -> l.pos 1 mm2 red 1 m\nwire w4 l.neg -> m.neg 1 mm2 black 1 m\n",
	"capped":       "load led a { draws 1 W }\nwire w1 a.pos -> capped 1 mm2 red 1 m\nwire w2 a.neg -> capped 1 mm2 red 1 m\nwire w3 capped -> capped 1 mm2 red 1 m\n",
	"torn":         "load led a { draws 1 W }\nwire w1 a.pos -> nobody.pos 1 mm2 red 1 m\nwire w2 no.in -> nobody.pos 1 mm2 red 1 m\njoin connector x { }\nprotection panel p { }\n",
	"hostile":      "load led a { draws 1 W; label \"<script>alert(1)</script>]]> \\\" & \u202e\" }\nwire w1 a.pos -> a.neg 1 mm2 red 1 m { label \"</g></svg>\" }\n",
	"long names":   "load led " + strings.Repeat("very_long_name_", 12) + "x { draws 1 W }\njoin splice " + strings.Repeat("s", 200) + "\nwire " + strings.Repeat("w", 150) + " " + strings.Repeat("s", 200) + " -> " + strings.Repeat("very_long_name_", 12) + "x.pos 1 mm2 red 1 m\n",
	"many on one":  star(120),
	"300 ways":     panel(300, true),
	"300 unwired":  panel(300, false),
	"many returns": returns(150),
}

func star(n int) string {
	var b strings.Builder
	b.WriteString("supply battery m { capacity 70 Ah; cranking 600 A }\n")
	for i := range n {
		fmt.Fprintf(&b, "load led l%d { draws 1 W }\nwire p%d m.pos -> l%d.pos 1 mm2 red 1 m\nwire n%d l%d.neg -> m.neg 1 mm2 black 1 m\n", i, i, i, i, i)
	}
	return b.String()
}

func panel(ways int, wired bool) string {
	var b strings.Builder
	b.WriteString("supply battery m { capacity 70 Ah; cranking 600 A }\nground chassis f\nprotection panel x { limit 500 A\n")
	for i := range ways {
		fmt.Fprintf(&b, "way %d fuse 5 A\n", i+1)
	}
	b.WriteString("}\nwire w m.pos -> x.feed 16 mm2 red 1 m\nwire v m.neg -> f 16 mm2 black 1 m\n")
	for i := 0; wired && i < ways; i++ {
		fmt.Fprintf(&b, "load led l%d { draws 1 W }\nwire p%d x.%d -> l%d.pos 1 mm2 red 1 m\nwire n%d l%d.neg -> f 1 mm2 black 1 m\n", i, i, i+1, i, i, i)
	}
	return b.String()
}

func returns(n int) string {
	var b strings.Builder
	b.WriteString("ground chassis f\n")
	for i := range n {
		fmt.Fprintf(&b, "ground stud g%d { to f }\nground bus b%d\nwire w%d g%d -> b%d 1 mm2 black 1 m\n", i, i, i, i, i)
	}
	return b.String()
}

// TestOdd: no harness is too odd to be drawn.
func TestOdd(t *testing.T) {
	for what, body := range odd {
		run := text("odd.hame", "harness odd { system 12 V }\n"+body)
		for _, paper := range []string{"", "a4"} {
			pages := printed(run, "", paper)
			sound(t, what+" "+paper, run, pages)
			if !bytes.Equal(svg(t, pages), svg(t, printed(run, "", paper))) {
				t.Errorf("%s: drawn twice, it differs", what)
			}
		}
	}
}
