package report

import (
	"encoding/xml"
	"io"
	"slices"
	"strings"

	"hame/check/rules"
	"hame/lang/finding"
)

// JUnit writes the XML that build servers read: a suite for each file, a case
// for each rule. A finding at the gate is a failure; an open one below it makes
// a skipped case; the rest is told in the case's output.
func JUnit(w io.Writer, runs []Run, o Options) error {
	byFile := map[string][]finding.Finding{}
	all := together(runs)
	for _, f := range all {
		byFile[f.At.File.Name] = append(byFile[f.At.File.Name], f)
	}
	names := ruleNames(all)
	out := junitSuites{Name: "hame"}
	for _, f := range allFiles(runs) {
		out.add(junitSuiteOf(f.Name, names, byFile[f.Name], o.Gate))
	}
	if _, err := io.WriteString(w, xml.Header); err != nil {
		return err
	}
	e := xml.NewEncoder(w)
	e.Indent("", "  ")
	if err := e.Encode(out); err != nil {
		return err
	}
	_, err := io.WriteString(w, "\n")
	return err
}

// ruleNames are the registered rules, and any other that found something.
func ruleNames(all []finding.Finding) []string {
	var names []string
	for _, r := range rules.All() {
		names = append(names, r.Name)
	}
	for _, f := range all {
		names = append(names, f.Rule)
	}
	slices.Sort(names)
	return slices.Compact(names)
}

type junitSuites struct {
	XMLName  xml.Name     `xml:"testsuites"`
	Name     string       `xml:"name,attr"`
	Tests    int          `xml:"tests,attr"`
	Failures int          `xml:"failures,attr"`
	Skipped  int          `xml:"skipped,attr"`
	Errors   int          `xml:"errors,attr"`
	Suites   []junitSuite `xml:"testsuite"`
}

func (s *junitSuites) add(suite junitSuite) {
	s.Tests += suite.Tests
	s.Failures += suite.Failures
	s.Skipped += suite.Skipped
	s.Suites = append(s.Suites, suite)
}

type junitSuite struct {
	Name     string      `xml:"name,attr"`
	Tests    int         `xml:"tests,attr"`
	Failures int         `xml:"failures,attr"`
	Skipped  int         `xml:"skipped,attr"`
	Errors   int         `xml:"errors,attr"`
	Cases    []junitCase `xml:"testcase"`
}

type junitCase struct {
	Name    string        `xml:"name,attr"`
	Class   string        `xml:"classname,attr"`
	Failure *junitFailure `xml:"failure"`
	Skipped *junitSkipped `xml:"skipped"`
	Output  string        `xml:"system-out,omitempty"`
}

type junitFailure struct {
	Message string `xml:"message,attr"`
	Type    string `xml:"type,attr"`
	Text    string `xml:",chardata"`
}

type junitSkipped struct {
	Message string `xml:"message,attr"`
}

func junitSuiteOf(file string, names []string, list []finding.Finding, g Gate) junitSuite {
	s := junitSuite{Name: plain(file)}
	byRule := map[string][]finding.Finding{}
	for _, f := range list {
		byRule[f.Rule] = append(byRule[f.Rule], f)
	}
	for _, name := range names {
		c := junitCaseOf(plain(file), name, byRule[name], g)
		s.Tests++
		switch {
		case c.Failure != nil:
			s.Failures++
		case c.Skipped != nil:
			s.Skipped++
		}
		s.Cases = append(s.Cases, c)
	}
	return s
}

// junitCaseOf puts all failures of a rule into one, for readers know one a
// case.
func junitCaseOf(file, rule string, list []finding.Finding, g Gate) junitCase {
	c := junitCase{Name: plain(rule), Class: file}
	var failed, told []string
	gravest := finding.Open
	for _, f := range list {
		text := junitText(f)
		switch {
		case g.Fails(f):
			failed, gravest = append(failed, text), max(gravest, f.Severity)
			continue
		case f.Severity == finding.Open && f.Allowed == nil && c.Skipped == nil:
			c.Skipped = &junitSkipped{"not judged: " + plain(f.Message)}
		}
		told = append(told, text)
	}
	if len(failed) > 0 {
		first, _, _ := strings.Cut(failed[0], "\n")
		c.Failure, c.Skipped = &junitFailure{first, gravest.String(), strings.Join(failed, "\n")}, nil
	}
	c.Output = strings.Join(told, "\n")
	return c
}

func junitText(f finding.Finding) string {
	lines := []string{located(f.At) + ": " + f.Severity.String() + ": " + allowedMark(f) + plain(f.Message) + " [" + plain(f.Rule) + "]"}
	for _, line := range slices.Concat(measuredText(f), f.Figures, notEmpty(f.Source)) {
		lines = append(lines, "    "+plain(line))
	}
	return strings.Join(lines, "\n")
}
