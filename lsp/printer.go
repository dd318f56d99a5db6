package lsp

import (
	"bytes"
	"encoding/json"
	"strconv"

	"go.lsp.dev/protocol"

	"hame/lang/finding"
	"hame/lang/source"
	"hame/lsp/core"
)

// printer writes findings as the client reads them. From one check to the next
// most of what is said stays, and only places move: so it keeps the words that it
// wrote last.
type printer struct {
	words map[string][]byte // what stands behind the place, by what is said
	last  map[string][]byte // of the time before: what is not said again is dropped
	key   []byte
}

// page is what was found in one file, each thing once though several passes may
// have found it.
type page struct {
	file  *core.File
	body  []byte // between the brackets
	items []item
	seen  map[string]bool // where several passes write
}

// item is one finding on a page: where in the file it starts, and where on the
// page it stands.
type item struct{ at, start, end int }

// pages are what passes have found, by file. Every file that was looked at is
// there, though nothing may stand in it.
func (w *printer) pages(s *state, passes []*core.Pass) map[string]*page {
	w.last, w.words = w.words, make(map[string][]byte, len(w.words))
	out := map[string]*page{}
	for _, p := range passes {
		for _, f := range p.Files() {
			if out[f.Path] == nil {
				out[f.Path] = &page{file: f}
				if len(passes) > 1 {
					out[f.Path].seen = map[string]bool{}
				}
			}
		}
		w.write(s, p, out)
	}
	return out
}

// write writes what a pass has found.
func (w *printer) write(s *state, p *core.Pass, out map[string]*page) {
	by := map[*source.File]*page{}
	for i := range p.Run.Findings {
		f := &p.Run.Findings[i]
		if f.At.File == nil {
			continue
		}
		on, known := by[f.At.File]
		if !known {
			on = out[p.PathOf(f.At.File)]
			by[f.At.File] = on
		}
		if on != nil && !on.file.ReadOnly() {
			w.add(s, p, on, f)
		}
	}
}

// unplaced is how a finding at the start of a file begins: what a place takes the
// place of.
const unplaced = `{"range":{"start":{"line":0,"character":0},"end":{"line":0,"character":0}}`

// add writes one finding, if it does not stand there already.
func (w *printer) add(s *state, p *core.Pass, on *page, f *finding.Finding) {
	start := len(on.body)
	if start > 0 {
		on.body = append(on.body, ',')
	}
	from := len(on.body)
	on.body = append(on.body, `{"range":`...)
	on.body = appendRange(on.body, s.rangeOf(on.file, f.At.Span))
	w.related(s, p, on, f)
	on.body = append(on.body, w.rest(s, f)...)
	if on.has(on.body[from:], f.At.Start) {
		on.body = on.body[:start]
		return
	}
	on.items = append(on.items, item{f.At.Start, from, len(on.body)})
}

// has reports whether a page has a finding already. One pass lists its findings in
// the order of their places.
func (on *page) has(raw []byte, at int) bool {
	if on.seen != nil {
		had := on.seen[string(raw)]
		on.seen[string(raw)] = true
		return had
	}
	for i := len(on.items) - 1; i >= 0 && on.items[i].at == at; i-- {
		if bytes.Equal(on.body[on.items[i].start:on.items[i].end], raw) {
			return true
		}
	}
	return false
}

// related writes the other places that a finding names, and why.
func (w *printer) related(s *state, p *core.Pass, on *page, f *finding.Finding) {
	if !s.client.related {
		return
	}
	before := `,"relatedInformation":[`
	for _, r := range f.Related {
		if r.File == nil {
			continue
		}
		file := p.FileOf(r.File)
		if file == nil {
			continue
		}
		on.body = append(append(on.body, before...), `{"location":{"uri":`...)
		on.body = append(on.body, w.quoted(string(s.uris.of(file.Path)))...)
		on.body = appendRange(append(on.body, `,"range":`...), s.rangeOf(file, r.Span))
		on.body = append(append(on.body, `},"message":`...), w.quoted(r.Message)...)
		on.body, before = append(on.body, '}'), ","
	}
	if before == "," {
		on.body = append(on.body, ']')
	}
}

// quoted is a text as JSON.
func (w *printer) quoted(text string) []byte {
	w.key = append(append(w.key[:0], 3), text...)
	return w.kept(func() []byte {
		raw, err := json.Marshal(text)
		if err != nil {
			return []byte(`""`) // a text is never refused
		}
		return raw
	})
}

// rest is all of a finding behind its places.
func (w *printer) rest(s *state, f *finding.Finding) []byte {
	w.say(f)
	return w.kept(func() []byte {
		d := s.words(f)
		raw, err := protocol.Marshal(&d)
		if err != nil || !bytes.HasPrefix(raw, []byte(unplaced)) {
			panic("a finding is written in another way than it was")
		}
		return raw[len(unplaced):]
	})
}

// kept is what was written under the key, or writes it.
func (w *printer) kept(write func() []byte) []byte {
	raw, ok := w.words[string(w.key)]
	if ok {
		return raw
	}
	key := string(w.key)
	if raw, ok = w.last[key]; !ok {
		raw = write()
	}
	w.words[key] = raw
	return raw
}

// say makes the key of a finding: everything that is said of it.
func (w *printer) say(f *finding.Finding) {
	w.key = append(w.key[:0], byte(f.Severity))
	word := func(t string) { w.key = append(append(w.key, t...), 0) }
	for _, t := range []string{f.Rule, f.Subject, f.Message, f.Mode, f.Source} {
		word(t)
	}
	for _, t := range f.Figures {
		word(t)
	}
	if f.Fix != nil {
		w.key = append(w.key, 1)
		word(f.Fix.Title)
	}
	if f.Allowed != nil {
		w.key = append(w.key, 2)
		word(f.Allowed.Because)
	}
}

func appendRange(to []byte, r protocol.Range) []byte {
	to = append(to, `{"start":`...)
	to = appendPosition(to, r.Start)
	to = append(to, `,"end":`...)
	return append(appendPosition(to, r.End), '}')
}

func appendPosition(to []byte, p protocol.Position) []byte {
	to = strconv.AppendUint(append(to, `{"line":`...), uint64(p.Line), 10)
	to = strconv.AppendUint(append(to, `,"character":`...), uint64(p.Character), 10)
	return append(to, '}')
}
