package report

import (
	"encoding/json"
	"io"
	"math"

	"hame/check/wording"
	"hame/lang/finding"
)

// jsonDigits is how many digits a figure for programs has: more than any
// table knows, fewer than the machine's last bits.
const jsonDigits = 9

// number is a figure for programs. One that is no number is unknown: null.
type number struct{ v *float64 }

func (n number) MarshalJSON() ([]byte, error) {
	if n.v == nil || math.IsNaN(*n.v) || math.IsInf(*n.v, 0) {
		return []byte("null"), nil
	}
	return json.Marshal(rounded(*n.v, jsonDigits))
}

// positive is a figure for which zero means that it is unknown.
func positive(v float64) number {
	if v <= 0 {
		return number{}
	}
	return number{&v}
}

// word is a text that is null where there is none.
type word string

func (t word) MarshalJSON() ([]byte, error) {
	if t == "" {
		return []byte("null"), nil
	}
	return marshal(string(t))
}

// JSON writes one object for one run, and for several an object with their
// list.
func JSON(w io.Writer, runs []Run, o Options) error {
	list := make([]jsonRun, 0, len(runs))
	for _, r := range runs {
		list = append(list, jsonRunOf(r, o.Version))
	}
	if len(list) == 1 {
		return wording.JSON(w, list[0])
	}
	return wording.JSON(w, jsonRuns{o.Version, list})
}

type jsonRuns struct {
	Hame string    `json:"hame"`
	Runs []jsonRun `json:"runs"`
}

type jsonRun struct {
	Hame     string        `json:"hame"`
	Files    []string      `json:"files"`
	Harness  word          `json:"harness"`
	Practice word          `json:"practice"`
	Findings []jsonFinding `json:"findings"`
	Wires    []jsonWire    `json:"wires"`
	Devices  []jsonDevice  `json:"devices"`
	Modes    []jsonMode    `json:"modes"`
	Coverage *jsonCoverage `json:"coverage"`
}

func jsonRunOf(r Run, version string) jsonRun {
	out := jsonRun{Hame: version, Files: []string{}, Findings: []jsonFinding{}}
	for _, f := range r.Files {
		out.Files = append(out.Files, f.Name)
	}
	for _, f := range r.findings() {
		out.Findings = append(out.Findings, jsonFindingOf(f))
	}
	if r.Harness != nil {
		out.Harness, out.Practice = word(r.Harness.Name), word(r.Harness.Practice)
	}
	out.Wires, out.Devices, out.Modes = jsonWires(r), jsonDevices(r), jsonModes(r)
	if r.Figures != nil {
		c := r.Figures.Coverage
		out.Coverage = &jsonCoverage{c.SwitchPositions, word(c.Method), c.Shorted}
	}
	return out
}

type jsonSpan struct {
	File      string `json:"file"`
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndLine   int    `json:"end_line"`
	EndColumn int    `json:"end_column"`
}

func jsonSpanOf(p finding.Place) jsonSpan {
	at := regionOf(p)
	return jsonSpan{p.File.Name, at.from.Line, at.from.Column, at.to.Line, at.to.Column}
}

type jsonFinding struct {
	Rule     string `json:"rule"`
	Severity string `json:"severity"`
	Message  string `json:"message"`
	jsonSpan
	Subject  word          `json:"subject"`
	Mode     word          `json:"mode"`
	Measured number        `json:"measured"`
	Limit    number        `json:"limit"`
	Unit     word          `json:"unit"`
	Source   word          `json:"source"`
	Figures  []string      `json:"figures"`
	Related  []jsonRelated `json:"related"`
	Needs    []jsonNeed    `json:"needs"`
	Fix      *jsonFix      `json:"fix"`
	Allowed  *jsonAllowed  `json:"allowed"`
}

type jsonRelated struct {
	jsonSpan
	Message string `json:"message"`
}

type jsonNeed struct {
	Name    string `json:"name"`
	Setting string `json:"setting"`
}

type jsonFix struct {
	Title string     `json:"title"`
	Edits []jsonEdit `json:"edits"`
}

type jsonEdit struct {
	jsonSpan
	Text string `json:"text"`
}

type jsonAllowed struct {
	Because string `json:"because"`
	Until   word   `json:"until"`
}

func jsonFindingOf(f finding.Finding) jsonFinding {
	out := jsonFinding{
		Rule: f.Rule, Severity: f.Severity.String(), Message: f.Message, jsonSpan: jsonSpanOf(f.At),
		Subject: word(f.Subject), Mode: word(f.Mode), Measured: number{f.Measured}, Limit: number{f.Limit},
		Unit: word(f.Unit), Source: word(f.Source), Figures: append([]string{}, f.Figures...),
		Related: []jsonRelated{}, Needs: []jsonNeed{}, Fix: jsonFixOf(f.Fix),
	}
	for _, r := range f.Related {
		if !r.IsZero() {
			out.Related = append(out.Related, jsonRelated{jsonSpanOf(r.Place), r.Message})
		}
	}
	for _, n := range f.Needs {
		out.Needs = append(out.Needs, jsonNeed(n))
	}
	if f.Allowed != nil {
		out.Allowed = &jsonAllowed{f.Allowed.Because, word(f.Allowed.Until)}
	}
	return out
}

func jsonFixOf(f *finding.Fix) *jsonFix {
	if f == nil {
		return nil
	}
	out := &jsonFix{Title: f.Title, Edits: []jsonEdit{}}
	for _, e := range f.Edits {
		if !e.IsZero() {
			out.Edits = append(out.Edits, jsonEdit{jsonSpanOf(e.Place), e.Text})
		}
	}
	return out
}
