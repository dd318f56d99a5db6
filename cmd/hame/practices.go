package main

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"

	"hame/check"
	"hame/check/report"
	"hame/check/wording"
	"hame/lang/kinds"
	"hame/lang/tables"
)

// limitWords says what the limits of a practice are limits of. One that is not
// here is called by its name in the table.
var limitWords = map[string]string{
	"drop_critical":         "drop to a critical load and back",
	"drop_other":            "drop to any other load and back",
	"drop_advice":           "drop that is worth a thought",
	"drop_continuous_14v":   "drop at 14 V, continuous",
	"drop_intermittent_14v": "drop at 14 V, intermittent",
	"drop_continuous_28v":   "drop at 28 V, continuous",
	"drop_intermittent_28v": "drop at 28 V, intermittent",
	"device_wire":           "a device's rating, of the ampacity behind it",
	"insulation_cap":        "column of the ampacity that a device is judged by",
	"distance_bare":         "source to device, bare",
	"distance_sheathed":     "source to device, in a sheath",
	"distance_battery":      "battery post to device, in a sheath",
	"gauge_covered":         "least gauge, in a cover",
	"gauge_alone":           "least gauge, alone",
	"clamps":                "from clamp to clamp",
	"device_load":           "steady current, of a device's rating",
	"device_load_hot":       "steady current, of a device's rating, in a hot zone",
	"clear_hot":             "least clearance from hot parts",
	"clear_moving":          "least clearance from moving parts",
	"clear_fuel":            "least clearance from fuel lines",
	"stall":                 "a device's time at a motor's stall",
	"stud_rings":            "rings on a stud",
	"alternator_load":       "lasting load, of an alternator's output",
	"standing_draw":         "draw with the key off, of a battery's capacity",
}

type jsonPractice struct {
	Hame     string              `json:"hame"`
	Practice string              `json:"practice"`
	Ampacity []jsonSource        `json:"ampacity"`
	Limits   []jsonPracticeLimit `json:"limits"`
}

type jsonPracticeLimit struct {
	Limit    string  `json:"limit"`
	Words    string  `json:"words"`
	Grade    string  `json:"grade"`
	Value    float64 `json:"value"`
	Unit     string  `json:"unit"`
	Document string  `json:"document"`
	Clause   string  `json:"clause"`
	Mark     string  `json:"mark"`
}

type jsonSource struct {
	For      string `json:"for"`
	Document string `json:"document"`
	Clause   string `json:"clause"`
	Mark     string `json:"mark"`
}

// ampacity is a table that a practice takes ampacities from.
type ampacity struct {
	of     string
	source tables.Source
}

// ampacities lists the tables of a practice, by what each is taken for.
func ampacities(practice string) []ampacity {
	const thickMM2, thinMM2, finestMM2, classC, roomC = 2.5, 0.75, 0.35, 105, 30
	if practice == "ac43" {
		r, _ := tables.AC43Ampacity(thickMM2, classC, roomC)
		return []ampacity{{"ampacity", r.Source}}
	}
	thick, _ := tables.Ampacity(thickMM2, classC, roomC)
	thin, _ := tables.Ampacity(thinMM2, classC, roomC)
	finest, _ := tables.Ampacity(finestMM2, classC, roomC)
	list := []ampacity{
		{"ampacity", thick.Source},
		{"ampacity below 18 AWG", thin.Source},
		{"ampacity below 0.75 mm2, a lower bound", finest.Source},
	}
	if _, source, ok := tables.EngineSpaceFactor(classC); ok && practice == "cfr183" {
		list = append(list, ampacity{"ampacity in an engine space", source})
	}
	return list
}

// practice lists the limits of a practice.
func (v rulesVerb) practice(s *session) error {
	list := tables.LimitsOf(v.Practice)
	switch {
	case v.Name != "":
		return fmt.Errorf("--practice lists a practice's limits and takes no rule\nhelp: hame help rules")
	case len(list) == 0:
		all := tables.Practices()
		return fmt.Errorf("there is no practice `%s`%s\nall practices: %s", report.Plain(v.Practice), kinds.DidYouMean(v.Practice, all), strings.Join(all, ", "))
	case v.Format == "json":
		return wording.JSON(s.out, jsonPracticeOf(v.Practice, list))
	}
	return practicePage(s.out, v.Practice, list)
}

func jsonPracticeOf(name string, list []tables.Limit) jsonPractice {
	out := jsonPractice{Hame: check.Version, Practice: name}
	for _, a := range ampacities(name) {
		out.Ampacity = append(out.Ampacity, jsonSource{a.of, a.source.Document, a.source.Clause, string(a.source.Mark)})
	}
	for _, l := range list {
		out.Limits = append(out.Limits, jsonPracticeLimit{
			Limit: l.Name, Words: wordsOf(l), Grade: l.Grade, Value: l.Value, Unit: unitOf(l),
			Document: l.Source.Document, Clause: l.Source.Clause, Mark: string(l.Source.Mark),
		})
	}
	return out
}

// practicePage writes two lines for each limit: what it limits, and where it
// stands.
func practicePage(w io.Writer, name string, list []tables.Limit) error {
	out := bufio.NewWriter(w)
	_, _ = fmt.Fprintf(out, "%s: %d limits\n\n", name, len(list))
	for _, a := range ampacities(name) {
		_, _ = fmt.Fprintf(out, "    %s\n        %s\n", a.of, originOf(a.source))
	}
	wide := 0
	for _, l := range list {
		wide = max(wide, len(wordsOf(l)))
	}
	for _, l := range list {
		value := strings.TrimSpace(strconv.FormatFloat(l.Value, 'f', -1, 64) + " " + unitOf(l))
		_, _ = fmt.Fprintf(out, "    %-*s  %-8s  %s\n", wide, wordsOf(l), value, l.Grade)
		_, _ = fmt.Fprintf(out, "        %s\n", originOf(l.Source))
	}
	return out.Flush() // which keeps the first error
}

func wordsOf(l tables.Limit) string {
	if words, ok := limitWords[l.Name]; ok {
		return words
	}
	return strings.ReplaceAll(l.Name, "_", " ")
}

// unitOf is a limit's unit, "" for a count.
func unitOf(l tables.Limit) string {
	if l.Unit == "1" {
		return ""
	}
	return l.Unit
}

// originOf is a source with its mark, which is not said twice.
func originOf(s tables.Source) string {
	if text := s.String(); strings.HasPrefix(text, string(s.Mark)) {
		return text
	}
	return s.String() + ", " + string(s.Mark)
}
