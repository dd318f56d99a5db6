package report_test

import (
	"encoding/xml"
	"strconv"
	"testing"

	"hame/check/report"
	"hame/check/rules"
	"hame/lang/finding"
)

// suites is what build servers read of the form.
type suites struct {
	XMLName  xml.Name `xml:"testsuites"`
	Tests    string   `xml:"tests,attr"`
	Failures string   `xml:"failures,attr"`
	Skipped  string   `xml:"skipped,attr"`
	Suites   []struct {
		Name  string `xml:"name,attr"`
		Cases []struct {
			Name    string `xml:"name,attr"`
			Class   string `xml:"classname,attr"`
			Failure *struct {
				Message string `xml:"message,attr"`
				Type    string `xml:"type,attr"`
			} `xml:"failure"`
			Skipped *struct {
				Message string `xml:"message,attr"`
			} `xml:"skipped"`
			Output string `xml:"system-out"`
		} `xml:"testcase"`
	} `xml:"testsuite"`
}

func junit(t *testing.T, g report.Gate) (out suites, failed, skipped map[string]string) {
	t.Helper()
	text := write(t, report.JUnit, report.Options{Gate: g}, hauler())
	if err := xml.Unmarshal([]byte(text), &out); err != nil {
		t.Fatal(err)
	}
	failed, skipped = map[string]string{}, map[string]string{}
	for _, s := range out.Suites {
		for _, c := range s.Cases {
			if c.Failure != nil {
				failed[c.Class+" "+c.Name] = c.Failure.Type
			}
			if c.Skipped != nil {
				skipped[c.Class+" "+c.Name] = c.Skipped.Message
			}
		}
	}
	return out, failed, skipped
}

func TestJUnit(t *testing.T) {
	out, failed, skipped := junit(t, report.Gate{FailOn: finding.Error, AllowOpen: true})
	if len(failed) != 2 || failed["farm/hauler.hame wire/undersized"] != "error" || failed["farm/lib/lamps.hame kind/unknown"] != "error" {
		t.Errorf("failures %v", failed)
	}
	if len(skipped) != 1 || skipped["farm/hauler.hame protection/missing"] == "" {
		t.Errorf("skipped %v", skipped)
	}
	if out.Failures != "2" || out.Skipped != "1" {
		t.Errorf("counts %s failures, %s skipped", out.Failures, out.Skipped)
	}
}

// A case for each rule and file, whether it found something or not.
func TestJUnitHasEveryRule(t *testing.T) {
	out, _, _ := junit(t, report.Gate{})
	names := map[string]bool{}
	for _, f := range hauler().Findings {
		names[f.Rule] = true
	}
	for _, r := range rules.All() {
		names[r.Name] = true
	}
	if want := strconv.Itoa(2 * len(names)); out.Tests != want {
		t.Errorf("%s cases, want %s", out.Tests, want)
	}
}

func TestJUnitFollowsTheGate(t *testing.T) {
	_, failed, skipped := junit(t, report.Gate{FailOn: finding.Advice})
	if failed["farm/hauler.hame name/unused"] != "advice" || failed["farm/hauler.hame protection/missing"] != "open" {
		t.Errorf("failures %v", failed)
	}
	if failed["farm/hauler.hame wire/thin"] != "" || len(skipped) != 0 {
		t.Errorf("an allowed finding fails, or an open one that fails is skipped too: %v %v", failed, skipped)
	}
}
