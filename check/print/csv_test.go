package print_test

import (
	"encoding/csv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"hame/check/print"
	"hame/check/sheet"
)

func asCSV(t *testing.T, table *sheet.Table) string {
	t.Helper()
	var b strings.Builder
	if err := print.CSV(&b, table); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

func records(t *testing.T, text string) [][]string {
	t.Helper()
	list, err := csv.NewReader(strings.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatalf("%v in:\n%s", err, text)
	}
	return list
}

// TestCSV reads back what was written: names of columns, exact figures in the
// place of rounded ones, no sums.
func TestCSV(t *testing.T) {
	text := asCSV(t, sampleTable())
	want := [][]string{
		{"wire", "colour", "length_mm", "from", "note", "done"},
		{"w1", "red", "1800", "main.pos", "'=2+5", ""},
		{"w2", "white/black", "-50", "engine_bay/left-panel.connector_17", "keep clear of the exhaust, and behind the second clamp from the front, where it was rubbed through before", ""},
		{"w3", "?", "?", "電池.正", `<script>alert(1)</script>\x1b[2J\u202e"'&</style>\xff`, ""},
	}
	if diff := cmp.Diff(want, records(t, text)); diff != "" {
		t.Error(diff)
	}
	// RFC 4180, 2.1: lines end in CR LF.
	if strings.Count(text, "\n") != strings.Count(text, "\r\n") || !strings.HasSuffix(text, "\r\n") {
		t.Errorf("not every line ends in CR LF: %q", text)
	}
}

// TestCSVFormula: the characters by which the OWASP page on CSV injection says
// that spreadsheets know a formula (from memory), and the figures that are none.
func TestCSVFormula(t *testing.T) {
	for words, want := range map[string]string{
		"=1+1": "'=1+1", "+1+1": "'+1+1", "-1+1": "'-1+1", "@sum(a1)": "'@sum(a1)", "\t=1": "' =1", "\r=1": `'\x0d=1`, " =1": "' =1",
		"＝1+1": "'＝1+1", "-": "'-", "-0x41": "'-0x41", "+5": "'+5", "-5 V": "'-5 V",
		"-5": "-5", "-0.25": "-0.25", "1e-06": "1e-06", "-1.5e+06": "-1.5e+06", "5": "5", "a=1": "a=1", "": "",
	} {
		table := &sheet.Table{Columns: []sheet.Column{{Name: "a"}, {Name: "b"}}, Rows: []sheet.Row{sheet.Cells(words, "x")}}
		if got := records(t, asCSV(t, table))[1][0]; got != want {
			t.Errorf("%q is written as %q, want %q", words, got, want)
		}
	}
}

// TestCSVWhole: neither rows nor letters are left out, and a row that is short
// is filled up.
func TestCSVWhole(t *testing.T) {
	long := strings.Repeat("x", 50_000)
	table := &sheet.Table{Columns: []sheet.Column{{Name: "a"}, {Name: "b"}}}
	for range 6000 {
		table.Rows = append(table.Rows, sheet.Cells("x"))
	}
	table.Rows = append(table.Rows, sheet.Cells(long, "y"))
	list := records(t, asCSV(t, table))
	if len(list) != 6002 {
		t.Errorf("%d lines, want 6002", len(list))
	}
	if last := list[len(list)-1]; last[0] != long {
		t.Errorf("%d of %d letters", len(last[0]), len(long))
	}
}
