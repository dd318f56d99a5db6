package print

import (
	"slices"
	"testing"
)

func TestWrap(t *testing.T) {
	for _, c := range []struct {
		text string
		most float64
		want []string
	}{
		{"", 5, []string{""}},
		{"one two three", 7, []string{"one two", "three"}},
		{"one two three", 100, []string{"one two three"}},
		{"  one   two ", 7, []string{"one two"}},
		{"engine_bay/left", 12, []string{"engine_bay/", "left"}},
		{"abcdefgh", 3, []string{"abc", "def", "gh"}},
		{"takes 1 mm2..6 mm2", 14, []string{"takes", "1 mm2..6 mm2"}},
		{"1 mm2..6 mm2", 10, []string{"1 mm2..", "6 mm2"}},
		{"for 16 mm2", 8, []string{"for", "16 mm2"}},
		{"16 mm2", 4, []string{"16", "mm2"}},
		{"2.5 mm2, red", 8, []string{"2.5 mm2,", "red"}},
		{"0.75", 3, []string{"0.7", "5"}}, // not behind its point
		{"canopy_plug.female.1", 12, []string{"canopy_plug.", "female.1"}},
		{"at 40 degC and 3 in all", 12, []string{"at 40 degC", "and 3 in all"}},
		{"電池 x", 4, []string{"電池", "x"}}, // two columns each: UAX #11
		{"e\u0301e\u0301 x", 4, []string{"e\u0301e\u0301 x"}},
		{"電", 1, []string{"電"}}, // a letter that is wider than its line
	} {
		if got := wrap(c.text, c.most, columnsOf); !slices.Equal(got, c.want) {
			t.Errorf("%q in %v columns is %q, want %q", c.text, c.most, got, c.want)
		}
	}
}

// TestLevelled: columns fill the room to the last, none narrower than its words,
// and what is narrow stays as it is.
func TestLevelled(t *testing.T) {
	wide := levelled([]float64{10, 100, 200, 30}, []float64{10, 20, 90, 30}, 150)
	if wide[0] != 10 || wide[3] != 30 || wide[2] != 90 || wide[1] < 19.9 || wide[1] > 20.1 {
		t.Errorf("%v, want 10, 20, 90 and 30", wide)
	}
	if wide := levelled([]float64{10, 100, 100}, []float64{5, 5, 5}, 110); total(wide) < 109.9 || total(wide) > 110.1 || wide[1] != wide[2] {
		t.Errorf("%v, want 10, 50 and 50", wide)
	}
}

func TestLabel(t *testing.T) {
	for want, at := range map[string][2]int{"A1": {0, 0}, "A3": {2, 0}, "Z1": {0, 25}, "AA1": {0, 26}, "AZ2": {1, 51}, "BA1": {0, 52}} {
		if got := label(at[0], at[1]); got != want {
			t.Errorf("column %d of row %d is %s, want %s", at[0], at[1], got, want)
		}
	}
}

// TestCounted: pages that overlap by 10 reach the far side, and one fewer would not.
func TestCounted(t *testing.T) {
	for _, c := range []struct {
		whole, part float64
		want        int
	}{{100, 100, 1}, {101, 100, 2}, {190, 100, 2}, {191, 100, 3}, {280, 100, 3}} {
		if got := counted(c.whole, c.part, 10); got != c.want {
			t.Errorf("%v in parts of %v are %d, want %d", c.whole, c.part, got, c.want)
		}
	}
}

// TestWidths: prose gives way before names, and names that have parts before a
// quantity is parted.
func TestWidths(t *testing.T) {
	g := &grid{head: []string{"name", "gauge", "words"}, units: make([]string, 3), rows: [][]string{{"canopy_plug.female.1", "2.5 mm2", "what a reader should know of it"}}}
	for line, want := range map[int][]int{
		62: {20, 7, 31}, // all that they want
		45: {20, 7, 14}, // the words give way
		37: {20, 7, 6},
		29: {12, 7, 6}, // then the name, to its longest part
	} {
		if got, fits := g.widths(line); !fits || !slices.Equal(got, want) {
			t.Errorf("in %d columns: %v (%v), want %v", line, got, fits, want)
		}
	}
	if got, fits := g.widths(20); fits {
		t.Errorf("20 columns hold %v", got)
	}
}
