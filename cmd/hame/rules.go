package main

import (
	"bufio"
	"fmt"
	"io"

	"hame/check"
	"hame/check/report"
	"hame/check/rules"
	"hame/check/wording"
	"hame/lang/kinds"
)

// rulesVerb is hame rules.
type rulesVerb struct {
	Name   string `arg:"" optional:"" help:"A rule, or an area such as wire."`
	Format string `enum:"human,json" default:"human" help:"human or json."`

	Practice string `help:"A practice, whose limits are listed."`
}

// Run lists the rules, explains one, or lists the limits of a practice.
func (v rulesVerb) Run(s *session) error {
	if v.Practice != "" {
		return v.practice(s)
	}
	if r := rules.Find(v.Name); r != nil {
		if v.Format == "json" {
			return wording.JSON(s.out, jsonRuleOf(r))
		}
		return rulePage(s.out, r)
	}
	list := rules.All()
	if v.Name != "" {
		if list = ofArea(v.Name); len(list) == 0 {
			return fmt.Errorf("there is no rule or area `%s`%s\nall rules: hame rules", report.Plain(v.Name), kinds.DidYouMean(v.Name, ruleWords()))
		}
	}
	if v.Format == "json" {
		return wording.JSON(s.out, jsonRulesOf(list))
	}
	return ruleList(s.out, list)
}

func ofArea(area string) []*rules.Rule {
	var list []*rules.Rule
	for _, r := range rules.All() {
		if r.Area() == area {
			list = append(list, r)
		}
	}
	return list
}

// ruleWords are the names of rules and of areas.
func ruleWords() []string {
	var words []string
	for _, r := range rules.All() {
		words = append(words, r.Name, r.Area())
	}
	return words
}

// ruleList writes a heading for each area and a line for each rule.
func ruleList(w io.Writer, list []*rules.Rule) error {
	out := bufio.NewWriter(w)
	wide, area := 0, ""
	for _, r := range list {
		wide = max(wide, len(r.Name))
	}
	for _, r := range list {
		if r.Area() != area {
			if area != "" {
				_, _ = fmt.Fprintln(out)
			}
			area = r.Area()
			_, _ = fmt.Fprintln(out, area)
		}
		_, _ = fmt.Fprintf(out, "    %-*s  %-7s  %s\n", wide, r.Name, r.Severity, r.Summary)
	}
	_, _ = fmt.Fprintf(out, "\n%d rules. One of them: hame rules NAME\n", len(list))
	return out.Flush() // which keeps the first error
}

type jsonRules struct {
	Hame  string     `json:"hame"`
	Rules []jsonRule `json:"rules"`
}

type jsonRule struct {
	Name     string      `json:"name"`
	Area     string      `json:"area"`
	Severity string      `json:"severity"`
	Safety   bool        `json:"safety"`
	Summary  string      `json:"summary"`
	Why      string      `json:"why"`
	Needs    string      `json:"needs"`
	Limits   []jsonLimit `json:"limits"`
	Since    string      `json:"since"`
	Bad      string      `json:"bad"`
	Good     string      `json:"good"`
	Related  []string    `json:"related"`
}

type jsonLimit struct {
	Practice string `json:"practice"`
	Text     string `json:"text"`
	Document string `json:"document"`
	Clause   string `json:"clause"`
	Mark     string `json:"mark"`
}

func jsonRulesOf(list []*rules.Rule) jsonRules {
	out := jsonRules{Hame: check.Version, Rules: []jsonRule{}}
	for _, r := range list {
		out.Rules = append(out.Rules, jsonRuleOf(r))
	}
	return out
}

func jsonRuleOf(r *rules.Rule) jsonRule {
	out := jsonRule{
		Name: r.Name, Area: r.Area(), Severity: r.Severity.String(), Safety: r.Safety(),
		Summary: r.Summary, Why: r.Why, Needs: r.Needs, Limits: []jsonLimit{}, Since: r.Since,
		Bad: r.Bad, Good: r.Good, Related: append([]string{}, r.Related...),
	}
	for _, l := range r.Limits {
		out.Limits = append(out.Limits, jsonLimit(l))
	}
	return out
}
