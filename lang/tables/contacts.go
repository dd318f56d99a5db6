package tables

import "math"

// Contact names a joint or contact whose resistance is known.
type Contact string

// The contacts of the table.
const (
	Crimp            Contact = "crimp"
	RingOnStud       Contact = "ring_on_stud"
	Tab              Contact = "tab" // 6.3 mm, mated
	ConnectorContact Contact = "connector_contact"
	Splice           Contact = "splice"
	Chassis          Contact = "chassis" // between two bonded points
	SwitchContact    Contact = "switch_contact"
	RelayContact     Contact = "relay_contact"
)

const breakerContact Contact = "breaker"

// contactRow is one line of the contact table; rating 0 where it has none.
type contactRow struct {
	contact Contact
	rating  float64
	mohm    float64
	source  Source
}

var contactRows = mustLoad("contact-resistance.csv", func(r *row) contactRow {
	return contactRow{Contact(r.text("item")), r.numOr("rating_a", 0), r.num("mohm"), r.source()}
})

// ContactOhm gives the resistance in ohm of a new contact; false for a contact
// that isn't in the table.
func ContactOhm(c Contact) (float64, Source, bool) {
	for _, r := range contactRows {
		if r.contact == c && r.rating == 0 {
			return r.mohm / 1000, r.source, true
		}
	}
	return 0, Source{}, false
}

// BreakerOhm gives the resistance in ohm of a thermal breaker of a rating, on
// logarithms between two known ratings; beyond them the drop at rated current
// holds.
func BreakerOhm(ratingA float64) (float64, Source) {
	var list []keyed
	for _, r := range contactRows {
		if r.contact == breakerContact {
			list = append(list, keyed{r.rating, r.mohm, r.source})
		}
	}
	return byRating(list, ratingA) / 1000, list[0].source
}

// switchRow is one cell of AC 43.13-1B Table 11-4.
type switchRow struct {
	volts  float64
	load   string
	factor float64
	source Source
}

var switchRows = mustLoad("ac4313-table-11-4.csv", func(r *row) switchRow {
	return switchRow{r.num("system_v"), r.text("load"), r.num("factor"), r.source()}
})

// SwitchFactor gives how many times a load's continuous current a switch must
// be rated for (AC 43.13-1B Table 11-4). load is lamp, inductive, resistive or
// motor. Systems up to 14 V take the 12 V column, up to 28 V the 28 V column;
// false above, and for another load.
func SwitchFactor(systemV float64, load string) (float64, Source, bool) {
	column := 0.0
	switch {
	case systemV > 0 && systemV <= 14:
		column = 12
	case systemV > 14 && systemV <= 28:
		column = 28
	}
	for _, r := range switchRows {
		if r.volts == column && r.load == load {
			return r.factor, r.source, true
		}
	}
	return 0, Source{}, false
}

var inrush = loadInrush()

func loadInrush() map[string]keyed {
	all := map[string]keyed{}
	type named struct {
		load string
		keyed
	}
	for _, r := range mustLoad("inrush.csv", func(r *row) named {
		return named{r.text("load"), keyed{0, r.num("multiple"), r.source()}}
	}) {
		all[r.load] = r.keyed
	}
	return all
}

// InrushMultiple gives a load's first current over its steady one: bulb, motor
// or solenoid. Sources differ twofold.
func InrushMultiple(load string) (float64, Source, bool) {
	r, found := inrush[load]
	return r.factor, r.source, found
}

// tested is a current of a terminal by conductor.
type tested struct {
	width, area, amps float64
	source            Source
}

var tabCurrents = mustLoad("tab-currents.csv", func(r *row) tested {
	return tested{r.num("width_mm"), AWGAreaMM2(r.gauge("awg")), r.num("heat_a"), r.source()}
})

// TabAmps gives the heat-rise test current in A of a tab of a width in mm on a
// conductor area, at the largest listed gauge not above it; false where none.
func TabAmps(widthMM, areaMM2 float64) (float64, Source, bool) {
	return largest(tabCurrents, widthMM, areaMM2)
}

var connectorCurrents = mustLoad("connector-currents.csv", func(r *row) tested {
	return tested{0, AWGAreaMM2(r.gauge("awg")), r.numOr("ul1659_static", math.NaN()), r.source()}
})

// ConnectorAmps gives the static heating test current of UL 1659 in A for a
// connector contact on a conductor area: 18 to 10 AWG, false outside.
func ConnectorAmps(areaMM2 float64) (float64, Source, bool) {
	amps, source, ok := largest(connectorCurrents, 0, areaMM2)
	return amps, source, ok && !math.IsNaN(amps)
}

// largest finds the row of the largest area not above the one given.
func largest(rows []tested, width, areaMM2 float64) (float64, Source, bool) {
	best := tested{}
	for _, r := range rows {
		if math.Abs(r.width-width) < 0.05 && r.area <= areaMM2*(1+areaTolerance) && r.area > best.area {
			best = r
		}
	}
	return best.amps, best.source, best.area > 0
}
