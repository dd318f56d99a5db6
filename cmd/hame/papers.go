package main

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"hame/check/report"
	"hame/lang/harness"
	"hame/lang/kinds"
	"hame/lang/quantity"
)

// dayOf is a day that was asked for, else today.
func dayOf(option, day string, now time.Time) (string, error) {
	if day == "" {
		return now.Format(time.DateOnly), nil
	}
	if _, err := time.Parse(time.DateOnly, day); err != nil {
		return "", fmt.Errorf("%s wants a day such as 2027-05-31, not `%s`", option, report.Plain(day))
	}
	return day, nil
}

// hasMode reports a mode that the harness has not; "" asks for none.
func hasMode(h *harness.Harness, mode string) error {
	var names []string
	for _, m := range h.Modes {
		if names = append(names, m.Name); m.Name == mode {
			return nil
		}
	}
	if mode == "" {
		return nil
	}
	return fmt.Errorf("there is no mode `%s`%s\nmodes: %s", report.Plain(mode), kinds.DidYouMean(mode, names), strings.Join(names, ", "))
}

// What a bench can cut to, and what still is a step.
const leastStepM, mostStepM = 0.0005, 1

var errStep = errors.New("--step wants a length from 0.5 mm to 1 m, such as 5 mm")

// stepOf reads the step of cut lengths; 0 where none is asked for.
func stepOf(text string) (float64, error) {
	if text == "" {
		return 0, nil
	}
	text = strings.TrimSpace(text)
	end := strings.LastIndexAny(text, "0123456789") + 1
	q, err := quantity.Parse(text[:end], strings.TrimSpace(text[end:]))
	if err != nil || q.Dim != quantity.Length || q.SI < leastStepM || q.SI > mostStepM {
		return 0, fmt.Errorf("%w, not `%s`", errStep, report.Plain(text))
	}
	return q.SI, nil
}
