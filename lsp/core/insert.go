package core

import (
	"strings"

	"hame/lang/source"
	"hame/lang/syntax"
)

// newline is how a file ends its lines.
func newline(f *File) string {
	if strings.Contains(f.Text, "\r\n") {
		return "\r\n"
	}
	return "\n"
}

// indentOf is the white space that an offset's line starts with.
func indentOf(f *File, offset int) string {
	lines := f.Lines()
	line := lines.LineOf(offset)
	text := f.Text[lines.Start(line):lines.End(line)]
	return text[:len(text)-len(strings.TrimLeft(text, " \t"))]
}

const indentStep = "    "

// addSetting puts a setting into a declaration's block, or gives it a block.
func addSetting(f *File, d syntax.Decl, setting string) Edit {
	h := d.Header()
	b := h.Block
	switch {
	case b == nil:
		return Edit{f, source.Span{Start: h.End, End: h.End}, " { " + setting + " }"}
	case !b.Closed:
		return Edit{f, source.Span{Start: b.End, End: b.End}, newline(f) + indentOf(f, h.Start) + indentStep + setting}
	}
	end := b.End - 1 // the closing brace
	if f.Lines().LineOf(b.Start) == f.Lines().LineOf(end) {
		return oneLine(f, b, end, setting)
	}
	line := f.Lines().Start(f.Lines().LineOf(end))
	if strings.TrimSpace(f.Text[line:end]) != "" {
		return Edit{f, source.Span{Start: end, End: end}, "; " + setting + " "}
	}
	return Edit{f, source.Span{Start: line, End: line}, settingIndent(f, d) + setting + newline(f)}
}

// oneLine adds to a block that stands on one line.
func oneLine(f *File, b *syntax.Block, end int, setting string) Edit {
	inner := strings.TrimSpace(f.Text[b.Start+1 : end])
	from := b.Start + 1 + len(strings.TrimRight(f.Text[b.Start+1:end], " \t"))
	text := "; " + setting + " "
	if inner == "" || strings.HasSuffix(inner, ";") {
		text = " " + setting + " "
	}
	return Edit{f, source.Span{Start: from, End: end}, text}
}

// settingIndent is how far the settings of a block stand in.
func settingIndent(f *File, d syntax.Decl) string {
	h := d.Header()
	if n := len(h.Block.Settings); n > 0 {
		last := h.Block.Settings[n-1]
		if f.Lines().LineOf(last.Start) != f.Lines().LineOf(h.Block.Start) {
			return indentOf(f, last.Start)
		}
	}
	return indentOf(f, h.Start) + indentStep
}

// appendLine puts a statement at a file's end.
func appendLine(f *File, statement string) Edit {
	end := len(f.Text)
	text := statement + newline(f)
	if end > 0 && !strings.HasSuffix(f.Text, "\n") {
		text = newline(f) + text
	}
	return Edit{f, source.Span{Start: end, End: end}, text}
}

// insertStatement puts a statement behind the last one of its keyword, else
// before the declaration that needs it.
func insertStatement(f *File, before syntax.Decl, statement string) Edit {
	keyword, _, _ := strings.Cut(statement, " ")
	var last *syntax.Head
	for _, d := range f.Tree().Decls {
		if h := d.Header(); h.Keyword.Text == keyword && h.Name.Text != "" {
			last = h
		}
	}
	lines := f.Lines()
	if last != nil {
		line := lines.LineOf(max(last.Start, last.End-1))
		if line+1 >= lines.Count() {
			return appendLine(f, statement)
		}
		at := lines.Start(line + 1)
		return Edit{f, source.Span{Start: at, End: at}, statement + newline(f)}
	}
	h := before.Header()
	line := lines.LineOf(h.Start)
	if h.Doc != "" {
		line -= strings.Count(h.Doc, "\n") + 1
	}
	at := lines.Start(max(line, 0))
	return Edit{f, source.Span{Start: at, End: at}, statement + newline(f)}
}
