package source_test

import (
	"strings"
	"testing"
	"unicode/utf16"

	"pgregory.net/rapid"

	"hame/lang/source"
)

func TestPositions(t *testing.T) {
	f := source.New("t", "ab\r\nc\n\nüé😀x")
	for _, c := range []struct{ offset, line, column int }{
		{0, 1, 1}, {2, 1, 3}, {4, 2, 1}, {5, 2, 2}, {6, 3, 1}, {7, 4, 1}, {9, 4, 3}, {15, 4, 9}, {99, 4, 10}, {-3, 1, 1},
	} {
		if p := f.Position(c.offset); p.Line != c.line || p.Column != c.column {
			t.Errorf("offset %d lies at %d:%d, want %d:%d", c.offset, p.Line, p.Column, c.line, c.column)
		}
	}
	if f.Line(1) != "ab" || f.Line(4) != "üé😀x" || f.Line(9) != "" || f.Lines() != 4 {
		t.Errorf("lines: %q %q, %d of them", f.Line(1), f.Line(4), f.Lines())
	}
	// ü and é are one UTF-16 unit each, the emoji two (Unicode, chapter 3.9).
	if u := f.UTF16Column(15); u != 4 {
		t.Errorf("x stands at %d, want 4", u)
	}
	if o := f.OffsetUTF16(4, 4); o != 15 {
		t.Errorf("column 4 is offset %d, want 15", o)
	}
}

// TestThereAndBack: every offset survives a turn through lines and columns,
// and columns in UTF-16 are what the standard library counts.
func TestThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.SampledFrom([]rune("aé😀\n\t\r#"))).Draw(t, "text")
		f := source.New("t", text)
		for offset := range text {
			p := f.Position(offset)
			if back := f.Offset(p); back != offset {
				t.Fatalf("%d became %v became %d", offset, p, back)
			}
			start := strings.LastIndexByte(text[:offset], '\n') + 1
			want := len(utf16.Encode([]rune(text[start:offset])))
			if got := f.UTF16Column(offset); got != want {
				t.Fatalf("column of %d is %d, want %d", offset, got, want)
			}
			if back := f.OffsetUTF16(p.Line, want); back != offset {
				t.Fatalf("column %d is offset %d, want %d", want, back, offset)
			}
		}
	})
}

// fill makes a list of things of which a text gives one every so many bytes, early
// in its first tenth and late in the rest, and counts how often the list grew.
func fill(early, late int) (list []int, grown int) {
	const end = 1 << 20
	for at := 0; at < end; {
		was := cap(list)
		if list = append(source.Room(list, at, end), at); cap(list) != was {
			grown++
		}
		if at += early; at >= end/10 {
			at += late - early
		}
	}
	return list, grown
}

// A list of what a text gives grows seldom and is not much longer than what it
// comes to, also where the text begins unlike it goes on.
func TestRoom(t *testing.T) {
	for _, c := range []struct{ early, late, times int }{{4, 4, 2}, {4, 40, 2}, {40, 4, 2}, {1, 1 << 20, 17}} {
		list, grown := fill(c.early, c.late)
		if grown > 6 || cap(list) > len(list)*c.times {
			t.Errorf("%d, then %d bytes a thing: grown %d times, to %d for %d", c.early, c.late, grown, cap(list), len(list))
		}
	}
}
