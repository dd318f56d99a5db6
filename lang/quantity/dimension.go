package quantity

// dimensions in the language's own words: what messages call a dimension, its
// unit, and one quantity of it as an example.
var dimensions = [...]struct{ noun, unit, example string }{
	None:        {"a number", "", "4"},
	Voltage:     {"a voltage", "V", "12 V"},
	Current:     {"a current", "A", "10 A"},
	Resistance:  {"a resistance", "ohm", "96 ohm"},
	Power:       {"a power", "W", "27 W"},
	Length:      {"a length", "m", "0.9 m"},
	Area:        {"a gauge", "mm2", "2.5 mm2"},
	Temperature: {"a temperature", "degC", "85 degC"},
	Charge:      {"a capacity", "Ah", "70 Ah"},
	Time:        {"a time", "s", "2 h"},
	Ratio:       {"a percentage", "%", "80 %"},
}

// String is the dimension with its article: "a current".
func (d Dimension) String() string { return dimensions[d].noun }

// Unit is the unit that the dimension's values are computed in: "A". A ratio is
// computed in 1 and written in %.
func (d Dimension) Unit() string { return dimensions[d].unit }

// Example is one quantity of the dimension as it is written: "10 A".
func Example(d Dimension) string { return dimensions[d].example }
