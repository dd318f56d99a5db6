package readings

import (
	"fmt"
	"math"
	"strconv"

	"hame/check/trial"
)

// Words tells a suspect: what it is, where it lies and what is wrong with it.
func (s Suspect) Words() string {
	text := s.what()
	if s.From != "" && s.To != "" && s.Sort != loadSort && s.Sort != sourceSort {
		text += fmt.Sprintf(" (%s to %s)", s.From, s.To)
	}
	if s.Existing {
		text += ", machine's own"
	}
	return text + ": " + s.wrong()
}

func (s Suspect) what() string {
	switch s.Sort {
	case wireSort:
		return "wire " + s.Name + " or a joint at its ends"
	case jointSort:
		return "joint " + s.Name
	case groundSort:
		return "ground point " + s.Name
	case contactSort, stuckSort:
		return "contact " + s.Name
	case deviceSort:
		return "fuse or breaker " + s.Name + ", or its holder"
	case meterSort:
		return s.Name
	}
	return s.Sort + " " + s.Name
}

func (s Suspect) wrong() string {
	switch {
	case s.Sort == stuckSort && s.Then != "":
		return "stays closed, so that these draw more: " + s.Then
	case s.Sort == stuckSort:
		return "stays closed"
	case s.Open:
		return "no connection"
	case s.AddedOhm != nil:
		return "about " + ohms(*s.AddedOhm) + " too much"
	case s.Share == nil:
		return "not told"
	}
	return s.share()
}

// share tells by how much a load, a source or a meter is off.
func (s Suspect) share() string {
	percent := fmt.Sprintf("about %.0f %%", 100*math.Abs(*s.Share))
	less, more := "low", "high"
	switch s.Sort {
	case loadSort:
		const nearAll = -0.9
		if *s.Share < nearAll {
			return "draws next to nothing"
		}
		return "draws " + percent + " " + pick(*s.Share, "less", "more") + " than it should"
	case meterSort:
		return "shows " + percent + " too " + pick(*s.Share, "little", "much")
	}
	return "its volts are " + percent + " " + pick(*s.Share, less, more) + " (charge, regulator, terminals)"
}

func pick(sign float64, less, more string) string {
	if sign < 0 {
		return less
	}
	return more
}

// ohms is a resistance to two digits: a fit is worth no more.
func ohms(v float64) string {
	unit, by := "mohm", 1e3
	switch {
	case v >= 1e3:
		unit, by = "kohm", 1e-3
	case v >= 1:
		unit, by = "ohm", 1
	}
	r, _ := strconv.ParseFloat(strconv.FormatFloat(v*by, 'e', 1, 64), 64)
	return strconv.FormatFloat(r, 'f', -1, 64) + " " + unit
}

// figureOf is a reading in its line's unit.
func figureOf(l trial.Line, si float64) string {
	if math.IsInf(si, 1) {
		return "open"
	}
	return l.Unit.Text(si) + " " + l.Unit.Name
}

// bandOf is a line's band in words.
func bandOf(l trial.Line) string {
	low, high := l.LowText(), l.HighText()
	switch {
	case low == "" && high == "":
		return "no band"
	case low == "":
		return fmt.Sprintf("at most %s %s", high, l.Unit.Name)
	case high == "":
		return fmt.Sprintf("at least %s %s", low, l.Unit.Name)
	}
	return fmt.Sprintf("%s to %s %s", low, high, l.Unit.Name)
}
