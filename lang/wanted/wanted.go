// Package wanted checks findings against what a fixture itself says, on the
// lines that it concerns:
//
//	load led lamp { draws }  # want text/syntax "expected a value"
//
// One comment may want several findings, each a rule name and, if it matters, a
// text in quotes that the message must hold. A want that has no place on its
// own line, because a text or a statement must end there, stands alone in the
// line below and starts with `# want above`.
package wanted

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hame/lang/finding"
	"hame/lang/source"
	"hame/lang/token"
)

// T is what a test must be able to do.
type T interface {
	Helper()
	Errorf(format string, args ...any)
}

// Want is one finding that a fixture expects.
type Want struct {
	Line       int // from 1
	Rule, Says string
}

// Of reads a fixture's wants, in the order of its text.
func Of(f *source.File) ([]Want, error) {
	_, comments := token.Lex(f)
	var wants []Want
	for _, c := range comments {
		line := f.Position(c.Start).Line
		_, text, found := strings.Cut(f.Slice(c.Span), "# want ")
		if !found {
			continue
		}
		if rest, above := strings.CutPrefix(text, "above "); above {
			text, line = rest, line-1
		}
		more, err := onLine(line, text)
		if err != nil {
			return nil, fmt.Errorf("%s:%d: %w", f.Name, line, err)
		}
		wants = append(wants, more...)
	}
	return wants, nil
}

// onLine reads the rules and quoted texts of one comment.
func onLine(line int, text string) ([]Want, error) {
	var wants []Want
	for text = strings.TrimSpace(text); text != ""; text = strings.TrimSpace(text) {
		if text[0] == '"' {
			quoted, err := strconv.QuotedPrefix(text)
			if err != nil || len(wants) == 0 {
				return nil, fmt.Errorf("cannot read the want %s", text)
			}
			wants[len(wants)-1].Says, _ = strconv.Unquote(quoted)
			text = text[len(quoted):]
			continue
		}
		rule, rest, _ := strings.Cut(text, " ")
		wants, text = append(wants, Want{Line: line, Rule: rule}), rest
	}
	return wants, nil
}

// Check fails for each finding in the file that no want expects and for each
// want that no finding meets. Findings in other files are none of its business.
func Check(t T, f *source.File, found []finding.Finding) {
	t.Helper()
	wants, err := Of(f)
	if err != nil {
		t.Errorf("%v", err)
		return
	}
	for _, one := range found {
		if one.At.File != f {
			continue
		}
		line := f.Position(one.At.Start).Line
		i := slices.IndexFunc(wants, func(w Want) bool {
			return w.Line == line && w.Rule == one.Rule && strings.Contains(one.Message, w.Says)
		})
		if i < 0 {
			t.Errorf("%s:%d: not wanted: %s %q", f.Name, line, one.Rule, one.Message)
			continue
		}
		wants = slices.Delete(wants, i, i+1)
	}
	for _, w := range wants {
		t.Errorf("%s:%d: wanted, not found: %s %q", f.Name, w.Line, w.Rule, w.Says)
	}
}
