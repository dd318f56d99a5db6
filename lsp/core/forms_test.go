package core

import (
	"strings"
	"testing"

	"hame/lang/kinds"
)

// told is what may follow, in a line.
func told(list []want) string {
	var words []string
	for _, w := range list {
		words = append(words, strings.TrimSpace(w.word+" "+strings.Join(append(w.types, w.words...), " ")))
	}
	return strings.Join(words, ", ")
}

// The forms are those of the language's contract, §3.
func TestNextFollowsTheForms(t *testing.T) {
	tap, panel, mode, led := kinds.Find(kinds.Supply, "tap"), kinds.Find(kinds.Protection, "panel"), kinds.Form("mode"), kinds.Find(kinds.Load, "led")
	for _, c := range []struct {
		kind    *kinds.Kind
		setting string
		given   []string
		want    string
	}{
		{tap, "behind", nil, "fuse breaker"},
		{tap, "behind", []string{"fuse"}, "A+"},
		{tap, "behind", []string{"fuse", "10 A"}, "at"},
		{tap, "behind", []string{"fuse", "10 A", "at"}, "place"},
		{tap, "behind", []string{"fuse", "10 A", "at", "dash"}, ""},
		{tap, "live", nil, "always acc on start engine"},
		{tap, "live", []string{"acc"}, ""},
		{tap, "live", []string{"acc", ","}, "always acc on start engine"},
		{tap, "live", []string{"acc", ",", "on"}, ""},
		{panel, "way", []string{"1"}, "fuse breaker, spare"},
		{panel, "way", []string{"1", "spare"}, "text"},
		{mode, "closed", []string{"s1", ","}, "switch"},
		{led, "draws", []string{"27 W"}, "at"},
		{led, "fuse", nil, "most"},
		{led, "draws", []string{"27 W", "nonsense"}, ""},
	} {
		s, ok := c.kind.Setting(c.setting)
		if !ok {
			t.Fatalf("%s has no %s", c.kind.Title(), c.setting)
		}
		if got := told(next(s, c.given)); got != c.want {
			t.Errorf("%s %s: %q, want %q", c.setting, strings.Join(c.given, " "), got, c.want)
		}
	}
}

// Whatever has been given, the forms of all settings can be followed.
func TestNextOfEverything(t *testing.T) {
	for _, k := range kinds.All() {
		for _, s := range k.Settings {
			if !s.Flag() && len(next(s, nil)) == 0 {
				t.Errorf("%s %s begins with nothing", k.Title(), s.Name)
			}
			for _, given := range [][]string{{","}, {"x", "x", "x", "x", "x", "x"}, {",", ","}} {
				next(s, given)
			}
		}
	}
}
