package yard

import (
	"fmt"
	"strings"
)

// Text is one harness as it is written, with the line of each declaration by
// its name (of a panel's way: panel.N). Lines count from 1.
type Text struct {
	Source string
	Lines  map[string]int
}

// Print writes the harness.
func (h *Harness) Print() Text {
	p := printer{lines: map[string]int{}, line: 1}
	p.item(h.Head)
	for _, list := range [][]*Item{h.Zones, h.Places, h.Bundles, h.Devices} {
		for _, i := range list {
			p.item(i)
		}
	}
	for _, w := range h.Wires {
		i := w.Item
		i.Decl, i.Tail = "wire", w.tail()
		p.item(&i)
	}
	for _, list := range [][]*Item{h.Modes, h.Promises} {
		for _, i := range list {
			p.item(i)
		}
	}
	return Text{p.out.String(), p.lines}
}

func (w *Wire) tail() string {
	t := w.From + " -> " + w.To + " " + w.Gauge
	for _, word := range []string{w.Insulation, w.Colour} {
		if word != "" {
			t += " " + word
		}
	}
	if w.LengthM > 0 {
		t += fmt.Sprintf(" %.4g m", w.LengthM)
	}
	return t
}

type printer struct {
	out   strings.Builder
	lines map[string]int
	line  int
}

func (p *printer) put(text string) {
	p.out.WriteString(text)
	p.out.WriteByte('\n')
	p.line++
}

func (p *printer) item(i *Item) {
	head := strings.TrimRight(i.Decl+" "+i.Name+" "+i.Tail, " ")
	if p.lines[i.Name] == 0 {
		p.lines[i.Name] = p.line
	}
	switch {
	case len(i.Settings) == 0:
		p.put(head)
	case i.Tall:
		p.put(head + " {")
		for _, s := range i.Settings {
			if n, _, _ := strings.Cut(s.Value, " "); s.Key == "way" {
				p.lines[i.Name+"."+n] = p.line
			}
			p.put("    " + s.text())
		}
		p.put("}")
	default:
		var parts []string
		for _, s := range i.Settings {
			parts = append(parts, s.text())
		}
		p.put(head + " { " + strings.Join(parts, "; ") + " }")
	}
}

func (s Setting) text() string { return strings.TrimSpace(s.Key + " " + s.Value) }
