package readings

import (
	"io"
	"math"
	"strconv"

	"hame/check/wording"
)

// WriteJSON writes a report for a program: one object, figures in SI. A bound
// that is not there, and what is open, is null.
func WriteJSON(to io.Writer, version, harness string, r *Report) error {
	out := jsonReport{Hame: version, Harness: harness, Proved: r.Proved(), Counts: map[State]int{}, Lost: some(r.Lost), Remarks: some(r.Remarks)}
	for _, s := range []State{Within, Drifted, Unjudged, Unreadable, Blank} {
		out.Counts[s] = r.Counts()[s]
	}
	out.Findings, out.Lines = []jsonFinding{}, []jsonLine{}
	for _, f := range r.Findings {
		x := jsonFinding{Explains: some(f.Explains), Measure: some(f.Measure)}
		for _, s := range f.Suspects {
			x.Suspects = append(x.Suspects, jsonSuspect{s.Sort, s.Name, s.From, s.To, s.Existing, fitted(s.AddedOhm), s.Open, fitted(s.Share), s.Words()})
		}
		out.Findings = append(out.Findings, x)
	}
	for _, i := range r.Items {
		out.Lines = append(out.Lines, lineOf(i))
	}
	return wording.JSON(to, out)
}

type jsonReport struct {
	Hame     string        `json:"hame"`
	Harness  string        `json:"harness"`
	Proved   bool          `json:"proved"`
	Counts   map[State]int `json:"counts"`
	Findings []jsonFinding `json:"findings"`
	Lost     []string      `json:"unexplained"`
	Remarks  []string      `json:"remarks"`
	Lines    []jsonLine    `json:"lines"`
}

type jsonFinding struct {
	Suspects []jsonSuspect `json:"suspects"`
	Explains []string      `json:"explains"`
	Measure  []string      `json:"measure"`
}

type jsonSuspect struct {
	Sort     string   `json:"sort"`
	Name     string   `json:"name"`
	From     string   `json:"from"`
	To       string   `json:"to"`
	Existing bool     `json:"existing"`
	AddedOhm *float64 `json:"added_ohm"`
	Open     bool     `json:"open"`
	Share    *float64 `json:"share"`
	Words    string   `json:"words"`
}

type jsonLine struct {
	ID      string   `json:"id"`
	Test    string   `json:"test"`
	Mode    string   `json:"mode"`
	State   State    `json:"state"`
	Spare   bool     `json:"spare"`
	Expect  *float64 `json:"expect"`
	Low     *float64 `json:"low"`
	High    *float64 `json:"high"`
	Reading *float64 `json:"reading"`
	Open    bool     `json:"open"`
	Unit    string   `json:"unit"` // of the figures here: V, A, ohm, K
	Why     string   `json:"why"`
}

func lineOf(i Item) jsonLine {
	l := i.Line
	unit, _ := unitOf(l.Unit.Name)
	out := jsonLine{
		ID: l.ID, Test: string(l.Kind), Mode: l.Mode, State: i.State, Spare: l.Spare, Low: finite(l.Low), High: finite(l.High),
		Unit: unit.dimension, Why: i.Why,
	}
	if l.Expect != nil {
		out.Expect = finite(*l.Expect)
	}
	if i.State == Within || i.State == Drifted || i.State == Unjudged {
		out.Reading, out.Open = finite(i.SI), math.IsInf(i.SI, 1)
	}
	return out
}

// digits are as many as are the same on every machine.
const digits = 6

func finite(v float64) *float64 {
	switch {
	case math.IsInf(v, 0) || math.IsNaN(v):
		return nil
	case v == 0:
		return &v
	}
	by := math.Pow10(digits - 1 - int(math.Floor(math.Log10(math.Abs(v)))))
	v = math.Round(v*by) / by
	return &v
}

// fitted is a size that was fitted: it is worth no more than three digits.
func fitted(v *float64) *float64 {
	if v == nil {
		return nil
	}
	r, _ := strconv.ParseFloat(strconv.FormatFloat(*v, 'e', 2, 64), 64)
	return &r
}

// some is a list that is never null.
func some(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}
