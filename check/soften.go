package check

import (
	"strings"

	"hame/lang/finding"
	"hame/lang/harness"
)

// soften turns a finding into advice where its subject is the machine's own
// and it would be there without the new items too. One that the new items
// caused keeps its severity and says so. Without is asked once, and only if
// there is anything to ask about.
func soften(list []finding.Finding, h *harness.Harness, without func() []finding.Finding) {
	var before map[string]bool
	for i := range list {
		f := &list[i]
		if !softens(f) || !h.IsExisting(f.Subject) {
			continue
		}
		if before == nil {
			before = map[string]bool{}
			for _, old := range without() {
				before[old.Rule+" "+old.Subject] = true
			}
		}
		if before[f.Rule+" "+f.Subject] {
			f.Severity = finding.Advice
			f.Figures = append(f.Figures, "the machine's own: it is so without the new items too")
		} else {
			f.Figures = append(f.Figures, "the machine's own is sound without the new items: they cause it")
		}
	}
}

// softens: what is borrowed from the machine, what its supply gives and what
// the author promised are never softened, nor is what cannot be judged.
func softens(f *finding.Finding) bool {
	area, _, _ := strings.Cut(f.Rule, "/")
	return f.Severity > finding.Advice && area != "tap" && area != "supply" && area != "require"
}
