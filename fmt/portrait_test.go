package format_test

import (
	"fmt"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	format "hame/fmt"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/source"
	"hame/lang/syntax"
)

// portrait writes all that binding a text gives, places in the text left out.
func portrait(path, text string) string {
	r := bound(path, text)
	p := painter{seen: map[uintptr]int{}}
	p.paint(reflect.ValueOf(r.Harness))
	return strings.Join(saidIn(r), "\n") + p.String()
}

// painter writes a graph of values, each pointer's once.
type painter struct {
	strings.Builder
	seen map[uintptr]int
}

// leftOut are the types that hold places in the text, or the tree itself.
var leftOut = []reflect.Type{
	reflect.TypeFor[source.Span](), reflect.TypeFor[*source.File](), reflect.TypeFor[harness.Origin](),
	reflect.TypeFor[finding.Place](), reflect.TypeFor[*syntax.Block](), reflect.TypeFor[syntax.Decl](), reflect.TypeFor[*syntax.File](),
}

func (p *painter) paint(v reflect.Value) {
	if !v.IsValid() || slices.Contains(leftOut, v.Type()) {
		return
	}
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		p.pointer(v)
	case reflect.Struct:
		p.fields(v)
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			fmt.Fprintf(p, "\n-")
			p.paint(v.Index(i))
		}
	case reflect.Map:
		p.entries(v)
	case reflect.Func:
	default:
		fmt.Fprintf(p, " %v", v)
	}
}

// entries writes a map by its keys' names.
func (p *painter) entries(v reflect.Value) {
	name := func(k reflect.Value) string {
		if k.Kind() == reflect.Pointer {
			k = k.Elem().FieldByName("Name")
		}
		return k.String()
	}
	keys := v.MapKeys()
	slices.SortFunc(keys, func(a, b reflect.Value) int { return strings.Compare(name(a), name(b)) })
	for _, k := range keys {
		fmt.Fprintf(p, "\n%s:", name(k))
		p.paint(v.MapIndex(k))
	}
}

func (p *painter) fields(v reflect.Value) {
	isQuantity := v.Type() == reflect.TypeFor[kinds.Arg]() && v.FieldByName("Lo").FieldByName("Text").String() != ""
	for i := range v.NumField() {
		name := v.Type().Field(i).Name
		if isQuantity && name == "Word" {
			continue // it says once more how the quantity is written
		}
		fmt.Fprintf(p, "\n%s", name)
		p.paint(v.Field(i))
	}
}

func (p *painter) pointer(v reflect.Value) {
	if v.Kind() == reflect.Interface || v.IsNil() {
		p.paint(v.Elem())
		return
	}
	number, again := p.seen[v.Pointer()]
	if again {
		fmt.Fprintf(p, " =%d", number)
		return
	}
	p.seen[v.Pointer()] = len(p.seen)
	p.paint(v.Elem())
}

// harnesses are the texts that properties start from.
func harnesses(t *testing.T) map[string]string {
	texts := map[string]string{}
	for _, pattern := range []string{"../examples/*/*.hame", "../lang/syntax/testdata/good/*.hame"} {
		for _, path := range matches(t, pattern) {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			texts[path] = string(text)
		}
	}
	return texts
}

// However a harness is spaced, it means the same once it is formatted, and it
// has the same look as when its blanks are squeezed.
func TestMeaningIsKept(t *testing.T) {
	texts := harnesses(t)
	paths := slices.Sorted(func(yield func(string) bool) {
		for path := range texts {
			if !yield(path) {
				return
			}
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		path := rapid.SampledFrom(paths).Draw(t, "path")
		wild := scramble(texts[path], rapid.Uint64().Draw(t, "seed"))
		out, err := format.Source(source.New(path, wild))
		if err != nil {
			t.Fatal(err)
		}
		if before, after := portrait(path, wild), portrait(path, out); before != after {
			t.Fatalf("%s means another harness: %s", path, firstDifference(before, after))
		}
		if a, b := portrait(path, texts[path]), portrait(path, wild); a != b {
			t.Fatalf("%s: the test itself changes what it means: %s", path, firstDifference(a, b))
		}
		holds(t, wild)
	})
}

func firstDifference(a, b string) string {
	before, after := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(before), len(after)) {
		if before[i] != after[i] {
			return fmt.Sprintf("%q becomes %q", before[i], after[i])
		}
	}
	return fmt.Sprintf("%d lines become %d", len(before), len(after))
}
