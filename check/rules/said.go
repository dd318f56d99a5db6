package rules

import (
	"strings"

	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

// saying is an edit that puts a setting or flag first into a declaration's own
// block, or opens one where the declaration has none.
func saying(o harness.Origin, setting string) finding.Edit {
	at, text := o.Decl.End, " { "+setting+" }"
	after := o.File.Text[o.Name.End:o.Decl.End]
	if brace := strings.IndexByte(after, '{'); brace >= 0 {
		at, text = o.Name.End+brace+1, " "+setting+";"
	}
	span := o.Name
	span.Start, span.End = at, at
	return finding.Edit{Place: finding.Place{File: o.File, Span: span}, Text: text}
}

// saidHere is where a setting's own value is written, if that is in the
// declaration itself and not in a part that it is of.
func saidHere(o harness.Origin, args kinds.Args) (finding.Place, bool) {
	a, ok := args.Get("")
	own := ok && args.Key.Start >= o.Decl.Start && a.End <= o.Decl.End && o.File.Text[args.Key.Start:args.Key.End] == args.Setting.Name
	return finding.Place{File: o.File, Span: a.Span}, own
}
