package report_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"hame/check/report"
	"hame/check/rules"
	"hame/lang/finding"
	"hame/lang/source"
)

func sarif(t *testing.T, runs ...report.Run) map[string]any {
	t.Helper()
	return parsed(t, write(t, report.SARIF, report.Options{Version: "0.1.0"}, runs...))
}

func TestSARIFGolden(t *testing.T) {
	out := write(t, report.SARIF, report.Options{Version: "0.1.0"}, hauler())
	// The table of rules grows with the rules, and so do the numbers into it.
	_, results, _ := strings.Cut(out, `"artifacts":`)
	results = regexp.MustCompile(`(?m)^ *"ruleIndex": \d+,\n`).ReplaceAllString(results, "")
	golden(t, "results.sarif.txt", results)
}

// SARIF 2.1.0, section 3: closed property sets, enumerations, what is
// required, and 3.27.10's level none for every kind but fail.
func TestSARIFSchema(t *testing.T) {
	schema, err := jsonschema.NewCompiler().Compile("testdata/sarif-essential.schema.json")
	if err != nil {
		t.Fatal(err)
	}
	empty := report.Run{Files: []*source.File{source.New("a b\n%.hame", "")}}
	for _, runs := range [][]report.Run{{hauler()}, {empty}, {empty, hauler()}} {
		if err := schema.Validate(any(sarif(t, runs...))); err != nil {
			t.Error(err)
		}
	}
	broken := sarif(t, hauler())
	broken["runs"].([]any)[0].(map[string]any)["results"].([]any)[0].(map[string]any)["level"] = "advice"
	if schema.Validate(any(broken)) == nil {
		t.Error("the schema takes a level that the standard has not")
	}
}

func results(t *testing.T, log map[string]any) map[string]map[string]any {
	t.Helper()
	byRule := map[string]map[string]any{}
	for _, r := range log["runs"].([]any)[0].(map[string]any)["results"].([]any) {
		result := r.(map[string]any)
		byRule[result["ruleId"].(string)] = result
	}
	return byRule
}

func TestSARIFLevels(t *testing.T) {
	byRule := results(t, sarif(t, hauler()))
	for rule, want := range map[string][2]string{
		"wire/undersized": {"error", "fail"}, "wire/thin": {"warning", "fail"},
		"name/unused": {"note", "fail"}, "protection/missing": {"none", "open"},
	} {
		if r := byRule[rule]; r["level"] != want[0] || r["kind"] != want[1] {
			t.Errorf("%s: level %v, kind %v, want %v", rule, r["level"], r["kind"], want)
		}
	}
	if n := len(byRule["wire/thin"]["suppressions"].([]any)); n != 1 {
		t.Errorf("an allowed finding has %d suppressions", n)
	}
	if n := len(byRule["wire/undersized"]["suppressions"].([]any)); n != 0 {
		t.Errorf("a finding that is not allowed has %d suppressions", n)
	}
}

// Columns count UTF-16 code units from 1 (3.30.6 with columnKind): 🐎 is two
// of them and four bytes, é is one and two bytes.
func TestSARIFColumns(t *testing.T) {
	f := source.New("x.hame", "\n# 🐎é w1\n")
	run := report.Run{Files: []*source.File{f}, Findings: []finding.Finding{
		{Rule: "a/a", Message: "m", At: at(f, "w1", 1)}, {Rule: "b/b", Message: "m", At: at(f, "é", 1)},
	}}
	byRule := results(t, sarif(t, run))
	for rule, want := range map[string][4]float64{"a/a": {7, 9, 10, 2}, "b/b": {5, 6, 7, 2}} {
		region := byRule[rule]["locations"].([]any)[0].(map[string]any)["physicalLocation"].(map[string]any)["region"].(map[string]any)
		got := [4]float64{region["startColumn"].(float64), region["endColumn"].(float64), region["byteOffset"].(float64), region["byteLength"].(float64)}
		if got != want || region["startLine"] != 2.0 {
			t.Errorf("%s: columns and bytes %v, want %v", rule, got, want)
		}
	}
}

func TestSARIFRuleTable(t *testing.T) {
	driver := sarif(t, hauler())["runs"].([]any)[0].(map[string]any)["tool"].(map[string]any)["driver"].(map[string]any)
	table := driver["rules"].([]any)
	all := rules.All()
	if len(table) != len(all) {
		t.Fatalf("%d rules, want %d", len(table), len(all))
	}
	for i, r := range all {
		if id := table[i].(map[string]any)["id"]; id != r.Name {
			t.Errorf("rule %d is %v, want %s", i, id, r.Name)
		}
	}
	for name, r := range results(t, sarif(t, hauler())) {
		if i, ok := r["ruleIndex"].(float64); ok && all[int(i)].Name != name {
			t.Errorf("%s points at rule %d, %s", name, int(i), all[int(i)].Name)
		}
	}
}

// RFC 3986: blanks and percent signs are escaped, a colon is not taken for a
// scheme's.
func TestSARIFNamesFiles(t *testing.T) {
	for name, want := range map[string]string{
		"a/b.hame": "a/b.hame", "a b%.hame": "a%20b%25.hame", "a:b.hame": "./a:b.hame",
		"/tmp/x.hame": "file:///tmp/x.hame", "C:/x.hame": "file:///C:/x.hame", "hame:lamps": "hame:lamps",
	} {
		log := sarif(t, report.Run{Files: []*source.File{source.New(name, "")}})
		artifact := log["runs"].([]any)[0].(map[string]any)["artifacts"].([]any)[0].(map[string]any)
		if got := artifact["location"].(map[string]any)["uri"]; got != want {
			t.Errorf("%s becomes %v, want %s", name, got, want)
		}
	}
}
