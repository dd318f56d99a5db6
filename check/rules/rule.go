// Package rules has the rules and their registry: a rule is one value in one
// file. Its reference page, the list of rules, the editor's link and every
// report's table of rules are made from that value.
package rules

import (
	"cmp"
	"slices"

	"hame/check/states"
	"hame/lang/finding"
)

// Rule is one rule: what it asks, why, and the function that judges.
type Rule struct {
	Name     string            // area/problem
	Severity finding.Severity  // the gravest that it gives
	Summary  string            // one line: broken when …
	Why      string            // what goes wrong on the machine
	Needs    string            // what must be declared, and what is assumed where nothing is said
	Limits   []Limit           // thresholds with document, clause and mark
	Since    string            // the version that it came with
	Bad      string            // breaks it alone; `# want` marks the line
	Good     string            // the same, put right: clean of every finding
	BadWith  map[string]string // libraries that Bad uses, by path
	GoodWith map[string]string
	Related  []string // names of other rules
	// Check judges a bound harness once everything is solved. It is nil for the
	// rules that are judged while the text is read and bound.
	Check func(*Context)
	// Watch, where a rule has it, is asked before anything is solved for a
	// function that sees every position; the Context may report from it.
	// Positions with a dead short are left out unless Shorts is set.
	Watch  func(*Context) func(*states.Point)
	Shorts bool
	// Long says that Check takes longer than most: it's begun before the others,
	// so that no processor is left to wait for it.
	Long bool
}

// Limit is one threshold of a rule.
type Limit struct {
	Practice string // land, cfr183, ac43; "" for all
	Text     string // "178 mm from the source"
	Document string
	Clause   string
	Mark     string // seen, memory, common practice, trade judgement
}

// Area is the part of the rule's name before the slash.
func (r *Rule) Area() string {
	for i := range r.Name {
		if r.Name[i] == '/' {
			return r.Name[:i]
		}
	}
	return r.Name
}

// Safety reports whether an open finding of the rule counts as an error for
// the exit status: the protection, ground and tap rules, and those of live
// terminals.
func (r *Rule) Safety() bool {
	switch r.Area() {
	case "protection", "ground", "tap":
		return true
	}
	return slices.Contains(liveTerminals, r.Name)
}

var liveTerminals = []string{"connector/live-male", "terminal/uncovered", "switch/spare-live", "graph/live-stub"}

var registry []*Rule

// register is called by each rule's file, once.
func register(r *Rule) *Rule {
	registry = append(registry, r)
	return r
}

// All lists the rules in order of name.
func All() []*Rule {
	list := slices.Clone(registry)
	slices.SortFunc(list, func(a, b *Rule) int { return cmp.Compare(a.Name, b.Name) })
	return list
}

// Find is the rule of a name, or nil.
func Find(name string) *Rule {
	for _, r := range registry {
		if r.Name == name {
			return r
		}
	}
	return nil
}
