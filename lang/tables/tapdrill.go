package tables

// TapDrill is the drill for a thread that is cut into metal.
type TapDrill struct {
	Stud    string // the size as studs are named: no10
	Thread  string // 10-32: one size may have a coarse and a fine thread
	Drill   string // as it is sold: No. 21
	DrillMM float64
	Source  Source
}

var tapDrills = mustLoad("tap-drill.csv", func(r *row) TapDrill {
	return TapDrill{r.text("stud"), r.text("thread"), r.text("drill"), r.num("drill_mm"), r.source()}
})

// TapDrills lists the threads of a stud size with their drills; none where the
// table has no such size.
func TapDrills(stud string) []TapDrill {
	var found []TapDrill
	for _, d := range tapDrills {
		if d.Stud == stud {
			found = append(found, d)
		}
	}
	return found
}
