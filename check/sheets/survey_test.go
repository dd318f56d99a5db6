package sheets

import (
	"fmt"
	"testing"

	"hame/check/report"
	"hame/lang/finding"
	"hame/lang/kinds"
)

// TestSurveyAsksEachFactOnce: every fact that a finding waits for is one line, and
// no line is of anything else.
func TestSurveyAsksEachFactOnce(t *testing.T) {
	asked := 0
	look := func(t *testing.T, p *Pack) {
		want := map[string]int{}
		for _, f := range p.Run.Findings {
			for _, n := range f.Needs {
				want[n.Name+" "+n.Setting] = 1
			}
		}
		got := map[string]int{}
		s, _ := Of(p, "survey")
		for _, table := range s.Tables() {
			if table.Name == "measured_by" {
				continue
			}
			for _, r := range table.Rows {
				asked++
				got[r.Cells[0].Words+" "+r.Cells[2].Words]++
				for k, name := range []string{"item", "kind", "setting", "find out", "unit", "how"} {
					if r.Cells[k].Words == "" && name != "kind" {
						t.Errorf("%s %s: %s is empty", r.Cells[0].Words, r.Cells[2].Words, name)
					}
				}
				if r.Cells[6].Words != "" || r.Cells[7].Words == "" {
					t.Errorf("%s: value %q, waits %q", r.Cells[0].Words, r.Cells[6].Words, r.Cells[7].Words)
				}
			}
		}
		if fmt.Sprint(want) != fmt.Sprint(got) {
			t.Errorf("the findings wait for %v, and asked is %v", want, got)
		}
	}
	under(t, "faulty", look)
	sound(t, look)
	badOnes(t, look)
	look(t, packOf(t, "half.hame", halfWritten))
	for _, setting := range []string{"idle", "clamp", "limit", "ambient", "coil", "at"} {
		altered(t, setting+` [^;}\n]*(;|\n|( }))`, "$2", look)
	}
	if asked < 80 {
		t.Errorf("only %d facts were asked for", asked)
	}
}

// TestSurveyKnowsHow: every setting of the table can be found out somehow, and has
// a unit or the words that it may be.
func TestSurveyKnowsHow(t *testing.T) {
	look := func(k *kinds.Kind) {
		for _, s := range k.Settings {
			l := report.Lack{Need: finding.Need{Name: "x", Setting: s.Name}, Kind: k, Row: s}
			if howTo(l) == "" || unitOf(l) == "" || findOut(l) == "" {
				t.Errorf("%s %s: %q, %q, %q", k.Title(), s.Name, howTo(l), unitOf(l), findOut(l))
			}
			if s.Required && ways[k.Name+" "+s.Name] == "" && ways[s.Name] == "" {
				t.Errorf("%s needs %s, and no way is named to find it out", k.Title(), s.Name)
			}
		}
	}
	for _, f := range kinds.Families {
		for _, k := range kinds.Of(f) {
			look(k)
		}
	}
	for _, name := range []string{"harness", "zone", "bundle", "wire"} {
		look(kinds.Form(name))
	}
}

// TestWalk: the walk comes by every place once.
func TestWalk(t *testing.T) {
	sound(t, func(t *testing.T, p *Pack) {
		seen := map[string]int{}
		for _, at := range walk(p.Harness) {
			seen[at.Name]++
		}
		for _, at := range p.Harness.Places {
			if seen[at.Name] != 1 {
				t.Errorf("%s is met %d times", at.Name, seen[at.Name])
			}
		}
	})
}
