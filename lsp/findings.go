package lsp

import (
	"encoding/json"
	"strings"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"

	"hame/check/rules"
	"hame/lang/finding"
	"hame/lsp/core"
)

// found is what was found in one file, each thing once though several passes
// may have found it.
type found struct {
	file *core.File
	list []protocol.Diagnostic
	seen map[string]bool
}

// collect sorts what passes have found by file. Every file that was looked at
// is there, though nothing may stand in it.
func (s *state) collect(passes []*core.Pass) map[string]*found {
	out := map[string]*found{}
	for _, p := range passes {
		for _, f := range p.Files() {
			if out[f.Path] == nil {
				out[f.Path] = &found{file: f, seen: map[string]bool{}}
			}
		}
		for i := range p.Run.Findings {
			s.add(out, p, &p.Run.Findings[i])
		}
	}
	return out
}

func (s *state) add(out map[string]*found, p *core.Pass, f *finding.Finding) {
	if f.At.File == nil {
		return
	}
	into := out[p.PathOf(f.At.File)]
	if into == nil || into.file.ReadOnly() {
		return
	}
	d := s.diagnostic(p, into.file, f)
	raw, err := protocol.Marshal(&d)
	if err != nil || into.seen[string(raw)] {
		return
	}
	into.seen[string(raw)] = true
	into.list = append(into.list, d)
}

// diagnostic is a finding as editors show it.
func (s *state) diagnostic(p *core.Pass, file *core.File, f *finding.Finding) protocol.Diagnostic {
	d := s.words(f)
	d.Range = s.rangeOf(file, f.At.Span)
	if s.client.related {
		d.RelatedInformation = s.related(p, f)
	}
	return d
}

// words are a finding without its places.
func (s *state) words(f *finding.Finding) protocol.Diagnostic {
	d := protocol.Diagnostic{
		Severity: severityOf(f), Code: protocol.String(f.Rule),
		Source: protocol.NewOptional("hame"), Message: protocol.String(message(f)), Data: dataOf(f),
	}
	if s.client.codeDescription && rules.Find(f.Rule) != nil {
		d.CodeDescription = protocol.CodeDescription{Href: uri.URI(rulePrefix + f.Rule + ruleSuffix)}
	}
	if s.client.tags && idle(f) {
		d.Tags = protocol.NewDiagnosticTags(protocol.DiagnosticTagUnnecessary)
	}
	return d
}

// severityOf: what a safety rule could not judge weighs as much as a warning,
// and what the author accepts is only hinted at.
func severityOf(f *finding.Finding) protocol.DiagnosticSeverity {
	rule := rules.Find(f.Rule)
	switch {
	case f.Allowed != nil:
		return protocol.DiagnosticSeverityHint
	case f.Severity == finding.Error:
		return protocol.DiagnosticSeverityError
	case f.Severity == finding.Warning, f.Severity == finding.Open && rule != nil && rule.Safety():
		return protocol.DiagnosticSeverityWarning
	}
	return protocol.DiagnosticSeverityInformation
}

// message is what was found and the figures that decided.
func message(f *finding.Finding) string {
	lines := append([]string{f.Message}, f.Figures...)
	if f.Mode != "" {
		lines = append(lines, "in: "+f.Mode)
	}
	if f.Source != "" {
		lines = append(lines, "by: "+f.Source)
	}
	if f.Fix != nil {
		lines = append(lines, "to mend it: "+f.Fix.Title)
	}
	if f.Allowed != nil {
		lines = append(lines, "allowed: "+f.Allowed.Because)
	}
	return strings.Join(lines, "\n")
}

func idle(f *finding.Finding) bool { return strings.HasSuffix(f.Rule, "/unused") }

// dataOf is what a program may want of a finding.
func dataOf(f *finding.Finding) protocol.LSPAny {
	raw, err := json.Marshal(struct {
		Rule     string `json:"rule"`
		Severity string `json:"severity"`
		Subject  string `json:"subject,omitempty"`
		Allowed  bool   `json:"allowed,omitempty"`
	}{f.Rule, f.Severity.String(), f.Subject, f.Allowed != nil})
	if err != nil {
		return nil
	}
	return raw
}

func (s *state) related(p *core.Pass, f *finding.Finding) []protocol.DiagnosticRelatedInformation {
	var list []protocol.DiagnosticRelatedInformation
	for _, r := range f.Related {
		if r.File == nil {
			continue
		}
		if file := p.FileOf(r.File); file != nil {
			list = append(list, protocol.DiagnosticRelatedInformation{Location: s.location(core.Spot{File: file, Span: r.Span}), Message: r.Message})
		}
	}
	return list
}
