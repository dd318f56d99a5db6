package core

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"hame/check"
	format "hame/fmt"
	"hame/lang/source"
)

// examples reads the whole harnesses of the project.
func examples(t *testing.T) []*File {
	t.Helper()
	paths, err := filepath.Glob("../../examples/*/*.hame")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	var list []*File
	for _, p := range paths {
		content, err := os.ReadFile(p)
		if err != nil {
			t.Fatal(err)
		}
		abs, err := filepath.Abs(p)
		if err != nil {
			t.Fatal(err)
		}
		list = append(list, NewFile(filepath.ToSlash(abs), string(content), 1))
	}
	return list
}

// edited applies edits that were meant for one text.
func edited(f *File, edits []Edit) *File {
	text := f.Text
	for i := len(edits) - 1; i >= 0; i-- { // renaming gives them in order
		if e := edits[i]; e.File.Path == f.Path {
			text = text[:e.Span.Start] + e.Text + text[e.Span.End:]
		}
	}
	return NewFile(f.Path, text, f.Version+1)
}

// TestRenameThereAndBack: names of the examples can be changed, the changed
// text has no more mistakes than before, and changing them back gives the text
// that there was. Where something cannot be read, refusing is right.
func TestRenameThereAndBack(t *testing.T) {
	const other, step = "some_other_name", 5
	for _, f := range examples(t) {
		v, refuses := NewView().With(f), strings.Contains(f.Path, "/faulty/")
		for i, m := range v.mentionsOf(f) {
			if !m.Declares || i%step != 0 {
				continue
			}
			edits, err := v.Rename(f, m.Span.Start, other)
			if err != nil && refuses {
				continue
			}
			if err != nil {
				t.Fatalf("%s: %s: %v", f.Path, m.Name, err)
			}
			there := edited(f, edits)
			if len(there.Tree().Mistakes) != len(f.Tree().Mistakes) {
				t.Errorf("%s: changing %s makes mistakes", f.Path, m.Name)
			}
			again := NewView().With(there)
			_, declared := again.Declaration(there, other)
			back, err := again.Rename(there, declared.Span.Start, m.Name)
			if err != nil {
				t.Fatalf("%s: back to %s: %v", f.Path, m.Name, err)
			}
			if got := edited(there, back); got.Text != f.Text {
				t.Errorf("%s: %s there and back: %s", f.Path, m.Name, cmp.Diff(f.Text, got.Text))
			}
		}
	}
}

// TestEveryWordHasAColour: the colours of a text stand in order, none over
// another, and none over a line's end.
func TestEveryWordHasAColour(t *testing.T) {
	for _, f := range examples(t) {
		end := 0
		for _, k := range NewView().With(f).Tokens(f, source.Span{End: len(f.Text)}) {
			if k.Span.Start < end || strings.Contains(f.Slice(k.Span), "\n") || k.Type >= len(tokenTypes) {
				t.Errorf("%s: %q at %d comes after %d", f.Path, f.Slice(k.Span), k.Span.Start, end)
			}
			end = k.Span.End
		}
	}
}

// TestFormattingByEditsIsFormatting: the edits of a whole text make of it what
// the formatter makes.
func TestFormattingByEditsIsFormatting(t *testing.T) {
	for _, f := range examples(t) {
		loose := source.New("t.hame", strings.NewReplacer("    ", "  ", " {", "   {").Replace(f.Text))
		want, err := format.Source(loose)
		if err != nil {
			t.Fatal(err)
		}
		list, err := format.Range(loose, source.Span{End: len(loose.Text)})
		if err != nil {
			t.Fatal(err)
		}
		got := loose.Text
		for i := len(list) - 1; i >= 0; i-- {
			got = got[:list[i].Start] + list[i].Text + got[list[i].End:]
		}
		if got != want {
			t.Errorf("%s: %s", f.Path, cmp.Diff(want, got))
		}
	}
}

// TestAnythingMayBeAsked: of any text, anywhere, everything may be asked.
func TestAnythingMayBeAsked(t *testing.T) {
	pieces := strings.Split("\n|\r\n|😀| |{|}|;|,|->|..|wire|w1|box|box.in|load|led|at|place|in|zone|draws|27 W|\"|#|allow|wire/hot|on|use|hame:lamps|part|is|require|volts|closed|mode|1.5 mm2|.", "|")
	rapid.Check(t, func(rt *rapid.T) {
		f := NewFile("/t.hame", strings.Join(rapid.SliceOf(rapid.SampledFrom(pieces)).Draw(rt, "pieces"), " "), 1)
		v := NewView().With(f)
		at := rapid.IntRange(0, len(f.Text)).Draw(rt, "at")
		p := checked(v, f)
		v.Hover(f, at, p)
		v.Complete(f, at, p)
		v.Signature(f, at)
		v.Definition(f, at)
		v.References(f, at, true)
		_, _ = v.Rename(f, at, "box2") // refusing is fine
		Folds(f)
		spans := Selections(f, at)
		for i := 1; i < len(spans); i++ {
			if spans[i].Start > spans[i-1].Start || spans[i].End < spans[i-1].End {
				rt.Fatalf("%v does not hold %v", spans[i], spans[i-1])
			}
		}
		v.Tokens(f, source.Span{End: len(f.Text)})
		for _, a := range v.Actions(f, source.Span{End: len(f.Text)}, p) {
			for _, e := range a.Edits {
				if e.Span.Start > e.Span.End || e.Span.End > len(e.File.Text) {
					rt.Fatalf("%s edits %v", a.Title, e.Span)
				}
			}
		}
		if feed, ok := v.FeedAt(f, at, p); ok {
			p.Feeds(feed.Name, true)
		}
	})
}

