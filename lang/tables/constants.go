package tables

// constant is a named figure of nature or practice.
type constant struct {
	name, unit string
	value      float64
	source     Source
}

var constants = loadConstants("materials.csv", "battery-facts.csv", "shop.csv")

func loadConstants(names ...string) map[string]constant {
	all := map[string]constant{}
	for _, name := range names {
		for _, c := range mustLoad(name, func(r *row) constant {
			return constant{r.text("name"), r.text("unit"), r.num("value"), r.source()}
		}) {
			all[c.name] = c
		}
	}
	return all
}

// Constant gives a named constant in the unit that its table states. A name
// that isn't there is a fault of the program and panics.
func Constant(name string) float64 {
	c, found := constants[name]
	if !found {
		panic("tables: no constant " + name)
	}
	return c.value
}

// ConstantSource says where a named constant comes from.
func ConstantSource(name string) Source { return constants[name].source }
