package heat

import (
	"encoding/csv"
	"flag"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"hame/lang/tables"
)

var update = flag.Bool("update", false, "write the model's figures into testdata")

const publishedFile = "testdata/published.csv"

// comparison is one line of the file, by column.
type comparison map[string]string

func (c comparison) num(t *testing.T, column string) float64 {
	t.Helper()
	value, err := strconv.ParseFloat(c[column], 64)
	if err != nil {
		t.Fatalf("%s: %v", column, err)
	}
	return value
}

// wire makes the wire that a comparison names: "sae" has the resistance of the
// least SAE area, "ac43" that of AC 43.13-1B Table 11-9.
func (c comparison) wire(t *testing.T) Wire {
	t.Helper()
	n, ok := tables.ParseAWG(c["awg"])
	cable, found := tables.Cable(c["cable"])
	if !ok || !found {
		t.Fatalf("no wire %q %q", c["awg"], c["cable"])
	}
	w := WireOf(cable, tables.Gauge(n))
	if c["r"] == "ac43" {
		r, _ := tables.AC43ResistancePerM(n)
		w.R20OhmPerM = r.OhmPerM
	}
	return w
}

// alike makes a bundle of n wires of one kind, some of them loaded.
func alike(w Wire, n, loaded int, amps float64) Bundle {
	b := Bundle{Wires: make([]Wire, n), Amps: make([]float64, n)}
	for i := range b.Wires {
		b.Wires[i] = w
		if i < loaded {
			b.Amps[i] = amps
		}
	}
	return b
}

// bundleLimit finds the current that brings a bundle's first wire to a limit.
func bundleLimit(w Wire, n, loaded int, limitC, ambientC float64) float64 {
	low, high := 0.0, 2*LimitAmps(w, limitC, ambientC)
	for range 60 {
		middle := (low + high) / 2
		if temps, ok := alike(w, n, loaded, middle).Solve(ambientC); ok && temps[0] <= limitC {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// model gives what the model makes of a comparison: A alone, a factor or A in
// a bundle, as the published figure is.
func (c comparison) model(t *testing.T) float64 {
	t.Helper()
	w := c.wire(t)
	limitC, ambientC := c.num(t, "limit_c"), c.num(t, "ambient_c")
	wires, loaded := int(c.num(t, "wires")), int(c.num(t, "loaded"))
	alone := LimitAmps(w, limitC, ambientC)
	switch {
	case wires == 1:
		return alone
	case c.num(t, "published") < 1:
		return bundleLimit(w, wires, loaded, limitC, ambientC) / alone
	}
	return bundleLimit(w, wires, loaded, limitC, ambientC)
}

// readPublished gives the head (comments and columns) and the lines.
func readPublished(t *testing.T) (comments string, columns []string, lines []comparison) {
	t.Helper()
	text, err := os.ReadFile(publishedFile)
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.SplitAfter(string(text), "\n") {
		if strings.HasPrefix(line, "#") {
			comments += line
		}
	}
	reader := csv.NewReader(strings.NewReader(string(text)))
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, fields := range rows[1:] {
		c := comparison{}
		for i, column := range rows[0] {
			c[column] = fields[i]
		}
		lines = append(lines, c)
	}
	return comments, rows[0], lines
}

// The model against 33 CFR 183.425 Table 5, MIL-W-5088B as quoted, AC 43.13-1B
// and EEE-INST-002. Each line states the deviation and the band accepted for
// its document; a change of the model shows in the file.
func TestModelAgainstPublishedFigures(t *testing.T) {
	comments, columns, lines := readPublished(t)
	if *update {
		writePublished(t, comments, columns, lines)
		return
	}
	for _, c := range lines {
		name := c["document"] + " " + c["clause"] + " " + c["awg"] + " AWG x" + c["wires"]
		model := c.model(t)
		deviation := 100 * (model/c.num(t, "published") - 1)
		if math.Abs(model/c.num(t, "model")-1) > 0.005 || math.Abs(deviation-c.num(t, "deviation_pct")) > 0.6 {
			t.Errorf("%s: the model gives %.4g (%+.1f %%), the file says %s (%s %%)", name, model, deviation, c["model"], c["deviation_pct"])
		}
		if deviation < c.num(t, "least") || deviation > c.num(t, "most") {
			t.Errorf("%s: %+.1f %% is outside %s to %s %%", name, deviation, c["least"], c["most"])
		}
	}
	if len(lines) < 45 {
		t.Errorf("only %d figures were compared", len(lines))
	}
}

// writePublished refreshes the model's two columns.
func writePublished(t *testing.T, comments string, columns []string, lines []comparison) {
	t.Helper()
	var out strings.Builder
	out.WriteString(comments)
	w := csv.NewWriter(&out)
	rows := [][]string{columns}
	for _, c := range lines {
		model := c.model(t)
		c["model"] = strconv.FormatFloat(model, 'g', 4, 64)
		c["deviation_pct"] = strconv.FormatFloat(100*(model/c.num(t, "published")-1), 'f', 1, 64)
		fields := make([]string, len(columns))
		for i, column := range columns {
			fields[i] = c[column]
		}
		rows = append(rows, fields)
	}
	if err := w.WriteAll(rows); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(publishedFile, []byte(out.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}
