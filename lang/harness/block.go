package harness

import (
	"strings"

	"hame/lang/finding"
	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/syntax"
)

// match reads a block's settings by a row of the table. Every mistake is said
// once; what fits is kept.
func (b *binder) match(file *source.File, kind *kinds.Kind, block *syntax.Block, subject string) map[string][]kinds.Args {
	given := map[string][]kinds.Args{}
	if block == nil {
		return given
	}
	seen := map[string]kinds.Args{}
	for _, s := range block.Settings {
		row, ok := kind.Setting(s.Key.Text)
		if !ok {
			b.unknownSetting(file, kind, s, subject)
			continue
		}
		if s.Broken { // said already; it counts as given
			given[row.Name] = append(given[row.Name], kinds.Args{Setting: row, Key: s.Key, Span: s.Span})
			continue
		}
		args, wrong := row.Match(s)
		if wrong != nil {
			f := b.say(file, wrong.Span, wrong.Rule, subject, "%s", wrong.Message)
			f.Figures = append(f.Figures, "expected: "+row.Usage())
			given[row.Name] = append(given[row.Name], kinds.Args{Setting: row, Key: s.Key, Span: s.Span})
			continue
		}
		key := row.Name + " " + args.RepeatKey()
		if first, again := seen[key]; again {
			f := b.say(file, s.Key.Span, "setting/repeated", subject, "`%s` is given twice", repeatedName(args))
			f.Related = []finding.Related{{Place: finding.Place{File: file, Span: first.Key.Span}, Message: "given here first"}}
			continue
		}
		seen[key] = args
		b.references(file, args)
		given[row.Name] = append(given[row.Name], args)
	}
	return given
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

// references looks up the names among a setting's values.
func (b *binder) references(file *source.File, args kinds.Args) {
	for _, a := range args.List {
		if !kinds.IsReference(a.Type) {
			continue
		}
		n := syntax.Name{Text: a.Word, Span: a.Span}
		switch a.Type {
		case "place", "zone", "bundle", "mode":
			b.lookup(file, n, a.Type)
		default:
			b.deviceReference(file, n, a.Type)
		}
	}
}

// deviceReference looks up a name that must be a device of one sort.
func (b *binder) deviceReference(file *source.File, n syntax.Name, sort string) {
	e := b.lookup(file, n, "device")
	if e == nil || e.hazy {
		return
	}
	d, ok := e.decl.decl.(*syntax.Device)
	if !ok {
		return
	}
	family := d.Keyword.Text
	switch {
	case sort == "chassis" && (family != "ground" || d.Kind.Text != "chassis"):
		b.say(file, n.Span, "name/unknown", n.Text, "`%s` is a %s, and a ground chassis is expected here", n.Text, family+" "+d.Kind.Text)
	case (sort == "switch" || sort == "supply") && family != sort:
		b.say(file, n.Span, "name/unknown", n.Text, "`%s` is a %s, and a %s is expected here", n.Text, family+" "+d.Kind.Text, sort)
	}
}

// missing says which required settings were not given, in one finding each.
func (b *binder) missing(o Origin, kind *kinds.Kind, given map[string][]kinds.Args, subject string) {
	for _, s := range kind.Settings {
		if !s.Required || len(given[s.Name]) > 0 || s.Instead != "" && len(given[s.Instead]) > 0 {
			continue
		}
		f := b.say(o.File, o.Name, "setting/missing", subject, "`%s` needs `%s`: %s", subject, s.Name, s.Doc)
		f.Figures = append(f.Figures, "expected: "+s.Usage())
		f.Needs = []finding.Need{{Name: subject, Setting: s.Name}}
	}
}
