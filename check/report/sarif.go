package report

import (
	"io"
	"strings"

	"hame/check/rules"
	"hame/check/wording"
	"hame/lang/finding"
	"hame/lang/source"
)

const (
	sarifVersion = "2.1.0"
	sarifSchema  = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json"
)

// SARIF writes SARIF 2.1.0 (OASIS, Static Analysis Results Interchange
// Format): one run of the tool over all files, with its table of rules.
func SARIF(w io.Writer, runs []Run, o Options) error {
	s := sarifWriter{index: map[string]int{}, artifact: map[string]int{}}
	driver := sarifDriver{Name: "hame", Version: o.Version, SemanticVersion: o.Version, Rules: s.rules()}
	out := sarifRun{
		Tool:        sarifTool{driver},
		Invocations: []sarifInvocation{{true}},
		Artifacts:   s.artifacts(allFiles(runs)),
		Results:     []sarifResult{},
		ColumnKind:  "utf16CodeUnits",
	}
	for _, f := range together(runs) {
		out.Results = append(out.Results, s.result(f))
	}
	return wording.JSON(w, sarifLog{sarifSchema, sarifVersion, []sarifRun{out}})
}

type sarifWriter struct {
	index    map[string]int // of a rule in the table
	artifact map[string]int // of a file in the list
	columns  columnCounter
}

func (s *sarifWriter) rules() []sarifRule {
	list := []sarifRule{}
	for i, r := range rules.All() {
		s.index[r.Name] = i
		list = append(list, sarifRuleOf(r))
	}
	return list
}

func sarifRuleOf(r *rules.Rule) sarifRule {
	level, _ := sarifLevel(r.Severity)
	return sarifRule{
		ID:         r.Name,
		Short:      sarifMessage{r.Summary},
		Full:       sarifMessageOf(r.Why),
		Help:       sarifMessageOf(helpText(r)),
		Default:    sarifConfiguration{level},
		Properties: sarifRuleProperties{Tags: []string{r.Area()}, Safety: r.Safety(), Since: r.Since},
	}
}

// helpText is why the rule is there and what it must be told.
func helpText(r *rules.Rule) string {
	text := r.Why
	if r.Needs != "" {
		text += "\n\nNeeds: " + r.Needs
	}
	for _, l := range r.Limits {
		text += "\n\nLimit: " + l.Text + " (" + limitOrigin(l) + ")"
	}
	return text
}

func limitOrigin(l rules.Limit) string {
	text := strings.TrimSpace(l.Document + " " + l.Clause)
	return strings.TrimPrefix(text+", "+l.Mark, ", ")
}

func (s *sarifWriter) artifacts(files []*source.File) []sarifArtifact {
	list := []sarifArtifact{}
	for i, f := range files {
		s.artifact[f.Name] = i
		list = append(list, sarifArtifact{sarifFile{URI: uriOf(f.Name)}, len(f.Text)})
	}
	return list
}

// sarifLevel maps a severity to a level and a kind. The standard wants level
// none on every kind but fail, and has the kind open for our own word.
func sarifLevel(s finding.Severity) (level, kind string) {
	switch s {
	case finding.Error:
		return "error", "fail"
	case finding.Warning:
		return "warning", "fail"
	case finding.Advice:
		return "note", "fail"
	}
	return "none", "open"
}

func (s *sarifWriter) result(f finding.Finding) sarifResult {
	level, kind := sarifLevel(f.Severity)
	out := sarifResult{
		RuleID: f.Rule, Kind: kind, Level: level, Message: sarifMessage{sarifText(f)},
		Locations:    []sarifLocation{{Physical: s.physical(f.At), Logical: sarifLogicalOf(f.Subject)}},
		Suppressions: sarifSuppressionsOf(f.Allowed),
		Fixes:        s.fixes(f.Fix),
		Properties:   sarifPropertiesOf(f),
	}
	if i, ok := s.index[f.Rule]; ok {
		out.RuleIndex = &i
	}
	for i, r := range f.Related {
		if !r.IsZero() {
			out.Related = append(out.Related, sarifLocation{ID: i + 1, Physical: s.physical(r.Place), Message: sarifMessageOf(r.Message)})
		}
	}
	return out
}

// sarifText is the message, and what it was judged by where viewers show
// nothing else.
func sarifText(f finding.Finding) string {
	text := f.Message
	for _, line := range measuredText(f) {
		text += "\n" + line
	}
	for _, line := range f.Figures {
		text += "\n" + line
	}
	if f.Source != "" {
		text += "\n" + f.Source
	}
	for _, line := range needTexts(f.Needs) {
		text += "\nneeds " + line
	}
	return text
}

// fixes groups the edits by file.
func (s *sarifWriter) fixes(f *finding.Fix) []sarifFix {
	if f == nil || len(f.Edits) == 0 {
		return nil
	}
	at := map[string]int{}
	out := sarifFix{Description: sarifMessage{f.Title}}
	for _, e := range f.Edits {
		if e.IsZero() {
			continue
		}
		i, ok := at[e.File.Name]
		if !ok {
			i, at[e.File.Name] = len(out.Changes), len(out.Changes)
			out.Changes = append(out.Changes, sarifChange{Artifact: s.file(e.File)})
		}
		out.Changes[i].Replacements = append(out.Changes[i].Replacements, sarifReplacement{s.region(e.Place), sarifContent{e.Text}})
	}
	if len(out.Changes) == 0 {
		return nil
	}
	return []sarifFix{out}
}

func (s *sarifWriter) physical(p finding.Place) *sarifPhysical {
	return &sarifPhysical{s.file(p.File), s.region(p)}
}

func (s *sarifWriter) file(f *source.File) sarifFile {
	out := sarifFile{URI: uriOf(f.Name)}
	if i, ok := s.artifact[f.Name]; ok {
		out.Index = &i
	}
	return out
}

func (s *sarifWriter) region(p finding.Place) sarifRegion {
	at := regionOf(p)
	return sarifRegion{
		StartLine: at.from.Line, StartColumn: s.columns.utf16(p.File, p.Start) + 1,
		EndLine: at.to.Line, EndColumn: s.columns.utf16(p.File, max(p.End, p.Start)) + 1,
		ByteOffset: min(max(p.Start, 0), len(p.File.Text)), ByteLength: len(p.File.Slice(p.Span)),
	}
}
