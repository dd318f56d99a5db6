package kinds

import (
	"math"
	"slices"
	"strings"

	"hame/lang/quantity"
	"hame/lang/tables"
)

// colours in the order of IEC 60757, with tan, which the trade adds.
var colours = []string{
	"black", "brown", "red", "orange", "yellow", "green", "blue", "violet",
	"grey", "white", "pink", "turquoise", "tan",
}

// Colours lists the colours of insulation.
func Colours() []string { return slices.Clone(colours) }

// IsColour reports whether the text is a colour, or two with a slash between:
// the colour and its stripe.
func IsColour(text string) bool {
	base, stripe, striped := strings.Cut(text, "/")
	return slices.Contains(colours, base) && (!striped || slices.Contains(colours, stripe))
}

// Covers lists the materials of covers.
func Covers() []string { return tables.CoverNames() }

// IsCover reports whether the text is a material of covers.
func IsCover(text string) bool {
	_, known := tables.Cover(text)
	return known
}

// Insulations lists the cable designations.
func Insulations() []string { return tables.CableNames() }

// IsInsulation reports whether the text is a cable designation.
func IsInsulation(text string) bool {
	_, known := tables.Cable(text)
	return known
}

// Size is a gauge as the published tables know it.
func Size(q quantity.Quantity) tables.Size {
	if q.Unit == "AWG" {
		return tables.Gauge(q.AWG)
	}
	return tables.Metric(q.SI)
}

// KnownGauge reports whether wire is made in a gauge.
func KnownGauge(q quantity.Quantity) bool { return Size(q).Known() }

// NearGauges names the sizes that are made next to one that is not.
func NearGauges(q quantity.Quantity) string {
	if q.Unit == "AWG" {
		return "gauges run from 4/0 AWG to 40 AWG"
	}
	below, above := 0.0, math.Inf(1)
	for _, a := range tables.MetricSizesMM2() {
		if a < q.SI {
			below = max(below, a)
		} else {
			above = min(above, a)
		}
	}
	var near []string
	for _, a := range []float64{below, above} {
		if a > 0 && !math.IsInf(a, 1) {
			near = append(near, tables.Metric(a).String())
		}
	}
	return "the nearest sizes are " + strings.Join(near, " and ")
}