// TestAStalePassIsDropped: an edit while a check runs ends the waiting for it.
func TestAStalePassIsDropped(t *testing.T) {
	c := NewChecker(EarlyAfter)
	f := NewFile("/t.hame", "harness h { system 12 V }", 1)
	v := NewView().With(f)
	c.slots <- struct{}{} // all hands are busy, so that nothing is finished
	c.slots <- struct{}{}
	done := make(chan error)
	go func() {
		_, err := c.Pass(context.Background(), v, f.Path)
		done <- err
	}()
	for c.waiting() == 0 {
	}
	c.Edited(f.Path)
	if err := <-done; !errors.Is(err, ErrStale) {
		t.Errorf("%v, want %v", err, ErrStale)
	}
	<-c.slots
	<-c.slots
	if p, err := c.Pass(context.Background(), v, f.Path); err != nil || p.Run.Harness == nil {
		t.Errorf("the next pass: %v", err)
	}
}

// TestEarlyIsWhatWillBeFound: where an edit changes nothing that is judged, what
// is said early is what the check then finds, at the places of the new text.
func TestEarlyIsWhatWillBeFound(t *testing.T) {
	for _, f := range examples(t) {
		last := checked(NewView().With(f), f)
		for _, text := range []string{"# 😀\n" + f.Text, f.Text + "# the end\n", f.Text} {
			now := NewFile(f.Path, text, 2)
			v := NewView().With(now)
			full, soon := checked(v, now), soonOf(v, now, last)
			if diff := cmp.Diff(said(full), said(soon)); diff != "" {
				t.Errorf("%s (-full +early)\n%s", f.Path, diff)
			}
		}
	}
}

func checked(v *View, f *File) *Pass { return checkIn(v, f, check.Options{}, nil) }

// soonOf is what is said of a text before its check ends.
func soonOf(v *View, f *File, last *Pass) (soon *Pass) {
	checkIn(v, f, check.Options{}, func(bound *Pass) { soon = early(bound, last) })
	return soon
}

// said is what a pass found: where, by which rule, and the words.
func said(p *Pass) []string {
	var list []string
	for _, f := range p.Run.Findings {
		line := fmt.Sprintf("%s %v %s %s", p.PathOf(f.At.File), f.At.Span, f.Rule, f.Message)
		for _, r := range f.Related {
			line += fmt.Sprintf(" %v", r.Span)
		}
		list = append(list, line)
	}
	return list
}

// TestEarlyDropsWhatChanged: what was judged of a text that is no longer there
// is not said.
func TestEarlyDropsWhatChanged(t *testing.T) {
	const text = `harness h { system 12 V; practice land; wire gxl }
zone z { ambient 0..40 degC }
place a in z
supply battery main { at a; capacity 70 Ah; cranking 600 A; post M8; covered }
protection fuse f1 { at a; rating 15 A }
load motor p1 { at a; draws 7 A; drives pump; least 9 V }
wire w1 main.pos -> f1.in 2.5 mm2 red 0.1 m
wire w2 f1.out -> p1.pos 0.35 mm2 red 1 m
wire w3 p1.neg -> main.neg 2.5 mm2 black 1 m
`
	f := NewFile("/t.hame", text, 1)
	last := checked(NewView().With(f), f)
	const thin = "wire/undersized"
	if !strings.Contains(strings.Join(said(last), "\n"), thin) {
		t.Fatal("the wire is not too thin")
	}
	now := NewFile("/t.hame", strings.Replace(text, "w2 f1.out", "w9 f9.out", 1), 2)
	got := strings.Join(said(soonOf(NewView().With(now), now, last)), "\n")
	if strings.Contains(got, thin) || !strings.Contains(got, "name/unknown") {
		t.Errorf("early: %s", got)
	}
}

func (c *Checker) waiting() int {
	c.mu.Lock()
	defer c.mu.Unlock()
	return len(c.jobs)
}

// TestMarkupIsInert: nothing of what a harness says becomes markup.
func TestMarkupIsInert(t *testing.T) {
	n := &Note{}
	n.para("%s", "<b> *x* _y_ [z](javascript:1) `code <i>` #")
	n.code("```\nx")
	want := "&lt;b> \\*x\\* \\_y\\_ \\[z\\](javascript:1) `code <i>` \\#\n\n````hame\n```\nx\n````"
	if got := n.Markdown(); got != want {
		t.Errorf("%s\nwant %s", got, want)
	}
	if got := n.Plain(); !strings.HasPrefix(got, "<b> *x*") {
		t.Errorf("plain: %s", got)
	}
}
