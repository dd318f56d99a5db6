package sizing_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"sync/atomic"
	"testing"

	"hame/check"
	"hame/check/sizing"
	"hame/lang/finding"
	"hame/lang/source"
)

// dinghy is a pump on a long run, as a text in which a test changes a few words.
const dinghy = `harness yard { system 12 V; practice land; wire gxl; slack 100 mm }
zone  locker { ambient 0..40 degC }
place shelf, sump in locker
bundle run  shelf -> sump  2.2 m { cover loom_pa; clamp every 400 mm; through none }
supply battery main { at shelf; capacity 70 Ah; resistance 15 mohm; post M8; covered }
protection fuse f1  { at shelf; rating 10 A; covered }
load motor pump     { at sump; draws 5 A; drives pump; least 9 V; stalls 30 A; meant always }
wire w1  main.pos -> f1.in     auto  red    0.15 m  { cover loom_pa }
wire w2  f1.out   -> pump.pos  auto  red
wire w3  pump.neg -> main.neg  auto  black
mode pumping { for 1 h }
`

// but is the dinghy with words changed: old, new, old, new …
func but(words ...string) string { return strings.NewReplacer(words...).Replace(dinghy) }

func sized(t *testing.T, text string, names ...string) *sizing.Result {
	t.Helper()
	r, err := sizing.Of(source.New("yard.hame", text), sizing.Options{Names: names})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// chosen is the sizes in one line, for comparison.
func chosen(r *sizing.Result) string {
	var list []string
	for _, w := range r.Wires {
		size := "none"
		if w.Sized {
			size = w.Size.String()
		}
		list = append(list, w.Name+" "+size)
	}
	return strings.Join(list, ", ")
}

// TestSized holds the sizes of harnesses in which one rule each decides.
func TestSized(t *testing.T) {
	for _, x := range []struct{ name, text, want, rule string }{
		{"advice", dinghy, "w1 0.75 mm2, w2 1 mm2, w3 1 mm2", "wire/drop"},
		{"critical", but("stalls", "critical; stalls"), "w1 0.75 mm2, w2 1.5 mm2, w3 2.5 mm2", "wire/drop"},
		{"device", but("rating 10 A", "rating 15 A"), "w1 0.75 mm2, w2 1 mm2, w3 1 mm2", "protection/oversized"},
		{"promise", but("mode", "require w2 drop <= 100 mV in pumping\nmode"), "w1 0.75 mm2, w2 4 mm2, w3 4 mm2", "require/broken"},
		{"other wires say AWG", but("w1  main.pos -> f1.in     auto", "w1  main.pos -> f1.in     16 AWG"), "w2 18 AWG, w3 16 AWG", "wire/undersized"},
		{"tie", but("practice land", "practice cfr183"), "w1 18 AWG, w2 18 AWG, w3 16 AWG", "wire/undersized"},
	} {
		t.Run(x.name, func(t *testing.T) {
			r := sized(t, x.text)
			if got := chosen(r); got != x.want {
				t.Errorf("%s, want %s", got, x.want)
			}
			for _, w := range r.Wires {
				if w.Name == "w2" && w.Rule != x.rule {
					t.Errorf("w2 is decided by %s (%s), want %s", w.Rule, w.Decides, x.rule)
				}
			}
			if list := grave(check.File(source.New("yard.hame", r.Text()), check.Options{})); len(list) > 0 {
				t.Errorf("with the sizes the check finds %s: %s", list[0].Rule, list[0].Message)
			}
		})
	}
}

func grave(run *check.Run) []finding.Finding {
	var list []finding.Finding
	for _, f := range run.Findings {
		if f.Severity != finding.Advice && f.Allowed == nil {
			list = append(list, f)
		}
	}
	return list
}

// TestUnsized: a wire without a size says why, by which rule, and what helps.
func TestUnsized(t *testing.T) {
	for _, x := range []struct{ name, text, want, rule, reason, helps string }{
		{"too far", but("2.2 m", "900 m", "stalls", "critical; stalls"), "w1 none, w2 none, w3 none", "wire/drop", "no size up to 120 mm2 is enough", "a nearer source"},
		{"no ambient", but("ambient 0..40 degC", "exposure oil"), "w1 none, w2 none, w3 none", "wire/undersized", "how warm it is", "`ambient` of `locker`"},
		{"no insulation", but("wire gxl;", ""), "w1 none, w2 none, w3 none", "wire/undersized", "no insulation", "`wire` of `yard`"},
		{"a mistake", but("in locker", "in lockre"), "w1 none, w2 none, w3 none", "name/unknown", "no zone is named `lockre`", "line 3"},
		{"a device too big", but("rating 10 A", "rating 30 A", "f1.out   -> pump.pos  auto", "f1.out   -> tee       auto", "wire w3", "join splice tee { at shelf }\nwire w5  tee -> pump.pos  1 mm2  red\nwire w3"), "w1 0.75 mm2, w2 none, w3 1 mm2", "protection/oversized", "not until that is put right", "a smaller device"},
		{"no room", but("rating 10 A", "rating 30 A", "through none", "through bulkhead grommet 5 mm"), "w1 0.75 mm2, w2 none, w3 none", "bundle/fill", "is too thick: the 2 wires of `run`", "grommet"},
		{"no room at all", but("through none", "through bulkhead grommet 2 mm"), "w1 0.75 mm2, w2 none, w3 none", "bundle/fill", "the thinnest is too thick already", "grommet"},
		{"nothing in common", but("f1.out   -> pump.pos  auto", "f1.out   -> tee       auto", "wire w3", "join splice tee { at shelf; takes 150 mm2..185 mm2 }\nwire w5  tee -> pump.pos  150 mm2  red\nwire w3"), "w1 0.75 mm2, w2 none, w3 0.75 mm2", "connector/gauge", "no size fits both its ends", "spliced on"},
		{"a splice that takes too thin a wire", but("2.2 m", "9 m", "f1.out   -> pump.pos  auto", "f1.out   -> tee       auto  red  9 m {cover loom_pa}\nwire w6 tee -> pump.pos 16 mm2", "stalls", "critical; stalls", "wire w3", "join splice tee { at shelf; takes 1 mm2 }\nwire w3"), "w1 none, w2 none, w3 none", "wire/drop", "no size that its connectors and splices take is enough", "a nearer source"},
		{"no place", but("at sump; ", ""), "w1 0.75 mm2, w2 none, w3 none", "wire/drop", "no length", "`at`"},
	} {
		t.Run(x.name, func(t *testing.T) {
			r := sized(t, x.text)
			if got := chosen(r); got != x.want {
				t.Errorf("%s, want %s", got, x.want)
			}
			for _, w := range r.Wires {
				if w.Name != "w2" {
					continue
				}
				if w.Rule != x.rule || !strings.Contains(w.Reason, x.reason) || !strings.Contains(w.Helps, x.helps) {
					t.Errorf("w2: [%s] %s; %s", w.Rule, w.Reason, w.Helps)
				}
			}
			if r.Unsized() == len(r.Wires) && r.Text() != x.text {
				t.Error("the text has changed")
			}
		})
	}
}

// TestTakes: a splice that takes no thick wire is an end of the search, and one
// that takes no thin one its beginning.
func TestTakes(t *testing.T) {
	tee := func(takes string) string {
		return but("f1.out   -> pump.pos  auto", "f1.out   -> tee       auto", "wire w3", "join splice tee { at shelf; takes "+takes+" }\nwire w5  tee -> pump.pos  auto  red\nwire w3")
	}
	if got, want := chosen(sized(t, tee("2.5 mm2..4 mm2"))), "w1 0.75 mm2, w2 2.5 mm2, w5 2.5 mm2, w3 2.5 mm2"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	r := sized(t, strings.Replace(tee("0.5 mm2..1 mm2"), "stalls", "critical; stalls", 1))
	for _, w := range r.Wires {
		if w.Sized && (w.Name == "w2" || w.Name == "w5") && w.Size.MM2 > 1 {
			t.Errorf("%s is %s, and the splice takes 1 mm2", w.Name, w.Size)
		}
	}
}

// TestNames: a named wire is sized whatever its gauge, and only it changes.
func TestNames(t *testing.T) {
	text := but("auto", "10 mm2")
	r := sized(t, text, "w2")
	if got := chosen(r); got != "w2 0.75 mm2" {
		t.Errorf("%s", got)
	}
	if want := strings.Replace(text, "pump.pos  10 mm2", "pump.pos  0.75 mm2", 1); r.Text() != want {
		t.Errorf("the text is\n%s", r.Text())
	}
	if got := len(sized(t, text).Wires); got != 0 {
		t.Errorf("%d wires were sized, and none is auto", got)
	}
	_, err := sizing.Of(source.New("yard.hame", text), sizing.Options{Names: []string{"w22"}})
	if err == nil || !strings.Contains(err.Error(), "did you mean `w2`") {
		t.Errorf("error %v", err)
	}
	if _, err := sizing.Of(source.New("lib.hame", "part lamp is load led { draws 27 W }\n"), sizing.Options{}); err == nil {
		t.Error("a library has no wires")
	}
}

// TestStop: what is cut short says so, and gives no size that is found fault
// with. Stop is asked by several goroutines, many times in each check.
func TestStop(t *testing.T) {
	short := 0
	for after := int64(1); after < 4000; after += after/3 + 1 {
		var asked atomic.Int64
		o := sizing.Options{}
		o.Stop = func() bool { return asked.Add(1) > after }
		r, err := sizing.Of(source.New("yard.hame", dinghy), o)
		if err != nil {
			t.Fatal(err)
		}
		if r.Ended {
			short++
		}
		if list := grave(check.File(source.New("yard.hame", r.Text()), check.Options{})); r.Unsized() == 0 && len(list) > 0 {
			t.Errorf("ended after %d: a size was given that is found fault with: %s", after, list[0].Message)
		}
	}
	if short < 5 {
		t.Errorf("cut short %d times", short)
	}
}

// TestSame: the same text gives the same bytes, and JSON that can be read.
func TestSame(t *testing.T) {
	var texts, objects [2]bytes.Buffer
	for i := range 2 {
		r := sized(t, dinghy)
		if err := sizing.WriteText(&texts[i], r); err != nil {
			t.Fatal(err)
		}
		if err := sizing.WriteJSON(&objects[i], "0", r); err != nil {
			t.Fatal(err)
		}
	}
	if texts[0].String() != texts[1].String() || objects[0].String() != objects[1].String() {
		t.Error("two runs differ")
	}
	var object struct {
		Wires []struct{ Name, Gauge string }
	}
	if err := json.Unmarshal(objects[0].Bytes(), &object); err != nil || len(object.Wires) != 3 || object.Wires[1].Gauge != "1 mm2" {
		t.Errorf("%v: %+v", err, object)
	}
	for line := range strings.SplitSeq(texts[0].String(), "\n") {
		if len(line) > 110 {
			t.Errorf("a line of %d columns: %s", len(line), line)
		}
	}
}
