package tables

// dropTest is one line of the table of voltage-drop tests.
type dropTest struct {
	item   string
	limitV float64
	source Source
}

var dropTests = mustLoad("drop-tests.csv", func(r *row) dropTest {
	return dropTest{r.text("item"), r.num("limit_v"), r.source()}
})

// DropTest gives the greatest drop in V that a test under load accepts in a 12 V
// system: of a cable, contact, joint, ground, circuit, starter_feed,
// starter_return, charging_feed or charging_return; false for anything else.
func DropTest(item string) (float64, Source, bool) {
	for _, r := range dropTests {
		if r.item == item {
			return r.limitV, r.source, true
		}
	}
	return 0, Source{}, false
}
