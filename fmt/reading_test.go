package format

import (
	"testing"

	"hame/lang/source"
)

// Two texts of the same words are told apart by what the parser makes of them:
// blocks, ends of statements, and where mistakes are.
func TestReadsAlike(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want bool
	}{
		{"zone a  {}\nzone b ~\n", "zone a {}\n\nzone b   ~\n", true},
		{"zone a; zone b ~", "zone a\nzone b ~", true},
		{"switch toggle s;\n{ rating 20 A }", "switch toggle s\n{ rating 20 A }", false},
		{"zone a {\n x 1\n  zone b {}\n", "zone a {\n x 1\nzone b {}\n", false},
		{"zone a { x 1; y 2~ }", "zone a { x 1 y 2~ }", false},
		{"wire w\n", "wire\nw\n", false},
		{"} ~", "}\n~", false}, // one mistake on a line, two on two
	} {
		a, b := cutUp(source.New("t.hame", c.a)), cutUp(source.New("t.hame", c.b))
		if got := readsAlike(a, b); got != c.want {
			t.Errorf("%q and %q read alike: %v, want %v", c.a, c.b, got, c.want)
		}
	}
}

// A text that its columns decide is set with its columns as they are, and at once
// as it is set a second time.
func TestColumnsDecide(t *testing.T) {
	text := "    harness h {\n  practice  land}\n  wire      gxl\n    }\n"
	f := source.New("t.hame", text)
	c := cutUp(f)
	if plain := cutUp(source.New("t.hame", lay(c, readAround(c, false)))); readsAlike(c, plain) {
		t.Fatalf("its columns decide nothing: %q", plain.text)
	}
	out, err := Source(f)
	if err != nil || !readsAlike(c, cutUp(source.New("t.hame", out))) {
		t.Errorf("%q (%v) reads otherwise", out, err)
	}
	if again, err := Source(source.New("t.hame", out)); again != out || err != nil {
		t.Errorf("%q becomes %q (%v)", out, again, err)
	}
}
