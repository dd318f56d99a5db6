package report_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/check/figures"
	"hame/check/report"
	"hame/lang/finding"
	"hame/lang/source"
)

func TestJSON(t *testing.T) {
	golden(t, "one.json", write(t, report.JSON, report.Options{Version: "0.1.0"}, hauler()))
}

// parsed reads a report back as a program would.
func parsed(t testing.TB, text string) map[string]any {
	t.Helper()
	var out map[string]any
	if err := json.Unmarshal([]byte(text), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

func TestJSONShapes(t *testing.T) {
	library := report.Run{Files: []*source.File{source.New("lib.hame", "")}}
	alone := parsed(t, write(t, report.JSON, report.Options{Version: "1"}, library))
	if got, ok := alone["harness"]; !ok || got != nil {
		t.Errorf(`"harness" of a library is %v, want null`, got)
	}
	several := parsed(t, write(t, report.JSON, report.Options{Version: "1"}, library, hauler()))
	runs, _ := several["runs"].([]any)
	if several["hame"] != "1" || len(several) != 2 || len(runs) != 2 {
		t.Errorf("several runs: %v", several)
	}
	if diff := cmp.Diff(alone, runs[0]); diff != "" {
		t.Errorf("a run among several differs from one alone:\n%s", diff)
	}
}

// The ends are exclusive, columns count bytes from 1: `wärme` has six bytes.
func TestJSONSpans(t *testing.T) {
	run := parsed(t, write(t, report.JSON, report.Options{}, hauler()))
	first := run["findings"].([]any)[0].(map[string]any)
	for key, want := range map[string]any{"file": "farm/hauler.hame", "line": 3.0, "column": 6.0, "end_line": 3.0, "end_column": 12.0} {
		if first[key] != want {
			t.Errorf("%s is %v, want %v", key, first[key], want)
		}
	}
}

func TestJSONUnknownFiguresAreNull(t *testing.T) {
	run := hauler()
	run.Figures.Wires[0].WorstA = figures.Amount(math.NaN())
	run.Figures.Wires[0].TemperatureC = figures.Amount(math.Inf(1))
	run.Findings[0].Measured = finding.Amount(math.NaN())
	out := parsed(t, write(t, report.JSON, report.Options{}, run))
	known := out["wires"].([]any)[0].(map[string]any)
	unknown := out["wires"].([]any)[1].(map[string]any)
	for _, key := range []string{"worst_a", "temperature_c", "ampacity_a"} {
		if v, ok := known[key]; !ok || v != nil {
			t.Errorf("%s of w1 is %v, want null", key, v)
		}
	}
	for _, key := range []string{"area_mm2", "length_m", "resistance_ohm", "side", "worst", "unprotected_m"} {
		if v, ok := unknown[key]; !ok || v != nil {
			t.Errorf("%s of w2 is %v, want null", key, v)
		}
	}
}

func TestJSONOfHostileText(t *testing.T) {
	f := source.New("a\xff.hame", "\xff\x00")
	run := report.Run{Files: []*source.File{f}, Findings: []finding.Finding{{Message: "\x1b\xff<&>\u2028"}}}
	out := write(t, report.JSON, report.Options{}, run)
	if strings.ContainsAny(out, "\x1b\x00\u2028") {
		t.Errorf("a control character stands bare in %q", out)
	}
	message := parsed(t, out)["findings"].([]any)[0].(map[string]any)["message"]
	if message != "\x1b\ufffd<&>\u2028" {
		t.Errorf("message came back as %q", message)
	}
}

func TestSameBytesEachTime(t *testing.T) {
	for name, w := range report.Writers {
		first := write(t, w, report.Options{}, hauler(), hauler())
		for range 20 {
			if write(t, w, report.Options{}, hauler(), hauler()) != first {
				t.Fatalf("%s writes other bytes for the same runs", name)
			}
		}
	}
}
