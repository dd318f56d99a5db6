package harness

import (
	"slices"
	"strings"

	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/syntax"
)

// declared is a declaration and the file that it stands in.
type declared struct {
	file *syntax.File
	decl syntax.Decl
	own  *named // the entry of its name, nil where that was taken by another
}

func (d declared) origin() Origin {
	return d.originOf(d.decl.Header().Name)
}

func (d declared) originOf(name syntax.Name) Origin {
	return Origin{File: d.file.Source, Name: name.Span, Decl: d.decl.Header().Span}
}

// named is one name of the one name space.
type named struct {
	name  syntax.Name
	decl  *declared
	bound any   // a *Device, *Wire, *Bundle, *Place, *Zone, *Mode or *part; nil as long as it is none
	uses  int32 // how often it is named
	hazy  bool  // declared, but with a mistake: say nothing about its use
}

// what is the sort of thing: device, wire, bundle, place, zone, mode, part.
func (e *named) what() string { return declares(e.decl.decl) }

func (e *named) origin() Origin { return e.decl.originOf(e.name) }

// as is what a name is bound to, nil where that is no T.
func as[T any](e *named) *T {
	t, _ := e.bound.(*T)
	return t
}

// register enters the names that a declaration declares.
func (b *binder) register(f *syntax.File, decl syntax.Decl) {
	b.decls = append(b.decls, declared{file: f, decl: decl})
	d := &b.decls[len(b.decls)-1] // makeRoom sees to it that it stays there
	if t, ok := decl.(*syntax.Places); ok {
		for _, n := range t.Names {
			b.enter(d, n)
		}
	} else if declares(decl) != "" {
		d.own = b.enter(d, decl.Header().Name)
	}
}

func (b *binder) enter(d *declared, n syntax.Name) *named {
	if n.IsZero() {
		return nil
	}
	broken := d.decl.Header().Broken
	if first, taken := b.h.names[n.Text]; taken {
		if broken {
			return nil // what stands in the name's place is said
		}
		f := b.say(d.file.Source, n.Span, "name/duplicate", n.Text, "`%s` is declared twice: it is %s already", n.Text, article(first.what()))
		f.Related = []finding.Related{{Place: first.origin().Place(), Message: "declared here first"}}
		return nil
	}
	e := b.entries.One()
	*e = named{name: n, decl: d, hazy: broken}
	b.h.names[n.Text] = e
	return e
}

func article(what string) string { return "a " + what }

// ofPlace is the entry of one of a declaration's places, nil where its name was
// taken by another.
func (b *binder) ofPlace(d declared, n syntax.Name) *named {
	e := b.h.names[n.Text]
	if e == nil || e.decl.decl != d.decl || e.name.Span != n.Span {
		return nil
	}
	return e
}

// leaveOut reports whether a thing is none of what is asked for. Its name then
// stays unknown, without a word.
func (b *binder) leaveOut(name string, existing bool) bool {
	if !b.leftOut(existing) {
		return false
	}
	if e := b.h.names[name]; e != nil {
		e.decl.own = nil
		delete(b.h.names, name)
	}
	return true
}

func (b *binder) leftOut(existing bool) bool { return b.options.ExistingOnly && !existing }

// every lists the declarations of one sort.
func every[T syntax.Decl](b *binder) []*declared {
	count := 0
	for i := range b.decls {
		if _, ok := b.decls[i].decl.(T); ok {
			count++
		}
	}
	list := make([]*declared, 0, count)
	for i := range b.decls {
		if _, ok := b.decls[i].decl.(T); ok {
			list = append(list, &b.decls[i])
		}
	}
	return list
}

// lookup finds a name of one sort and counts the use. What is missing, or of
// another sort, is said.
func (b *binder) lookup(file *source.File, n syntax.Name, what string) *named {
	if n.IsZero() {
		return nil
	}
	e := b.h.names[n.Text]
	if e == nil {
		b.unknown(file, n, what)
		return nil
	}
	e.uses++
	if e.what() != what {
		f := b.say(file, n.Span, "name/unknown", n.Text, "`%s` is a %s, and a %s is expected here", n.Text, e.what(), what)
		f.Related = []finding.Related{{Place: e.origin().Place(), Message: "declared here"}}
		return nil
	}
	return e
}

func (b *binder) unknown(file *source.File, n syntax.Name, what string) {
	if b.options.ExistingOnly || b.adopted(n.Text, what) {
		return
	}
	key := what + " " + n.Text
	if at, said := b.unknowns[key]; said { // one declaration is missing, however many miss it
		b.out[at].Related = append(b.out[at].Related, finding.Related{Place: finding.Place{File: file, Span: n.Span}, Message: "named here too"})
		return
	}
	b.unknowns[key] = len(b.out)
	b.say(file, n.Span, "name/unknown", n.Text, "no %s is named `%s`%s", what, n.Text, b.suggest(n.Text, what))
}

// maxSuggestions bounds the search for near names in a file where everything
// is unknown.
const maxSuggestions = 100

func (b *binder) suggest(name, what string) string {
	if b.suggested++; b.suggested > maxSuggestions {
		return ""
	}
	return kinds.DidYouMean(name, b.known(what))
}

// known lists the declared names of one sort, or of several: "device or wire".
func (b *binder) known(what string) []string {
	var list []string
	for name, e := range b.h.names {
		if strings.Contains(what, e.what()) {
			list = append(list, name)
		}
	}
	slices.Sort(list)
	return list
}
