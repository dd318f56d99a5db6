package editors

import (
	"bytes"
	"encoding/json"
	"strconv"
)

// textMateRule is one pattern of a TextMate grammar (TextMate manual, "Language
// Grammars").
type textMateRule struct {
	Include       string                  `json:"include,omitempty"`
	Name          string                  `json:"name,omitempty"`
	Match         string                  `json:"match,omitempty"`
	Captures      map[string]textMateName `json:"captures,omitempty"`
	Begin         string                  `json:"begin,omitempty"`
	BeginCaptures map[string]textMateName `json:"beginCaptures,omitempty"`
	End           string                  `json:"end,omitempty"`
	EndCaptures   map[string]textMateName `json:"endCaptures,omitempty"`
	Patterns      []textMateRule          `json:"patterns,omitempty"`
}

type textMateName struct {
	Name string `json:"name"`
}

type textMateFile struct {
	Comment    string                  `json:"comment"`
	Name       string                  `json:"name"`
	ScopeName  string                  `json:"scopeName"`
	FileTypes  []string                `json:"fileTypes"`
	Patterns   []textMateRule          `json:"patterns"`
	Repository map[string]textMateRule `json:"repository"`
}

// TextMate is the grammar in the form that many editors read.
func TextMate() ([]byte, error) {
	g := language()
	file := textMateFile{
		Comment: "Made from the language: go test ./lsp/editors -update",
		Name:    "Hame", ScopeName: "source.hame", FileTypes: []string{"hame"},
		Repository: map[string]textMateRule{},
	}
	for i, s := range g.states {
		rules := g.textMate(s)
		if i == 0 {
			file.Patterns = rules
			continue
		}
		file.Repository[s.name] = textMateRule{Patterns: rules}
	}
	var out bytes.Buffer
	e := json.NewEncoder(&out)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	err := e.Encode(file)
	return out.Bytes(), err
}

// textMate writes a state's rules: one that enters a state becomes a pair of
// begin and end, with the state's own rules between.
func (g *grammar) textMate(s *state) []textMateRule {
	var list []textMateRule
	for _, r := range s.rules {
		if r.include != "" {
			list = append(list, textMateRule{Include: "#" + r.include})
			continue
		}
		if r.enter == "" {
			if c := scopes(r.looks, s.whole); len(c) > 0 {
				list = append(list, textMateRule{Match: r.pattern, Captures: c})
			}
			continue
		}
		inner := g.state(r.enter)
		list = append(list, textMateRule{
			Name:  scope(inner.whole),
			Begin: r.pattern, BeginCaptures: scopes(r.looks, inner.whole),
			End: inner.leave.pattern, EndCaptures: scopes(inner.leave.looks, inner.whole),
			Patterns: []textMateRule{{Include: "#" + r.enter}},
		})
	}
	return list
}

// scopes are those of a part's groups, where they add to the whole's.
func scopes(looks []look, whole look) map[string]textMateName {
	m := map[string]textMateName{}
	for i, l := range looks {
		if l.scope != "" && l != whole {
			m[strconv.Itoa(i+1)] = textMateName{scope(l)}
		}
	}
	return m
}

func scope(l look) string {
	if l.scope == "" {
		return ""
	}
	return l.scope + ".hame"
}
