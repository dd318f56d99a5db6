package symbols_test

import (
	"os"
	"testing"

	"hame/check/draw"
	"hame/check/draw/symbols"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/syntax"
)

// bench has a device of every kind, and of those whose terminals hang on their
// settings several.
const bench = `harness bench { system 12 V }
supply battery battery { capacity 70 Ah; cranking 600 A }
supply alternator alternator { output 55 A }
supply converter converter { gives 5 V; output 3 A }
supply tap tap { behind fuse 10 A; carries 2 A; live on }
protection fuse fuse { rating 10 A }
protection breaker breaker { rating 10 A }
protection link link { gauge 1 mm2 }
protection panel panel { limit 40 A; way 1 fuse 10 A "lamps"; way 2 breaker 15 A; way 3 spare }
switch toggle toggle { rating 10 A }
switch toggle toggle_2x2 { rating 10 A; poles 2; throws 2 }
switch push push { rating 10 A }
switch isolator isolator { rating 100 A }
switch key key { rating 10 A }
switch relay relay { contacts 30 A; coil 90 ohm }
switch relay relay_change { contacts 30 A; coil 90 ohm; form change }
switch diode diode { rating 3 A }
load led led { draws 10 W }
load bulb bulb { draws 10 W }
load heater heater { draws 10 W }
load motor motor { draws 10 W }
load starter starter { draws 200 A }
load outlet outlet { rating 10 A }
load module module { draws 1 A }
load module module_3 { input low 1 A; input high 2 A; input side 5 W }
load solenoid solenoid { draws 1 A }
join splice splice
join stud join_stud
join bus join_bus
join connector connector { ways 3 }
join connector half { ways 2; half male }
ground chassis chassis
ground stud stud
ground bus bus
`

func devices(t testing.TB) []*harness.Device {
	r := harness.Bind(syntax.Parse(source.New("bench.hame", bench)), harness.Options{})
	if r.Harness.Hazy || len(r.Harness.Devices) < 30 {
		t.Fatal(r.Findings)
	}
	return r.Harness.Devices
}

// symbolOf draws a device with words of each sort.
func symbolOf(d *harness.Device, flip bool) (symbols.Symbol, *symbols.Plan) {
	rows := map[string]string{}
	for _, term := range d.Terminals {
		rows[term.Name] = "10 A lamps"
	}
	p := symbols.New(d.Kind, d, symbols.Words{Name: d.Name, Details: []string{"10 A"}, Rows: rows})
	if flip {
		p.Flip()
	}
	p.Spread(3)
	return p.Draw(p.Close(), p.WidthMM, symbols.Style{Own: d.Existing}), p
}

// TestEveryKind: the bench has every kind of the language, each with a symbol of
// its own and a port for each terminal of the table, at the edge of its box.
func TestEveryKind(t *testing.T) {
	seen := map[string]bool{}
	for _, d := range devices(t) {
		seen[d.Kind.Title()] = true
		if !symbols.Has(d.Kind) {
			t.Errorf("%s has no symbol", d.Kind.Title())
		}
		for _, flip := range []bool{false, true} {
			if flip && !symbols.CanFlip(d.Kind) {
				continue
			}
			s, _ := symbolOf(d, flip)
			ports(t, d, s)
		}
	}
	for _, k := range kinds.All() {
		if k.Family != "" && !seen[k.Title()] {
			t.Errorf("the bench has no %s", k.Title())
		}
	}
}

func ports(t *testing.T, d *harness.Device, s symbols.Symbol) {
	at := map[string]int{}
	for _, p := range s.Ports {
		at[p.Terminal]++
		edge := s.Box.Left
		if p.Right {
			edge = s.Box.Right
		}
		if p.At.X != edge || p.At.Y < s.Box.Top || p.At.Y > s.Box.Bottom {
			t.Errorf("%s: port %q is not at the edge", d.Name, p.Terminal)
		}
	}
	for _, term := range d.Terminals {
		if at[term.Name] == 0 {
			t.Errorf("%s has no port %q", d.Name, term.Name)
		}
		delete(at, term.Name)
	}
	if len(at) > 0 {
		t.Errorf("%s has ports that are no terminals: %v", d.Name, at)
	}
}

// TestInside: nothing of a symbol leaves its box, and its words lie on no others.
func TestInside(t *testing.T) {
	const inkMM = 0.7 // half the width of a line, and what is round at its end
	for _, d := range devices(t) {
		s, _ := symbolOf(d, false)
		b, _ := draw.Bounds(s.Items...)
		room := draw.Box{Left: s.Box.Left - inkMM, Top: s.Box.Top - inkMM, Right: s.Box.Right + inkMM, Bottom: s.Box.Bottom + inkMM}
		if !b.Within(room) {
			t.Errorf("%s: %+v leaves %+v", d.Name, b, s.Box)
		}
		var words []draw.Text
		for _, i := range s.Items {
			if w, ok := i.(draw.Text); ok && w.Words != "" {
				words = append(words, w)
			}
		}
		for i, a := range words {
			for _, b := range words[:i] {
				if a.Box().Overlaps(b.Box()) {
					t.Errorf("%s: %q lies on %q", d.Name, a.Words, b.Words)
				}
			}
		}
	}
}

// TestRows: rows stand on the grid, so that lines fall together or stand apart.
func TestRows(t *testing.T) {
	for _, d := range devices(t) {
		_, p := symbolOf(d, false)
		for i, y := range p.Close() {
			if y != float64(2*int(y/2)) {
				t.Errorf("%s: row %d at %g", d.Name, i, y)
			}
		}
	}
}

// TestPage writes a page of all symbols where HAME_SYMBOLS names a file.
func TestPage(t *testing.T) {
	path := os.Getenv("HAME_SYMBOLS")
	if path == "" {
		t.Skip("HAME_SYMBOLS names no file")
	}
	page := &draw.Picture{Title: "Symbols", WidthMM: 210, HeightMM: 297}
	x, y, row := 8.0, 8.0, 0.0
	for n, d := range devices(t) {
		s, _ := symbolOf(d, false)
		if n%2 == 1 && symbols.CanFlip(d.Kind) {
			s, _ = symbolOf(d, true)
		}
		if x+s.Box.Right > 200 {
			x, y, row = 8, y+row+5, 0
		}
		for _, i := range s.Items {
			page.Add(draw.Moved(i, x, y))
		}
		for _, p := range s.Ports {
			page.Add(draw.Circle{Centre: p.At.Add(x, y), RadiusMM: 0.3, Ink: draw.Ink{Fill: draw.Alarm}})
		}
		x, row = x+s.Box.Right+6, max(row, s.Box.Bottom)
	}
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if err := draw.SVG(f, page); err != nil {
		t.Fatal(err)
	}
}
