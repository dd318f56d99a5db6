package facts

import "hame/lang/tables"

// ledFactor is what a driver's charging current asks of a contact: no text that
// was seen gives one.
const ledFactor = 2

// ContactClass is a load's class as a contact is rated for it: lamp, led, motor,
// inductive or resistive. sort is of a network's load.
func ContactClass(sort string) string {
	switch sort {
	case "bulb":
		return "lamp"
	case "led":
		return "led"
	case "motor", "starter":
		return "motor"
	case "solenoid", "coil":
		return "inductive"
	}
	return "resistive"
}

// ContactFactor is how many times a load's lasting current a contact must be
// rated for: 1 where the rating was given for such loads, else by AC 43.13-1B
// Table 11-4. False above 28 V, where the table ends.
func ContactFactor(sort, ratedFor string, systemV float64) (float64, tables.Source, bool) {
	class := ContactClass(sort)
	switch {
	case class == ratedFor || sort == ratedFor:
		return 1, tables.Source{Document: "the contact's own rating", Clause: "`for " + ratedFor + "`", Mark: tables.CommonPractice}, true
	case class == "led":
		return ledFactor, tables.Source{Document: "common practice", Clause: "led drivers", Mark: tables.CommonPractice}, true
	}
	return tables.SwitchFactor(systemV, class)
}
