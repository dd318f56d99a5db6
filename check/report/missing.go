package report

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"hame/lang/finding"
)

// lack is one fact that is not declared.
type lack struct {
	place string
	need  finding.Need
	doc   string
	rules []string
}

// Missing writes what must still be measured or looked up on the machine: the
// facts that open findings and missing settings name, by place, with a blank
// for each and the rules that wait for it.
func Missing(w io.Writer, runs []Run, _ Options) error {
	out := bufio.NewWriter(w)
	for _, r := range runs {
		if r.Harness == nil {
			continue
		}
		list := lacks(r)
		_, _ = fmt.Fprintf(out, "%s: %s\n", plain(r.root().Name), lackCount(len(list)))
		place := "\x00"
		for _, l := range list {
			if l.place != place {
				place = l.place
				_, _ = fmt.Fprintf(out, "\n%s\n", heading(place))
			}
			l.write(out)
		}
		_, _ = fmt.Fprintln(out)
	}
	return out.Flush()
}

func lackCount(n int) string {
	switch n {
	case 0:
		return "no fact is missing"
	case 1:
		return "1 fact is missing"
	}
	return fmt.Sprintf("%d facts are missing", n)
}

func heading(place string) string {
	if place == "" {
		return "anywhere"
	}
	return "at " + plain(place)
}

func (l lack) write(out io.Writer) {
	what := plain(l.need.Name) + " " + plain(l.need.Setting)
	_, _ = fmt.Fprintf(out, "  [ ] %-28s ______________  %s\n", what, l.doc)
	_, _ = fmt.Fprintf(out, "      waits: %s\n", strings.Join(l.rules, ", "))
}

// lacks lists a run's missing facts by place, name and setting.
func lacks(r Run) []lack {
	index := map[finding.Need]int{}
	var list []lack
	for _, f := range r.findings() {
		for _, n := range f.Needs {
			i, known := index[n]
			if !known {
				i = len(list)
				index[n] = i
				list = append(list, describe(r, n))
			}
			list[i].rules = append(list[i].rules, waiting(f)...)
		}
	}
	for i := range list {
		slices.Sort(list[i].rules)
		list[i].rules = slices.Compact(list[i].rules)
	}
	slices.SortFunc(list, func(a, b lack) int {
		return cmp.Or(cmp.Compare(a.place, b.place), cmp.Compare(a.need.Name, b.need.Name), cmp.Compare(a.need.Setting, b.need.Setting))
	})
	return list
}

func describe(r Run, n finding.Need) lack {
	place, row := r.Harness.Whereabouts(n.Name)
	l := lack{place: place, need: n}
	if row != nil {
		if s, ok := row.Setting(n.Setting); ok {
			l.doc = s.Doc
		}
	}
	return l
}

func waiting(f finding.Finding) []string {
	if f.Rule == "setting/missing" {
		return append([]string{f.Rule}, f.Holds...)
	}
	return []string{f.Rule}
}
