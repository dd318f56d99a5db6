package harness

import (
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
func (b *binder) settingsOf(d declared, kind *kinds.Kind) map[string][]kinds.Args {
	head := d.decl.Header()
	given := b.match(d.file.Source, kind, head.Block, head.Name.Text)
	if !hidden(head) {
		return given
	}
	for _, row := range kind.Settings {
		if len(given[row.Name]) == 0 {
			b.mistake(head.Name.Text, row.Name)
		}
	}
	return given
}

// match reads a block's settings by a row of the table. Every mistake is said
// once; what fits is kept.
func (b *binder) match(file *source.File, kind *kinds.Kind, block *syntax.Block, subject string) map[string][]kinds.Args {
	given := map[string][]kinds.Args{}
	if block == nil {
		return given
	}
	seen := map[[2]string]source.Span{} // by setting and what it repeats by
	for _, s := range block.Settings {
		row, ok := kind.Setting(s.Key.Text)
		if !ok {
			b.unknownSetting(file, kind, s, subject)
			continue
		}
		args, ok := b.setting(file, row, s, subject)
		if !ok {
			given[row.Name] = append(given[row.Name], args)
			continue
		}
		key := [2]string{row.Name, args.RepeatKey()}
		if first, again := seen[key]; again {
			f := b.say(file, s.Key.Span, "setting/repeated", subject, "`%s` is given twice", repeatedName(args))
			f.Related = []finding.Related{{Place: finding.Place{File: file, Span: first}, Message: "given here first"}}
			continue
		}
		seen[key] = s.Key.Span
		if !b.references(file, args) && !b.options.ExistingOnly {
			b.mistake(subject, row.Name)
		}
		given[row.Name] = append(given[row.Name], args)
	}
	b.guess(file, kind, block, given, subject)
	return given
}

// setting reads one setting. One with a mistake counts as given all the same.
func (b *binder) setting(file *source.File, row *kinds.Setting, s *syntax.Setting, subject string) (kinds.Args, bool) {
	var wrong *kinds.Mismatch
	args := kinds.Args{Setting: row, Key: s.Key, Span: s.Span}
	if !s.Broken {
		args, wrong = row.Match(s)
	}
	args.File = file
	if wrong != nil {
		f := b.say(file, wrong.Span, wrong.Rule, subject, "%s", wrong.Message)
		f.Figures = append(f.Figures, "expected: "+row.Usage())
		args.List = nil
	}
	if s.Broken || wrong != nil {
		b.mistake(subject, row.Name)
		return args, false
	}
	return args, true
}

// guess counts as given, but mistaken, what unknown and broken settings were
// meant for: it is not missing as well.
func (b *binder) guess(file *source.File, kind *kinds.Kind, block *syntax.Block, given map[string][]kinds.Args, subject string) {
	for _, s := range block.Settings {
		if _, known := kind.Setting(s.Key.Text); known && !s.Broken {
			continue
		}
		for _, name := range meantFor(kind, s, file.Slice(s.Span)) {
			b.mistake(subject, name)
			if len(given[name]) == 0 {
				row, _ := kind.Setting(name)
				given[name] = []kinds.Args{{Setting: row, Key: s.Key, File: file, Span: s.Span}}
			}
		}
	}
}

func repeatedName(a kinds.Args) string {
	if key := a.RepeatKey(); key != "" {
		return a.Setting.Name + " " + key
	}
	return a.Setting.Name
}

func (b *binder) unknownSetting(file *source.File, kind *kinds.Kind, s *syntax.Setting, subject string) {
	names := kind.SettingNames()
	f := b.say(file, s.Key.Span, "setting/unknown", subject, "%s has no setting `%s`%s", kind.Title(), s.Key.Text, kinds.DidYouMean(s.Key.Text, names))
	f.Figures = append(f.Figures, "it takes: "+strings.Join(names, ", "))
}

// references looks up the names among a setting's values, and reports whether
// all are declared.
func (b *binder) references(file *source.File, args kinds.Args) bool {
	all := true
	for _, a := range args.List {
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
func (b *binder) missing(d declared, kind *kinds.Kind, given map[string][]kinds.Args, subject string) {
	o, head := d.origin(), d.decl.Header()
	if hidden(head) {
		return
	}
	if o.Name.End == 0 {
		o.Name = head.Keyword.Span
	}
	for _, s := range kind.Settings {
		if !s.Required || len(given[s.Name]) > 0 || s.Instead != "" && len(given[s.Instead]) > 0 {
			continue
		}
		f := b.say(o.File, o.Name, "setting/missing", subject, "%s `%s` needs `%s`: %s", kind.Title(), subject, s.Name, s.Doc)
		f.Figures = append(f.Figures, "expected: "+s.Usage())
		f.Needs = []finding.Need{{Name: subject, Setting: s.Name}}
		b.lacks = b.lacks || !aside[s.Name] && kind.Family != ""
	}
}
