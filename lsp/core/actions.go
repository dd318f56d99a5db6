package core

import (
	"regexp"
	"slices"
	"strings"

	"hame/check/rules"
	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/syntax"
)

// Action is a change that is offered, and the finding that it is about.
type Action struct {
	Title     string
	Edits     []Edit
	Finding   *finding.Finding // nil where it mends several
	Preferred bool
}

// Actions lists what can be done about what was found in a span of a file.
func (v *View) Actions(f *File, within source.Span, p *Pass) []Action {
	var list []Action
	for i := range p.Run.Findings {
		x := &p.Run.Findings[i]
		if x.At.File == nil || p.PathOf(x.At.File) != f.Path || x.At.Start > within.End || x.At.End < within.Start {
			continue
		}
		for _, a := range v.mend(f, p, x) {
			a.Finding = x
			list = append(list, a)
		}
	}
	return list
}

// mend lists what can be done about one finding.
func (v *View) mend(f *File, p *Pass, x *finding.Finding) []Action {
	var list []Action
	if a, ok := fixed(p, x); ok {
		list = append(list, a)
	} else if a, ok := likely(f, x); ok {
		list = append(list, a)
	}
	list = append(list, v.supply(f, x)...)
	if x.Rule == "name/unknown" && x.Allowed == nil {
		list = append(list, v.declare(f, x)...)
	}
	if a, ok := accept(p, x); ok {
		list = append(list, a)
	}
	return list
}

// fixed is the finding's own fix.
func fixed(p *Pass, x *finding.Finding) (Action, bool) {
	if x.Fix == nil || len(x.Fix.Edits) == 0 {
		return Action{}, false
	}
	a := Action{Title: sentence(x.Fix.Title), Preferred: true}
	for _, e := range x.Fix.Edits {
		in := p.FileOf(e.File)
		if in == nil || in.ReadOnly() {
			return Action{}, false
		}
		a.Edits = append(a.Edits, Edit{in, e.Span, e.Text})
	}
	return a, true
}

func sentence(title string) string {
	if title == "" {
		return title
	}
	return strings.ToUpper(title[:1]) + title[1:]
}

var meant = regexp.MustCompile("did you mean `([^`]+)`\\?")

// likely puts right what was probably mistyped: what the message shows and asks
// about.
func likely(f *File, x *finding.Finding) (Action, bool) {
	m := meant.FindStringSubmatch(x.Message)
	if m == nil || x.At.End > len(f.Text) {
		return Action{}, false
	}
	span := x.At.Span
	written := f.Text[span.Start:span.End]
	if !strings.Contains(x.Message, "`"+written+"`") {
		if written = head(written); !strings.Contains(x.Message, "`"+written+"`") {
			return Action{}, false
		}
		span.End = span.Start + len(written)
	}
	return Action{Title: "Change to `" + m[1] + "`", Edits: []Edit{{f, span, m[1]}}, Preferred: true}, true
}

// supply adds the settings that are missing, without the values, which only the
// author knows.
func (v *View) supply(f *File, x *finding.Finding) []Action {
	var list []Action
	for _, n := range x.Needs {
		spot, declared := v.Declaration(f, n.Name)
		if declared == nil || spot.File.ReadOnly() {
			continue
		}
		row := rowOf(partsOf(v.Scope(f)), declared.Decl)
		if row == nil {
			continue
		}
		s, ok := row.Setting(n.Setting)
		if !ok || declared.Decl.Header().Block.First(n.Setting) != nil {
			continue
		}
		list = append(list, Action{
			Title: "Add `" + s.Usage() + "` to `" + n.Name + "`, to be filled in",
			Edits: []Edit{addSetting(spot.File, declared.Decl, s.Name)},
		})
	}
	return list
}

// accept adds an allowance with a reason to fill in.
func accept(p *Pass, x *finding.Finding) (Action, bool) {
	rule := rules.Find(x.Rule)
	if x.Allowed != nil || x.Subject == "" || rule == nil || !allowable(rule) || !isSubject(x.Subject) {
		return Action{}, false
	}
	statement := "allow " + x.Rule + " on " + x.Subject + ` because "` + reason + `"`
	return Action{Title: "Allow " + x.Rule + " on `" + x.Subject + "`, with a reason to fill in", Edits: []Edit{appendLine(p.Root, statement)}}, true
}

// allowable: what cannot be read or bound is no matter of judgement.
func allowable(r *rules.Rule) bool { return r.Check != nil || r.Watch != nil }

// reason is what stands where the author's own is to stand.
const reason = "(say why)"

func isSubject(name string) bool {
	for piece := range strings.SplitSeq(name, ".") {
		if !isName("a" + piece) {
			return false
		}
	}
	return true
}

// declare adds a declaration of a name that is not known.
func (v *View) declare(f *File, x *finding.Finding) []Action {
	m := v.At(f, x.At.Start)
	if m == nil || m.Declares || m.Sort == Rule || !isName(m.Name) {
		return nil
	}
	var list []Action
	for _, statement := range statementsFor(f, m) {
		list = append(list, Action{
			Title: "Declare `" + statement + "`",
			Edits: []Edit{insertStatement(f, m.Decl, statement)},
		})
	}
	return list
}

// statementsFor lists declarations that would fit where a name stands. They say
// no more than is known: what else is required, the next check asks for.
func statementsFor(f *File, m *Mention) []string {
	switch m.Sort {
	case Place:
		return []string{"place " + m.Name + " in " + lastZone(f)}
	case Zone, Mode:
		return []string{string(m.Sort) + " " + m.Name}
	case End:
		return devicesFor(m)
	}
	return nil
}

// lastZone is the zone that the last place before was put in.
func lastZone(f *File) string {
	zone := ""
	for _, d := range f.Tree().Decls {
		if p, ok := d.(*syntax.Places); ok && !p.Zone.IsZero() {
			zone = p.Zone.Text
		}
	}
	return zone
}

// devicesFor lists devices that have the terminal which a wire asks for.
func devicesFor(m *Mention) []string {
	var list []string
	for _, k := range kinds.All() {
		if k.Family == "" {
			continue
		}
		has := slices.ContainsFunc(k.Terminals(given{}), func(t kinds.Terminal) bool { return t.Name == m.Terminal })
		if has && usual[k.Title()] {
			list = append(list, k.Title()+" "+m.Name)
		}
	}
	return list
}

// usual are the kinds that are worth offering: the list must stay short.
var usual = map[string]bool{
	"protection fuse": true, "switch toggle": true, "switch relay": true, "load led": true, "load motor": true,
	"join splice": true, "ground stud": true, "supply battery": true, "switch key": true,
}

// MendAll is one change with the fixes of everything that was found in a file,
// as far as they do not stand in each other's way.
func (v *View) MendAll(f *File, p *Pass) (Action, bool) {
	all := Action{Title: "Mend everything that can be mended"}
	for i := range p.Run.Findings {
		x := &p.Run.Findings[i]
		if x.Allowed != nil || x.At.File == nil || p.PathOf(x.At.File) != f.Path {
			continue
		}
		if a, ok := fixed(p, x); ok && !overlaps(all.Edits, a.Edits) {
			all.Edits = append(all.Edits, a.Edits...)
		}
	}
	return all, len(all.Edits) > 0
}

func overlaps(a, b []Edit) bool {
	for _, x := range a {
		for _, y := range b {
			if x.File.Path == y.File.Path && x.Span.Start <= y.Span.End && y.Span.Start <= x.Span.End {
				return true
			}
		}
	}
	return false
}
