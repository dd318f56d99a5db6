package sizing

import (
	"io"
	"math"
	"strconv"

	"hame/check/wording"
	"hame/lang/finding"
)

// WriteJSON writes a result for a program: one object, figures in SI with mm2.
// A size that is not known, and a figure that is none, are null.
func WriteJSON(to io.Writer, version string, r *Result) error {
	return wording.JSON(to, jsonOf(version, r))
}

type jsonResult struct {
	Hame     string     `json:"hame"`
	Harness  string     `json:"harness"`
	Practice string     `json:"practice"`
	System   string     `json:"system"`
	Wires    []jsonWire `json:"wires"`
	Open     []jsonOpen `json:"open"`
	Checks   int        `json:"checks"`
	CutShort bool       `json:"cut_short"`
}

type jsonWire struct {
	Name    string       `json:"name"`
	Line    int          `json:"line"`
	Column  int          `json:"column"`
	Was     string       `json:"was"`
	LengthM *float64     `json:"length_m"`
	Gauge   *string      `json:"gauge"`
	AreaMM2 *float64     `json:"area_mm2"`
	Decided *string      `json:"decided_by"`
	Rule    *string      `json:"rule"`
	Smaller *jsonSmaller `json:"smaller"`
	Reason  *string      `json:"reason"`
	Helps   *string      `json:"helps"`
}

type jsonSmaller struct {
	Gauge    string   `json:"gauge"`
	Rule     string   `json:"rule"`
	Severity string   `json:"severity"`
	Message  string   `json:"message"`
	Measured *float64 `json:"measured"`
	Limit    *float64 `json:"limit"`
	Unit     *string  `json:"unit"`
	Source   *string  `json:"source"`
}

type jsonOpen struct {
	Rule    string `json:"rule"`
	Message string `json:"message"`
}

func jsonOf(version string, r *Result) jsonResult {
	h := r.Run.Harness
	out := jsonResult{
		Hame: version, Harness: h.Name, Practice: h.Practice, System: "mm2",
		Wires: []jsonWire{}, Open: []jsonOpen{}, Checks: r.Checks, CutShort: r.Ended,
	}
	if r.AWG {
		out.System = "AWG"
	}
	for i := range r.Wires {
		out.Wires = append(out.Wires, jsonWireOf(r, &r.Wires[i]))
	}
	for _, f := range r.Open {
		out.Open = append(out.Open, jsonOpen{f.Rule, f.Message})
	}
	return out
}

func jsonWireOf(r *Result, w *Wire) jsonWire {
	at := r.File.Position(w.Span.Start)
	out := jsonWire{
		Name: w.Name, Line: at.Line, Column: at.Column, Was: w.Was, LengthM: positive(w.LengthM),
		Decided: word(w.Decides), Rule: word(w.Rule), Reason: word(w.Reason), Helps: word(w.Helps),
	}
	if w.Sized {
		out.Gauge, out.AreaMM2 = word(w.Size.String()), positive(w.Size.AreaMM2())
	}
	if s := w.Smaller; s != nil {
		out.Smaller = jsonSmallerOf(s.Size.String(), s.Says, &s.Finding)
	}
	return out
}

func jsonSmallerOf(gauge, says string, f *finding.Finding) *jsonSmaller {
	return &jsonSmaller{
		Gauge: gauge, Rule: f.Rule, Severity: f.Severity.String(), Message: says,
		Measured: finite(f.Measured), Limit: finite(f.Limit), Unit: word(f.Unit), Source: word(f.Source),
	}
}

// word is a text that is null where there is none.
func word(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

// positive is a figure for which zero means that it is not known.
func positive(v float64) *float64 {
	if v <= 0 {
		return nil
	}
	return finite(&v)
}

// finite keeps nine digits: the last bits hang on the machine.
func finite(v *float64) *float64 {
	if v == nil || math.IsNaN(*v) || math.IsInf(*v, 0) {
		return nil
	}
	r, err := strconv.ParseFloat(strconv.FormatFloat(*v, 'e', 8, 64), 64)
	if err != nil {
		return nil
	}
	return &r
}
