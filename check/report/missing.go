package report

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"hame/lang/finding"
	"hame/lang/kinds"
)

// Lack is one fact that is not declared.
type Lack struct {
	Need  finding.Need
	Place string         // "" where none is known
	Kind  *kinds.Kind    // the row of the table that the thing is of, or nil
	Row   *kinds.Setting // the setting's row in it, or nil
	Rules []string       // that wait for it, in order of name
}

// Doc is what the fact is, in the table's words.
func (l Lack) Doc() string {
	if l.Row == nil {
		return ""
	}
	return l.Row.Doc
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
		list := Lacks(r)
		_, _ = fmt.Fprintf(out, "%s: %s\n", plain(r.root().Name), lackCount(len(list)))
		place := "\x00"
		for _, l := range list {
			if l.Place != place {
				place = l.Place
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

func (l Lack) write(out io.Writer) {
	what := plain(l.Need.Name) + " " + plain(l.Need.Setting)
	_, _ = fmt.Fprintf(out, "  [ ] %-28s ______________  %s\n", what, l.Doc())
	_, _ = fmt.Fprintf(out, "      waits: %s\n", strings.Join(l.Rules, ", "))
}

// Lacks lists a run's missing facts by place, name and setting.
func Lacks(r Run) []Lack {
	index := map[finding.Need]int{}
	var list []Lack
	for _, f := range r.findings() {
		for _, n := range f.Needs {
			i, known := index[n]
			if !known {
				i = len(list)
				index[n] = i
				list = append(list, describe(r, n))
			}
			list[i].Rules = append(list[i].Rules, waiting(f)...)
		}
	}
	for i := range list {
		slices.Sort(list[i].Rules)
		list[i].Rules = slices.Compact(list[i].Rules)
	}
	slices.SortFunc(list, func(a, b Lack) int {
		return cmp.Or(cmp.Compare(a.Place, b.Place), cmp.Compare(a.Need.Name, b.Need.Name), cmp.Compare(a.Need.Setting, b.Need.Setting))
	})
	return list
}

func describe(r Run, n finding.Need) Lack {
	l := Lack{Need: n}
	l.Place, l.Kind = r.Harness.Whereabouts(n.Name)
	if l.Kind != nil {
		l.Row, _ = l.Kind.Setting(n.Setting)
	}
	return l
}

func waiting(f finding.Finding) []string {
	if f.Rule == "setting/missing" {
		return append([]string{f.Rule}, f.Holds...)
	}
	return []string{f.Rule}
}
