package tables

import "testing"

// A metric coarse thread's drill is its diameter less its pitch, to the tenth
// (common practice, no source); the inch drills are No. 29 for 8-32 and No. 21
// for 10-32 in the usual tap-drill tables (from memory).
func TestTapDrills(t *testing.T) {
	for _, m := range []struct {
		stud      string
		mm, pitch float64
	}{{"M4", 4, 0.7}, {"M5", 5, 0.8}, {"M6", 6, 1}, {"M8", 8, 1.25}} {
		list := TapDrills(m.stud)
		if len(list) != 1 {
			t.Fatalf("%s: %v", m.stud, list)
		}
		near(t, m.stud, list[0].DrillMM, m.mm-m.pitch, 0.051)
	}
	for thread, want := range map[string]string{"8-32": "No. 29", "10-32": "No. 21"} {
		found := ""
		for _, d := range tapDrills {
			if d.Thread == thread {
				found = d.Drill
			}
		}
		if found != want {
			t.Errorf("%s: %q, want %q", thread, found, want)
		}
	}
	if len(TapDrills("no10")) != 2 || TapDrills("M7") != nil {
		t.Error("no10 has a coarse and a fine thread, and M7 is none")
	}
	for _, d := range tapDrills {
		stud, ok := StudNamed(d.Stud)
		if !ok || d.DrillMM >= stud.DiameterMM || d.DrillMM < 0.75*stud.DiameterMM || d.Source.Mark != Memory {
			t.Errorf("%+v for a stud of %g mm", d, stud.DiameterMM)
		}
	}
}
