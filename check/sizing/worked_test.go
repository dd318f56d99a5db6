package sizing_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"strings"
	"testing"

	"hame/check/sizing"
	"hame/lang/source"
)

// TestWorkedExamples: the sizes that published examples choose come out.
// testdata/published-choices.csv has each with document, clause and mark.
func TestWorkedExamples(t *testing.T) {
	for _, e := range workedExamples(t) {
		t.Run(e["document"]+" "+e["clause"], func(t *testing.T) {
			text := workedHarness(e)
			r, err := sizing.Of(source.New("worked.hame", text), sizing.Options{})
			if err != nil {
				t.Fatal(err)
			}
			w := r.Wires[0]
			if got, want := w.Size.String(), e["chosen_awg"]+" AWG"; !w.Sized || got != want {
				t.Errorf("%s %s: %s, and %s is chosen (%s)\n%s %s\n%s", e["document"], e["clause"], got, want, e["what"], w.Decides, w.Reason, text)
			}
		})
	}
}

func workedExamples(t *testing.T) []map[string]string {
	t.Helper()
	f, err := os.Open("testdata/published-choices.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	in := csv.NewReader(f)
	in.Comment = '#'
	rows, err := in.ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("no examples: %v", err)
	}
	var list []map[string]string
	for _, row := range rows[1:] {
		e := map[string]string{}
		for i, column := range rows[0] {
			e[column] = row[i]
		}
		list = append(list, e)
	}
	return list
}

// workedHarness is a motor on one wire that is to be sized; the others are as
// thick as wires come and take nothing. The wire's own drop is what examples
// speak of, and 40 % of the system's volts leave the practice's limit out.
func workedHarness(e map[string]string) string {
	limits, cover, promise, family := "", "", "", "blade"
	if e["limit"] != "" {
		limits = " { drop other 40 % }"
		promise = "require w2 drop <= " + e["limit"] + " in on\n"
	}
	if e["allows"] != "" {
		promise += "allow " + e["allows"] + " on f1 because \"the example is of the rating alone\"\n"
	}
	if len(e["fuse_a"]) > 1 && e["fuse_a"] > "30" {
		family = "maxi" // blades end at 30 A
	}
	if e["covered"] == "yes" {
		cover = " { cover braid }"
	}
	return fmt.Sprintf(strings.TrimLeft(`
harness worked { system %s V; practice %s%s; wire %s }
zone  room { ambient 0..%s degC }
place shelf in room
supply battery main { at shelf; capacity 900 Ah; resistance 12 mohm; post M8; covered }
protection fuse f1  { at shelf; rating %s A; family %s; breaks 20 kA; volts 58 V; covered }
load motor pump     { at shelf; draws %s A; meant always }
wire w1 main.pos -> f1.in    4/0 AWG red   0.1 m { cover braid }
wire w2 f1.out   -> pump.pos auto    red   %s ft%s
wire w3 pump.neg -> main.neg 4/0 AWG black 0.1 m
mode on { for 1 h }
%s`, "\n"), e["system_v"], e["practice"], limits, e["insulation"], e["ambient_c"], e["fuse_a"], family, e["current_a"], e["length_ft"], cover, promise)
}
