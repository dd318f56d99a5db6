package sheets

import (
	"strings"
	"testing"

	"hame/lang/finding"
)

// TestProtectAgreesWithTheFindings: a device of which the schedule says NO is one
// that a rule speaks against, and the other way round.
func TestProtectAgreesWithTheFindings(t *testing.T) {
	said := 0
	look := func(t *testing.T, p *Pack) {
		slow, breaking := map[string]bool{}, map[string]bool{}
		for _, f := range p.Run.Findings {
			switch {
			case f.Severity == finding.Open:
			case f.Rule == "protection/slow":
				slow[f.Subject] = true
			case f.Rule == "protection/breaking" && f.Unit == "A":
				breaking[f.Subject] = true
			}
		}
		no := map[string]bool{}
		for _, r := range tableOf(t, p, "protect", "shorts").Rows {
			owner, _, _ := strings.Cut(r.Cells[0].Words, ".")
			if late := r.Cells[5].Words == "NO"; late != slow[r.Cells[0].Words] {
				t.Errorf("%s opens too late: %v, and a rule says so: %v", r.Cells[0].Words, late, !late)
			} else if late {
				said++
			}
			no[owner] = no[owner] || strings.HasPrefix(r.Cells[8].Words, "NO") || strings.Contains(r.Cells[8].Words, "warning")
		}
		for owner := range breaking {
			said++
			if !no[owner] {
				t.Errorf("a rule says that %s cannot break a short, and the schedule does not", owner)
			}
		}
	}
	under(t, "faulty", look)
	sound(t, look)
	badOnes(t, look)
	altered(t, `(way \d+ fuse) [\d.]+ A`, "$1 40 A", look)
	altered(t, `(cranking|resistance) [\d.]+ m?[Aohm]+`, "resistance 0.5 mohm", look)
	if said < 20 {
		t.Errorf("only %d were spoken of", said)
	}
}
