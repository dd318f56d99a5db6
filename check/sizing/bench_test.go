package sizing_test

import (
	"os"
	"path"
	"testing"

	"hame/check"
	"hame/check/sizing"
	"hame/lang/source"
)

// BenchmarkExamples sizes every wire of whole harnesses afresh that is not the
// machine's own, and tells how many checks that takes.
func BenchmarkExamples(b *testing.B) {
	for _, name := range []string{"trailer", "sap_hauler", "launch", "forwarder"} {
		b.Run(name, func(b *testing.B) {
			dir := "../../examples/" + name
			text, err := os.ReadFile(dir + "/harness.hame")
			if err != nil {
				b.Fatal(err)
			}
			o := sizing.Options{Options: check.Options{Read: func(file string) (string, error) {
				library, err := os.ReadFile(path.Join(dir, file))
				return string(library), err
			}}}
			f := source.New("harness.hame", string(text))
			for _, w := range check.File(f, o.Options).Harness.Wires {
				if !w.Existing {
					o.Names = append(o.Names, w.Name)
				}
			}
			for b.Loop() {
				r, err := sizing.Of(f, o)
				if err != nil || r.Unsized() > 0 || r.Ended {
					b.Fatalf("%v, %d wires without a size", err, r.Unsized())
				}
				b.ReportMetric(float64(len(r.Wires)), "wires")
				b.ReportMetric(float64(r.Checks), "checks/op")
			}
		})
	}
}
