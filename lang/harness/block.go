package harness

import (
	"cmp"
	"slices"
	"strings"

	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/syntax"
)

// hidden reports whether a mistake may hide settings of a declaration: in its
// header, where its block should begin, or where it should end.
func hidden(head *syntax.Head) bool {
	return head.Broken || head.Block != nil && !head.Block.Closed
}

// settingsOf reads a declaration's block. What a mistake may hide counts as
// mistaken.
func (r *reader) settingsOf(d declared, kind *kinds.Kind) given {
	head := d.decl.Header()
	list := r.match(d.file.Source, kind, head.Block, head.Name.Text)
	if !hidden(head) {
		return list
	}
	for _, row := range kind.Settings {
		if !list.has(row.Name) {
			r.mistake(head.Name.Text, row.Name)
		}
	}
	return list
}

// match reads a block's settings by a row of the table. Every mistake is said
// once; what fits is kept.
func (r *reader) match(file *source.File, kind *kinds.Kind, block *syntax.Block, subject string) given {
	if block == nil {
		return nil
	}
	r.seen.begin()
	list := given(r.args.Take(len(block.Settings))[:0])
	for _, s := range block.Settings {
		row, ok := kind.Setting(s.Key.Text)
		if !ok {
			r.unknownSetting(file, kind, s, subject)
			continue
		}
		args, ok := r.setting(file, row, s, subject)
		if ok && r.repeated(file, args, subject) {
			continue
		}
		if ok && !r.ahead {
			r.refer(file, args, subject)
		}
		list = append(list, args)
	}
	if list.scattered() && !r.quiet() { // names are looked up in the order of the text
		slices.SortStableFunc(list, func(x, y kinds.Args) int {
			return cmp.Compare(slices.Index(kind.Settings, x.Setting), slices.Index(kind.Settings, y.Setting))
		})
	}
	return r.guess(file, kind, block, list, subject)
}

// repeated says when a setting is given again.
func (r *reader) repeated(file *source.File, args kinds.Args, subject string) bool {
	first, again := r.seen.again(args)
	if again {
		f := r.say(file, args.Key.Span, "setting/repeated", subject, "`%s` is given twice", repeatedName(args))
		f.Related = []finding.Related{{Place: finding.Place{File: file, Span: first}, Message: "given here first"}}
	}
	return again
}

// setting reads one setting. One with a mistake counts as given all the same.
func (r *reader) setting(file *source.File, row *kinds.Setting, s *syntax.Setting, subject string) (kinds.Args, bool) {
	var wrong *kinds.Mismatch
	args := kinds.Args{Setting: row, Key: s.Key, Span: s.Span}
	if !s.Broken {
		args, wrong = r.matcher.Match(row, s)
	}
	args.File = file
	if wrong != nil {
		f := r.say(file, wrong.Span, wrong.Rule, subject, "%s", wrong.Message)
		f.Figures = append(f.Figures, "expected: "+row.Usage())
		args.List = nil
	}
	if s.Broken || wrong != nil {
		r.mistake(subject, row.Name)
		return args, false
	}
	return args, true
}

// guess counts as given, but mistaken, what unknown and broken settings were
// meant for: it is not missing as well.
func (r *reader) guess(file *source.File, kind *kinds.Kind, block *syntax.Block, list given, subject string) given {
	for _, s := range block.Settings {
		if _, known := kind.Setting(s.Key.Text); known && !s.Broken {
			continue
		}
		if r.quiet() {
			return list
		}
		for _, name := range meantFor(kind, s, file.Slice(s.Span)) {
			r.mistake(subject, name)
			if !list.has(name) {
				row, _ := kind.Setting(name)
				list = append(list, kinds.Args{Setting: row, Key: s.Key, File: file, Span: s.Span})
			}
		}
	}
	return list
}

func repeatedName(a kinds.Args) string {
	if key := a.RepeatKey(); key != "" {
		return a.Setting.Name + " " + key
	}
	return a.Setting.Name
}

func (r *reader) unknownSetting(file *source.File, kind *kinds.Kind, s *syntax.Setting, subject string) {
	if r.quiet() {
		return
	}
	names := kind.SettingNames()
	f := r.say(file, s.Key.Span, "setting/unknown", subject, "%s has no setting `%s`%s", kind.Title(), s.Key.Text, kinds.DidYouMean(s.Key.Text, names))
	f.Figures = append(f.Figures, "it takes: "+strings.Join(names, ", "))
}

// refer looks up what a setting names. Where something is not declared the setting
// is mistaken.
func (b *binder) refer(file *source.File, args kinds.Args, subject string) {
	if !b.references(file, args) && !b.options.ExistingOnly {
		b.mistake(subject, args.Setting.Name)
	}
}

// references looks up the names among a setting's values, and reports whether
// all are declared.
func (b *binder) references(file *source.File, args kinds.Args) bool {
	all := true
	for i := range args.List {
		a := &args.List[i]
		if !kinds.IsReference(a.Type) {
			continue
		}
		n := syntax.Name{Text: a.Word, Span: a.Span}
		switch a.Type {
		case "place", "zone", "bundle", "mode":
			all = b.lookup(file, n, a.Type) != nil && all
		default:
			all = b.deviceReference(file, n, a.Type) && all
		}
	}
	return all
}

// deviceReference looks up a name that must be a device of one sort, and
// reports whether it is.
func (b *binder) deviceReference(file *source.File, n syntax.Name, sort string) bool {
	e := b.lookup(file, n, "device")
	if e == nil || e.hazy {
		return false
	}
	d, ok := e.decl.decl.(*syntax.Device)
	if !ok {
		return false
	}
	family := d.Keyword.Text
	switch {
	case sort == "chassis" && (family != "ground" || d.Kind.Text != "chassis"):
		b.say(file, n.Span, "name/unknown", n.Text, "`%s` is a %s, and a ground chassis is expected here", n.Text, family+" "+d.Kind.Text)
	case (sort == "switch" || sort == "supply") && family != sort:
		b.say(file, n.Span, "name/unknown", n.Text, "`%s` is a %s, and a %s is expected here", n.Text, family+" "+d.Kind.Text, sort)
	default:
		return true
	}
	return false
}

// missing says which required settings were not given, in one finding each.
// Those of a block that a mistake hides may be there.
func (r *reader) missing(d declared, kind *kinds.Kind, list given, subject string) {
	o, head := d.origin(), d.decl.Header()
	if hidden(head) {
		return
	}
	if o.Name.End == 0 {
		o.Name = head.Keyword.Span
	}
	for _, s := range kind.Settings {
		if !s.Required || list.has(s.Name) || s.Instead != "" && list.has(s.Instead) {
			continue
		}
		if r.quiet() {
			return
		}
		f := r.say(o.File, o.Name, "setting/missing", subject, "%s `%s` needs `%s`: %s", kind.Title(), subject, s.Name, s.Doc)
		f.Figures = append(f.Figures, "expected: "+s.Usage())
		f.Needs = []finding.Need{{Name: subject, Setting: s.Name}}
		r.lacks = r.lacks || !aside[s.Name] && kind.Family != ""
	}
}
