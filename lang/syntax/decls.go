package syntax

// How a header's grammar becomes its declaration. The reader fills in what all
// declarations have: keyword, description, block and span.

func harnessDecl(g *harnessForm, _ string) Decl {
	return &Harness{Head{Name: g.Name.Name}}
}

func zoneDecl(g *zoneForm, _ string) Decl { return &Zone{Head{Name: g.Name.Name}} }

func modeDecl(g *modeForm, _ string) Decl { return &Mode{Head{Name: g.Name.Name}} }

func placesDecl(g *placeForm, _ string) Decl {
	d := &Places{Names: g.Names.Names, Zone: g.Zone.Name}
	if len(d.Names) > 0 {
		d.Name = d.Names[0]
	}
	return d
}

func bundleDecl(g *bundleForm, text string) Decl {
	return &Bundle{
		Head: Head{Name: g.Name.Name},
		From: g.From.Name, To: g.To.Name,
		Length: given(&g.Length.Value, text),
	}
}

func deviceDecl(g *deviceForm, _ string) Decl {
	return &Device{Head: Head{Name: g.Name.Name}, Kind: g.Kind.Name}
}

func wireDecl(g *wireForm, text string) Decl {
	return &Wire{
		Head: Head{Name: g.Name.Name},
		From: given(&g.From.Value, text), To: given(&g.To.Value, text),
		Gauge:  given(&g.Gauge.Value, text),
		Words:  g.Words.Values,
		Length: given(g.Length.Value, text),
	}
}

func partDecl(g *partForm, _ string) Decl {
	return &Part{Head: Head{Name: g.Name.Name}, Family: g.Family.Name, Kind: g.Kind.Name}
}

func useDecl(g *useForm, text string) Decl { return &Use{Path: given(&g.Path.Value, text)} }

func requireDecl(g *requireForm, text string) Decl {
	subject := Name{Text: g.Subject.Text, Span: g.Subject.Span}
	return &Require{
		Head:  Head{Name: subject},
		What:  g.What.Name,
		Op:    given(&g.Op.Value, text),
		Limit: given(&g.Limit.Value, text),
		Mode:  g.Mode.Name,
	}
}

func allowDecl(g *allowForm, text string) Decl {
	return &Allow{
		Rule:    given(&g.Rule.Value, text),
		On:      given(&g.Subject.Value, text),
		Because: given(&g.Because.Value, text),
		Until:   given(&g.Until.Value, text),
	}
}

// given is a value that was read, with its text as it stands in the file; nil
// where there is none.
func given(v *Value, text string) *Value {
	if v == nil || v.End == 0 {
		return nil
	}
	v.written(text)
	return v
}
