package format

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hame/lang/source"
	"hame/lang/syntax"
)

// The formatter reads sound texts by itself, for speed, and must find the same
// ones sound that the parser does.
func TestAgreesWithTheParser(t *testing.T) {
	statements := rapid.SampledFrom(strings.Split(`zone a {}|place a, b in c|place a,b c|bundle b p -> q 1 m|bundle b p -> q 1 V|`+
		`wire w a.b -> c 10 mm2 sgx red/blue 1 m|wire w a -> capped auto|wire w a -> b 2/0 AWG x 0.3 m|wire w a -> b 2/1 AWG|`+
		`wire w a -> b 1 mm2 1|load led x|load led|load led 1x|part p is load led|part p is lead led|use "x"|use "\x"|use x|`+
		`require a.b volts >= 3 V in m|require a volts > 3 in m|require a volts < 3|require a amps < 3 A|allow a/b on c because "d"|`+
		`allow a/b on c because "d" until 2027-01-01|allow a on c because "d"|mode m|harness h|weir w|x|use "a" {}|place a in b {}`, "|"))
	values := rapid.SampledFrom(strings.Split(`1|1 V|12V|1..2 V|1 V..2|1 V .. 2 V|x|x/y|x / y|"t"|"\x"|2027-01-01|14 awg|3amps|2/0 AWG|1/4 in|1/4 V|`+
		`1/4|2.5 AWG|<=|a.b|80%|96 Ω|,|a, b|a,,b|a,|%|..|1111111111222222222233333333334444444444|->`, "|"))
	rapid.Check(t, func(t *rapid.T) {
		var b strings.Builder
		for range rapid.IntRange(1, 3).Draw(t, "statements") {
			b.WriteString(statements.Draw(t, "statement"))
			if rapid.Bool().Draw(t, "block") {
				b.WriteString(" { k " + strings.Join(rapid.SliceOfN(values, 0, 3).Draw(t, "values"), " "))
				b.WriteString(rapid.SampledFrom([]string{" }", "; j { k 1 } }", "\n}", " { j { k } } }", ""}).Draw(t, "end"))
			}
			b.WriteString(rapid.SampledFrom([]string{"\n", ";", "\n\n", ""}).Draw(t, "stop"))
		}
		f := source.New("t.hame", b.String())
		_, whole := readWhole(cutUp(f))
		if mistakes := syntax.Parse(f).Mistakes; whole != (len(mistakes) == 0) {
			t.Fatalf("%q: the parser finds %v, the formatter finds it sound: %v", f.Text, mistakes, whole)
		}
	})
}
