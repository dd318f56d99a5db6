package main

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/check/rules"
	"hame/check/wording"
	"hame/lang/finding"
)

// sample is a rule made for its page.
var sample = &rules.Rule{
	Name: "protection/far", Severity: finding.Error, Since: "0.1.0",
	Summary: "a feed wire runs too far from its source before a device protects it",
	Why: "Up to its protective device a wire can carry all that the battery gives. " +
		"A chafed spot there is an arc that nothing ends.\n\nThe starter's own cable is left out.",
	Needs: "a length of the wire",
	Limits: []rules.Limit{
		{Practice: "land", Text: "178 mm from the source", Document: "33 CFR 183.455", Clause: "(b)", Mark: "seen"},
		{Text: "never none", Mark: "common practice"},
	},
	Bad:     "\nharness x { system 12 V }\n\nwire w1 a -> b  # want\n",
	Good:    "harness x { system 12 V }\n",
	Related: []string{"protection/missing"},
}

const samplePage = `protection/far (error, since 0.1.0)

    a feed wire runs too far from its source before a device protects it

Why

    Up to its protective device a wire can carry all that the battery gives. A
    chafed spot there is an arc that nothing ends.

    The starter's own cable is left out.

Needs

    a length of the wire

Limits

    land     178 mm from the source
             33 CFR 183.455 (b), seen
    all      never none
             common practice

Bad

    harness x { system 12 V }

    wire w1 a -> b  # want

Good

    harness x { system 12 V }

Related

    protection/missing

Safety

    Where this cannot be judged for want of a fact, the check fails, unless
    --allow-open is given.
`

func TestRulePage(t *testing.T) {
	var b bytes.Buffer
	if err := rulePage(&b, sample); err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(samplePage, b.String()); diff != "" {
		t.Error(diff)
	}
}

func TestRuleList(t *testing.T) {
	var b bytes.Buffer
	other := &rules.Rule{Name: "wire/hot", Severity: finding.Warning, Summary: "too hot"}
	if err := ruleList(&b, []*rules.Rule{sample, other}); err != nil {
		t.Fatal(err)
	}
	want := `protection
    protection/far  error    a feed wire runs too far from its source before a device protects it

wire
    wire/hot        warning  too hot

2 rules. One of them: hame rules NAME
`
	if diff := cmp.Diff(want, b.String()); diff != "" {
		t.Error(diff)
	}
}

func TestRuleForPrograms(t *testing.T) {
	var b bytes.Buffer
	if err := wording.JSON(&b, jsonRuleOf(sample)); err != nil {
		t.Fatal(err)
	}
	var out map[string]any
	if err := json.Unmarshal(b.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	limit := out["limits"].([]any)[0].(map[string]any)
	if out["name"] != sample.Name || out["safety"] != true || limit["clause"] != "(b)" || limit["mark"] != "seen" {
		t.Errorf("%v", out)
	}
}

// Every registered rule has a page, over its own name and over its area.
func TestEveryRuleHasAPage(t *testing.T) {
	for _, r := range rules.All() {
		if status, out, err := runWith(t, "", "rules", r.Name); status != 0 || !strings.HasPrefix(out, r.Name+" (") {
			t.Errorf("rules %s: status %d, %q", r.Name, status, err)
		}
		if status, out, _ := runWith(t, "", "rules", r.Area()); status != 0 || !strings.Contains(out, "    "+r.Name+" ") {
			t.Errorf("rules %s does not list %s", r.Area(), r.Name)
		}
	}
}
