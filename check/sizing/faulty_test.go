package sizing_test

import (
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"hame/check"
	"hame/check/sizing"
	"hame/lang/finding"
	"hame/lang/source"
)

var gaugeOfWire = regexp.MustCompile(`(?m)^(wire .*?)[0-9][0-9./]* (?:mm2|AWG)`)

// ofOwnGauge are the rules that find fault with a wire for its own gauge.
var ofOwnGauge = map[string]bool{
	"wire/undersized": true, "wire/thin": true, "wire/hot": true, "connector/gauge": true, "ground/thin": true, "tap/unprotected": true,
}

// TestFaulty takes all gauges out of harnesses that are broken in every way there
// is. Nothing gives way, each wire has a size or a reason, and no size that is
// given is found fault with.
func TestFaulty(t *testing.T) {
	for _, file := range faulty(t) {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			o := check.Options{Today: "2026-01-01", Read: func(name string) (string, error) {
				library, err := os.ReadFile(path.Join(path.Dir(file), name))
				return string(library), err
			}}
			f := source.New("faulty.hame", gaugeOfWire.ReplaceAllString(string(text), "${1}auto"))
			r, err := sizing.Of(f, sizing.Options{Options: o})
			if err != nil {
				t.Skip(err) // a library
			}
			accounted(t, r, o)
		})
	}
}

func faulty(t *testing.T) []string {
	var list []string
	err := filepath.WalkDir("../../examples/faulty", func(path string, e fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, ".hame") {
			list = append(list, path)
		}
		return err
	})
	if err != nil || len(list) < 20 {
		t.Fatalf("%d broken harnesses: %v", len(list), err)
	}
	return list
}

// accounted holds every wire of a result to have a size that is not found fault
// with, or a reason.
func accounted(t *testing.T, r *sizing.Result, o check.Options) {
	sizes := map[string]bool{}
	for _, w := range r.Wires {
		sizes[w.Name] = w.Sized
		if w.Sized == (w.Reason != "") || w.Sized && w.Decides == "" {
			t.Errorf("%s: sized %v, decided by %q, reason %q", w.Name, w.Sized, w.Decides, w.Reason)
		}
	}
	for _, f := range check.File(source.New("faulty.hame", r.Text()), o).Findings {
		if sizes[f.Subject] && ofOwnGauge[f.Rule] && f.Severity > finding.Advice && f.Allowed == nil {
			t.Errorf("%s was sized: %s: %s", f.Subject, f.Rule, f.Message)
		}
	}
}
