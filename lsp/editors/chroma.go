package editors

import (
	"bytes"
	"encoding/xml"
)

type chromaToken struct {
	XMLName xml.Name `xml:"token"`
	Type    string   `xml:"type,attr"`
}

type chromaGroups struct {
	XMLName xml.Name `xml:"bygroups"`
	Tokens  []chromaToken
}

// chromaPush names a state, to enter or to include.
type chromaPush struct {
	State string `xml:"state,attr"`
}

type chromaPop struct {
	Depth int `xml:"depth,attr"`
}

type chromaRule struct {
	Pattern string `xml:"pattern,attr,omitempty"`
	Token   *chromaToken
	Groups  *chromaGroups
	Include *chromaPush `xml:"include"`
	Push    *chromaPush `xml:"push"`
	Pop     *chromaPop  `xml:"pop"`
}

type chromaState struct {
	Name  string       `xml:"name,attr"`
	Rules []chromaRule `xml:"rule"`
}

type chromaFile struct {
	XMLName  xml.Name      `xml:"lexer"`
	Name     string        `xml:"config>name"`
	Alias    string        `xml:"config>alias"`
	Filename string        `xml:"config>filename"`
	MIME     string        `xml:"config>mime_type"`
	EnsureNL bool          `xml:"config>ensure_nl"`
	States   []chromaState `xml:"rules>state"`
}

// Chroma is the grammar as a lexer of Chroma, which makes pages of it.
func Chroma() ([]byte, error) {
	file := chromaFile{Name: "Hame", Alias: "hame", Filename: "*.hame", MIME: "text/x-hame", EnsureNL: true}
	for _, s := range language().states {
		file.States = append(file.States, s.chroma())
	}
	var out bytes.Buffer
	out.WriteString("<!-- Made from the language: go test ./lsp/editors -update -->\n")
	e := xml.NewEncoder(&out)
	e.Indent("", "  ")
	err := e.Encode(file)
	out.WriteByte('\n')
	return out.Bytes(), err
}

// chroma writes a state: what ends it first, then its rules, then the blanks
// that no rule takes.
func (s *state) chroma() chromaState {
	out := chromaState{Name: s.name}
	if s.leave.pattern != "" {
		r := chromaOf(s.leave)
		r.Pop = &chromaPop{1}
		out.Rules = append(out.Rules, r)
	}
	for _, r := range s.rules {
		if r.include != "" {
			out.Rules = append(out.Rules, chromaRule{Include: &chromaPush{r.include}})
			continue
		}
		c := chromaOf(r.part)
		if r.enter != "" {
			c.Push = &chromaPush{r.enter}
		}
		out.Rules = append(out.Rules, c)
	}
	if !s.shared {
		out.Rules = append(out.Rules, chromaOf(one(`[ \t\r]+|\n`, blank)))
	}
	return out
}

// chromaOf writes a part: a look for each of its groups, or for all of it.
func chromaOf(p part) chromaRule {
	r := chromaRule{Pattern: p.pattern}
	switch len(p.looks) {
	case 0:
		return r
	case 1:
		r.Token = &chromaToken{Type: p.looks[0].class}
		return r
	}
	r.Groups = &chromaGroups{}
	for _, l := range p.looks {
		r.Groups.Tokens = append(r.Groups.Tokens, chromaToken{Type: l.class})
	}
	return r
}
