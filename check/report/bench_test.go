package report_test

import (
	"io"
	"strings"
	"testing"

	"hame/check/report"
	"hame/lang/finding"
	"hame/lang/source"
)

// crowded is a run with many findings in one endless line.
func crowded() report.Run {
	f := source.New("x.hame", strings.Repeat("wire w1 日本\t", 100_000))
	run := report.Run{Files: []*source.File{f}}
	for i := range 1000 {
		run.Findings = append(run.Findings, finding.Finding{
			Rule: "text/syntax", Severity: finding.Error, Message: "expected a length",
			At: finding.Place{File: f, Span: source.Span{Start: i * 1500, End: i*1500 + 900}},
		})
	}
	return run
}

func BenchmarkEndlessLine(b *testing.B) {
	run := crowded()
	for name, w := range report.Writers {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if err := w(io.Discard, []report.Run{run}, report.Options{}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
