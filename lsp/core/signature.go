package core

import (
	"strings"

	"hame/lang/source"
	"hame/lang/syntax"
)

// Signature is how a statement or setting is written, and which part of it the
// author has come to.
type Signature struct {
	Label  string
	Params []source.Span // in the label
	Active int           // -1 where all parts are behind
	Note   *Note
}

// Signature says how what stands at an offset is written; nil where nothing is.
func (v *View) Signature(f *File, offset int) *Signature {
	at := placeAt(f, offset)
	if at == nil || at.quote && len(at.words) == 0 || len(at.words) == 0 {
		return nil
	}
	if at.header == nil {
		return statementSignature(at)
	}
	c := &completer{view: v, file: f, scope: v.Scope(f), at: at}
	row := c.row()
	if row == nil {
		return nil
	}
	s, ok := row.Setting(at.words[0])
	if !ok || s.Flag() {
		return nil
	}
	sig := signatureOf(s.Usage(), len(at.words))
	sig.Note = SettingNote(row, s)
	return sig
}

func statementSignature(at *place) *Signature {
	line := syntax.FormLine(at.words[0])
	if line == "" {
		return nil
	}
	if head, _, block := strings.Cut(line, " {"); block {
		line = head
	}
	active := len(at.words)
	if at.words[0] == "wire" {
		active = wireActive(at.words)
	}
	sig := signatureOf(line, active)
	sig.Note = aboutKeyword(at.words[0])
	return sig
}

// wireActive: what follows the gauge may be left out and stands in any number.
func wireActive(words []string) int {
	const gauge, length = 5, 8
	if n := len(words); n <= gauge {
		return n
	}
	for _, w := range words[gauge+1:] {
		if isLength(w) {
			return length + 1
		}
	}
	return min(len(words), length)
}

func isLength(value string) bool {
	return value != "" && value[0] >= '0' && value[0] <= '9'
}

// signatureOf takes the words of a usage line for its parts.
func signatureOf(line string, active int) *Signature {
	s := &Signature{Label: line, Active: active}
	at := 0
	for word := range strings.FieldsSeq(line) {
		start := at + strings.Index(line[at:], word)
		at = start + len(word)
		s.Params = append(s.Params, source.Span{Start: start, End: at})
	}
	if active >= len(s.Params) {
		s.Active = -1
	}
	return s
}
