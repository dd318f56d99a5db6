package main

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"hame/check"
	"hame/check/draw"
	"hame/check/draw/board"
	"hame/check/draw/wiring"
	"hame/check/report"
	"hame/check/sheet"
	"hame/check/sheets"
	"hame/lang/kinds"
)

// drawVerb is hame draw.
type drawVerb struct {
	Name      string `arg:"" optional:"" help:"The drawing: wiring or layout."`
	Path      string `arg:"" optional:"" help:"The harness file, its folder, or - for standard input."`
	Mode      string `placeholder:"MODE" help:"The mode to show: what is live in it, with volts and amperes."`
	Format    string `enum:"svg,pdf,html" default:"svg" help:"svg, pdf or html."`
	Paper     string `enum:"fit,a4,a3,letter" default:"fit" help:"fit, a4, a3 or letter."`
	Scale     scale  `default:"0" placeholder:"N" help:"N or 1:N: that much smaller than it is."`
	Output    string `short:"o" placeholder:"FILE|DIR" help:"The file to write, or the folder of several pictures."`
	Date      string `placeholder:"DATE" help:"The day to print, such as 2027-05-31."`
	StdinName string `name:"stdin-name" default:"stdin.hame" placeholder:"PATH" help:"The name that standard input goes by."`
}

// scale is how many times smaller than its size a thing is drawn: 10, or 1:10.
type scale float64

var errScale = errors.New("a scale is a number, such as 10, or 1:10")

// UnmarshalText reads it as an argument has it.
func (s *scale) UnmarshalText(text []byte) error {
	n, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimPrefix(string(text), "1:")), 64)
	if err != nil || math.IsNaN(n) {
		return errScale
	}
	*s = scale(n)
	return nil
}

// drawing is one kind of drawing.
type drawing struct {
	name, title, summary string
	scales               string // what --scale may be, in words
	fits                 func(scale) bool
	make                 func(v *drawVerb, run *check.Run, h sheet.Head) []*draw.Picture
}

// drawings are all of them, in the order that help tells them.
var drawings = []drawing{
	{
		"wiring", "Wiring diagram", "what is joined to what: sources at the left, loads at the right",
		"from 0.5 to 3: 2, or 1:2, draws half as large", func(n scale) bool { return n >= 0.5 && n <= 3 }, (*drawVerb).wiring,
	},
	{
		"layout", "Layout", "where the bundles run, with lengths, covers and diameters",
		"a whole number from 1 to 100: 1, or 1:1, is true size", func(n scale) bool { return n >= 1 && n <= 100 && n == scale(math.Trunc(float64(n))) }, (*drawVerb).layout,
	},
}

var (
	errNoPlaces  = errors.New("the harness has no bundles to draw: say where things are with `place` and `bundle`")
	errPaperMade = errors.New("--paper goes with the wiring diagram; a layout is as large as it is")
	errModeMade  = errors.New("--mode goes with the wiring diagram; a layout shows none")
	errPDFPaper  = errors.New("a PDF is made on a4 or letter; a3 goes with --format svg or html")
)

// Run draws, and says in a line what stands against building.
func (v *drawVerb) Run(s *session) error {
	if v.Name == "" {
		_, err := fmt.Fprint(s.out, drawingList())
		return err
	}
	d, err := v.find()
	if err != nil {
		return err
	}
	run, err := v.checked(s)
	if err != nil {
		return err
	}
	head := sheets.NewPack(run, sheets.Options{Date: v.Date}).Head()
	pictures := d.make(v, run, head)
	if len(pictures) == 0 {
		return errNoPlaces
	}
	if err := v.write(s, d, head, pictures); err != nil {
		return err
	}
	if !head.ForBuild() {
		_, _ = fmt.Fprintf(s.err, "hame: %s: hame check %s\n", head.Verdict(), report.Plain(run.Files[0].Name))
	}
	return nil
}

// checked is the harness that the path means, checked.
func (v *drawVerb) checked(s *session) (*check.Run, error) {
	today, err := dayOf("--date", v.Date, time.Now())
	if err != nil {
		return nil, err
	}
	run, err := one{verb: "hame draw " + v.Name, path: v.Path, stdinName: v.StdinName, today: today}.harness(s)
	if err != nil {
		return nil, err
	}
	return run, hasMode(run.Harness, v.Mode)
}

// find is the drawing that was asked for, its options with it.
func (v *drawVerb) find() (drawing, error) {
	var names []string
	for _, d := range drawings {
		if d.name == v.Name {
			return d, v.fits(d)
		}
		names = append(names, d.name)
	}
	name := report.Plain(v.Name)
	if strings.HasSuffix(v.Name, suffix) {
		return drawing{}, fmt.Errorf("`%s` is no drawing; the wiring diagram of that file: hame draw wiring %s", name, name)
	}
	return drawing{}, fmt.Errorf("there is no drawing `%s`%s\ndrawings: %s", name, kinds.DidYouMean(v.Name, names), strings.Join(names, ", "))
}

func (v *drawVerb) fits(d drawing) error {
	switch {
	case v.Scale != 0 && !d.fits(v.Scale):
		return fmt.Errorf("--scale of a %s is %s", d.name, d.scales)
	case v.Format == "pdf" && v.Paper == "a3":
		return errPDFPaper
	case d.name == "layout" && v.Paper != fitPaper && v.Format != "pdf":
		return errPaperMade
	case d.name == "layout" && v.Mode != "":
		return errModeMade
	}
	return nil
}

func drawingList() string {
	var b strings.Builder
	b.WriteString("Drawings\n\n")
	for _, d := range drawings {
		fmt.Fprintf(&b, "    %-8s  %s\n", d.name, d.summary)
	}
	return b.String()
}

// wiring draws the wiring diagram. A picture that stands alone has the cautions on
// it; elsewhere the page has them.
func (v *drawVerb) wiring(run *check.Run, h sheet.Head) []*draw.Picture {
	o := wiring.Options{Mode: v.Mode, Paper: strings.TrimPrefix(v.Paper, fitPaper), Verdict: h.Verdict(), Date: h.Date, File: h.File}
	if v.Scale != 0 {
		o.Scale = 1 / float64(v.Scale)
	}
	switch v.Format {
	case "svg":
		o.Cautions, o.Defer = sheet.Cautions, sheet.Defer
	case "pdf":
		o.Paper, o.InPage = paperOr(v.Paper), true
	}
	return wiring.Pictures(run, o)
}

// fitPaper is a page as large as the drawing.
const fitPaper = "fit"

// paperOr is the paper that was asked for, else A4.
func paperOr(paper string) string {
	if paper == fitPaper {
		return "a4"
	}
	return paper
}

func (v *drawVerb) layout(run *check.Run, h sheet.Head) []*draw.Picture {
	return board.Pictures(run.Harness, board.Options{Scale: int(v.Scale), Verdict: h.Verdict()})
}
