package lsp

import (
	"encoding/json"
	"slices"

	"go.lsp.dev/protocol"

	"hame/lsp/text"
)

// client is what the client can do.
type client struct {
	encoding        text.Encoding
	pulls           bool // it asks for findings
	markdownHover   bool
	markdownItems   bool
	snippets        bool
	related         bool
	tags            bool
	resolves        bool // it asks for an action's edit when it's taken
	codeDescription bool
	versions        bool // of published findings
	documentChanges bool
	watches         bool
	refreshHints    bool
	refreshLenses   bool
	refreshFindings bool
	refreshTokens   bool
}

// yes reads what may be left out.
func yes(b *bool) bool { return b != nil && *b }

func ptr[T any](v T) *T { return &v }

// clientOf reads the capabilities that matter here.
func clientOf(c *protocol.ClientCapabilities) client {
	out := client{}
	if g := c.General; g != nil {
		out.encoding = agreed(g.PositionEncodings)
	}
	if t := c.TextDocument; t != nil {
		out.documents(t)
	}
	if w := c.Workspace; w != nil {
		out.workspace(w)
	}
	return out
}

// agreed picks an encoding: UTF-8 needs no counting, UTF-16 is what everybody
// knows.
func agreed(offered []protocol.PositionEncodingKind) text.Encoding {
	switch {
	case slices.Contains(offered, protocol.PositionEncodingKindUTF8):
		return text.UTF8
	case len(offered) > 0 && !slices.Contains(offered, protocol.PositionEncodingKindUTF16) &&
		slices.Contains(offered, protocol.PositionEncodingKindUTF32):
		return text.UTF32
	}
	return text.UTF16
}

var encodingNames = map[text.Encoding]protocol.PositionEncodingKind{
	text.UTF8: protocol.PositionEncodingKindUTF8, text.UTF16: protocol.PositionEncodingKindUTF16, text.UTF32: protocol.PositionEncodingKindUTF32,
}

func (c *client) documents(t *protocol.TextDocumentClientCapabilities) {
	c.pulls = t.Diagnostic != nil
	if h := t.Hover; h != nil {
		c.markdownHover = slices.Contains(h.ContentFormat, protocol.MarkupKindMarkdown)
	}
	if i := t.Completion; i != nil && i.CompletionItem != nil {
		c.snippets = yes(i.CompletionItem.SnippetSupport)
		c.markdownItems = slices.Contains(i.CompletionItem.DocumentationFormat, protocol.MarkupKindMarkdown)
	}
	if a := t.CodeAction; a != nil {
		c.resolves = yes(a.DataSupport) && slices.Contains(a.ResolveSupport.Properties, "edit")
	}
	if p := t.PublishDiagnostics; p != nil {
		c.related, c.codeDescription = yes(p.RelatedInformation), yes(p.CodeDescriptionSupport)
		c.tags, c.versions = len(p.TagSupport.ValueSet) > 0, yes(p.VersionSupport)
	}
	if d := t.Diagnostic; d != nil {
		c.related = c.related || yes(d.RelatedInformation)
		c.codeDescription = c.codeDescription || yes(d.CodeDescriptionSupport)
		c.tags = c.tags || len(d.TagSupport.ValueSet) > 0
	}
}

func (c *client) workspace(w *protocol.WorkspaceClientCapabilities) {
	if e := w.WorkspaceEdit; e != nil {
		c.documentChanges = yes(e.DocumentChanges)
	}
	if d := w.DidChangeWatchedFiles; d != nil {
		c.watches = yes(d.DynamicRegistration)
	}
	c.refreshHints = w.InlayHint != nil && yes(w.InlayHint.RefreshSupport)
	c.refreshLenses = w.CodeLens != nil && yes(w.CodeLens.RefreshSupport)
	c.refreshFindings = w.Diagnostics != nil && yes(w.Diagnostics.RefreshSupport)
	c.refreshTokens = w.SemanticTokens != nil && yes(w.SemanticTokens.RefreshSupport)
}

// settings are what the user may set, under `hame`.
type settings struct {
	WireHints bool
	LoadHints bool
	Lenses    bool
}

var defaults = settings{WireHints: true, LoadHints: true, Lenses: true}

// settingsOf reads settings as clients send them, `hame` around them or not.
// What is not said stays as it was, and so does all where nothing can be read.
func settingsOf(raw []byte, was settings) settings {
	type hints struct {
		Wires *bool `json:"wires"`
		Loads *bool `json:"loads"`
	}
	type said struct {
		InlayHints *hints `json:"inlayHints"`
		CodeLens   *bool  `json:"codeLens"`
	}
	var s struct {
		said
		Hame *said `json:"hame"`
	}
	if len(raw) == 0 || json.Unmarshal(raw, &s) != nil {
		return was
	}
	in := s.said
	if s.Hame != nil {
		in = *s.Hame
	}
	set(&was.Lenses, in.CodeLens)
	if in.InlayHints != nil {
		set(&was.WireHints, in.InlayHints.Wires)
		set(&was.LoadHints, in.InlayHints.Loads)
	}
	return was
}

func set(to, from *bool) {
	if from != nil {
		*to = *from
	}
}
