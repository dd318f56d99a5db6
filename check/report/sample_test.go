package report_test

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/check/figures"
	"hame/check/report"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/source"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// golden compares with a file in testdata, which -update rewrites.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(string(want), got); diff != "" {
		t.Errorf("%s (run go test -update to take it over):\n%s", name, diff)
	}
}

// write is what a writer writes.
func write(t testing.TB, w report.Writer, o report.Options, runs ...report.Run) string {
	t.Helper()
	var b bytes.Buffer
	if err := w(&b, runs, o); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

const haulerText = "harness hauler { system 12 V }\n" +
	"supply battery main { capacity 70 Ah }\n" +
	"zone wärme { ambient 20..80 degC }  # 日本\n" +
	"wire w1\tmain.pos -> lamp.pos 22 AWG\n"

// at is the place of the nth time that a text stands in a file.
func at(f *source.File, text string, nth int) finding.Place {
	start := -1
	for range nth {
		start += 1 + strings.Index(f.Text[start+1:], text)
	}
	return finding.Place{File: f, Span: source.Span{Start: start, End: start + len(text)}}
}

// hauler is a run with one finding of each sort, made by hand.
func hauler() report.Run {
	f := source.New("farm/hauler.hame", haulerText)
	lib := source.New("farm/lib/lamps.hame", "part lamp is load led { draws 27 W }\n")
	h := &harness.Harness{
		Name: "hauler", SystemSaid: true, Practice: "land", Files: []*source.File{f, lib},
		Modes: []*harness.Mode{{Name: "night"}, {Name: "parked"}},
	}
	battery := &harness.Device{Name: "main", Kind: kinds.Find(kinds.Supply, "battery"), Existing: true}
	battery.Terminals = []*harness.Terminal{{Device: battery, Name: "pos"}}
	wire := &harness.Wire{Name: "w1", AreaMM2: 0.326, LengthM: 1.8, HasLength: true, Route: []*harness.Bundle{{Name: "rail"}}}
	wire.Ends[0].Terminal = battery.Terminals[0]
	h.Devices, h.Wires = []*harness.Device{battery}, []*harness.Wire{wire, {Name: "w2"}}
	return report.Run{
		Files: []*source.File{f, lib}, Harness: h,
		Figures: haulerFigures(h), Findings: haulerFindings(f, lib),
	}
}

func haulerFigures(h *harness.Harness) *figures.Figures {
	worst := &figures.Position{Key: "on", Engine: "running", Closed: []string{"s1"}, Corner: "cold and full"}
	return &figures.Figures{
		Wires: []*figures.Wire{{
			Wire: h.Wires[0], Side: figures.Feed, ResistanceOhm: figures.Amount(0.0952), WorstA: figures.Amount(14.25),
			Worst: worst, ProtectedBy: []string{"f1", "aux.2"}, UnprotectedM: figures.Amount(0),
			Modes: []figures.WireMode{{Mode: "night", CurrentA: figures.Amount(14.2), DropV: figures.Amount(1.0 / 3)}},
		}},
		Devices: []*figures.Device{{
			Device: h.Devices[0],
			Modes:  []figures.DeviceMode{{Mode: "night", Volts: figures.Amount(12.6), On: true}},
		}},
		Modes:    []*figures.Mode{{Mode: h.Modes[0], SupplyA: figures.Amount(14.2), BatteryA: figures.Amount(-3.1)}},
		Coverage: figures.Coverage{SwitchPositions: 20, Method: "all"},
	}
}

func haulerFindings(f, lib *source.File) []finding.Finding {
	return []finding.Finding{
		{
			Rule: "wire/undersized", Severity: finding.Error, Subject: "w1", Mode: "night", At: at(f, "w1", 1),
			Message: "`w1` carries 14.2 A, more than the 5.1 A that 22 AWG bears there", Measured: finding.Amount(14.2),
			Limit: finding.Amount(5.1), Unit: "A", Source: "33 CFR 183.425 Table 5",
			Figures: []string{"5.9 A (22 AWG, 105 degC) x 0.86 = 5.1 A"},
			Related: []finding.Related{{Place: at(f, "80 degC", 1), Message: "so hot is it on the way"}},
			Fix:     &finding.Fix{Title: "take 14 AWG", Edits: []finding.Edit{{Place: at(f, "22 AWG", 1), Text: "14 AWG"}}},
		},
		{
			Rule: "protection/missing", Severity: finding.Open, Subject: "w1", At: at(f, "w1", 1),
			Message: "whether `w1` is protected cannot be judged", Needs: []finding.Need{{Name: "main", Setting: "cranking"}},
		},
		{
			Rule: "name/unused", Severity: finding.Advice, Subject: "wärme", At: at(f, "wärme", 1),
			Message: "nothing lies in `wärme`", Fix: &finding.Fix{Title: "take the zone out", Edits: []finding.Edit{{Place: at(f, "zone wärme { ambient 20..80 degC }", 1)}}},
		},
		{
			Rule: "wire/thin", Severity: finding.Warning, Subject: "w1", At: at(f, "22 AWG", 1),
			Message: "`w1` is thinner than 0.75 mm2", Allowed: &finding.Allowed{Because: "it was \"always\" so", Until: "2027-05-31"},
		},
		{
			Rule: "kind/unknown", Severity: finding.Error, Subject: "lamp", At: at(lib, "led", 1), Message: "there is no load `led`",
		},
	}
}
