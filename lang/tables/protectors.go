package tables

// protector is one line of AC 43.13-1B Table 11-3; 0 where it gives none.
type protector struct {
	awg           int
	breaker, fuse float64
	source        Source
}

var protectors = mustLoad("ac4313-table-11-3.csv", func(r *row) protector {
	return protector{r.gauge("awg"), r.numOr("breaker_a", 0), r.numOr("fuse_a", 0), r.source()}
})

// AC43Protector gives the breaker and the fuse in A that protect an aircraft
// wire (AC 43.13-1B Table 11-3); 0 where the chart gives none, false where it
// has no such gauge.
func AC43Protector(awg int) (breakerA, fuseA float64, source Source, ok bool) {
	for _, p := range protectors {
		if p.awg == awg {
			return p.breaker, p.fuse, p.source, true
		}
	}
	return 0, 0, Source{}, false
}

// link pairs a wire with its fusible link.
type link struct {
	wire, link int
	source     Source
}

var links = mustLoad("fusible-links.csv", func(r *row) link {
	return link{r.gauge("wire_awg"), r.gauge("link_awg"), r.source()}
})

// LinkFor gives the gauge of the fusible link for a wire: four gauge numbers
// smaller; false where the table has no such wire.
func LinkFor(wireAWG int) (int, Source, bool) {
	for _, l := range links {
		if l.wire == wireAWG {
			return l.link, l.source, true
		}
	}
	return 0, Source{}, false
}

// KFactorRow is a published adiabatic factor.
type KFactorRow struct {
	Insulation       string
	InitialC, FinalC float64
	Table            float64 // A s^0.5/mm2; 0 where only recomputed
	Recomputed       float64 // by the IEC 60949 form
	Source           Source
}

var kFactors = mustLoad("kfactors.csv", func(r *row) KFactorRow {
	return KFactorRow{
		r.text("insulation"), r.num("initial_c"), r.num("final_c"),
		r.numOr("k_table", 0), r.num("k_recomputed"), r.source(),
	}
})

// KFactorRows lists the published adiabatic factors of copper.
func KFactorRows() []KFactorRow { return append([]KFactorRow(nil), kFactors...) }
