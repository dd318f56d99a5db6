package main

import (
	"fmt"
	"strings"
	"time"

	"hame/check/report"
	"hame/check/sheet"
	"hame/check/sheets"
	"hame/lang/kinds"
)

// sheetVerb is hame sheet.
type sheetVerb struct {
	Name      string `arg:"" optional:"" help:"The sheet, or all."`
	Path      string `arg:"" optional:"" help:"The harness file, its folder, or - for standard input."`
	Format    string `enum:"text,csv,html,pdf" default:"text" help:"text, csv, html or pdf."`
	Paper     string `enum:"a4,letter" default:"a4" help:"a4 or letter."`
	Output    string `short:"o" placeholder:"FILE|DIR" help:"The file to write, or the folder of all sheets."`
	Table     string `placeholder:"NAME" help:"The table that csv gives, where a sheet has several."`
	Date      string `placeholder:"DATE" help:"The day to print, such as 2027-05-31."`
	Mode      string `placeholder:"MODE" help:"The mode that drawings show."`
	Step      string `placeholder:"LENGTH" help:"What cut lengths are rounded up to, such as 5 mm."`
	StdinName string `name:"stdin-name" default:"stdin.hame" placeholder:"PATH" help:"The name that standard input goes by."`
}

// allSheets is the name that stands for the whole pack.
const allSheets = "all"

// Run makes a sheet, or all, and says in a line what stands against building.
func (v *sheetVerb) Run(s *session) error {
	if v.Name == "" {
		_, err := fmt.Fprint(s.out, sheetList())
		return err
	}
	if err := v.known(s); err != nil {
		return err
	}
	pack, err := v.pack(s)
	if err != nil {
		return err
	}
	if err := v.write(s, pack); err != nil {
		return err
	}
	if h := pack.Head(); !h.ForBuild() {
		_, _ = fmt.Fprintf(s.err, "hame: %s: hame check %s\n", h.Verdict(), report.Plain(pack.Run.Files[0].Name))
	}
	return nil
}

// known reports a wrong name, with what there is.
func (v *sheetVerb) known(s *session) error {
	if _, ok := sheets.Find(v.Name); ok || v.Name == allSheets {
		return nil
	}
	names := []string{allSheets}
	for _, m := range sheets.All() {
		names = append(names, m.Name)
	}
	name := report.Plain(v.Name)
	told := fmt.Sprintf("there is no sheet `%s`%s", name, kinds.DidYouMean(v.Name, names))
	if strings.HasSuffix(v.Name, suffix) {
		told = fmt.Sprintf("`%s` is no sheet; all sheets of that file: hame sheet all %s", name, name)
	}
	_, _ = fmt.Fprintf(s.err, "hame: %s\n\n%s", told, sheetList())
	return status(statusFailed)
}

// listColumns is how wide summaries are: what is left of 80 columns.
const listColumns = 66

// sheetList tells each sheet and what it is for.
func sheetList() string {
	var b strings.Builder
	b.WriteString("Sheets\n\n")
	for _, m := range append(sheets.All(), sheets.Maker{Name: allSheets, Summary: "the whole pack"}) {
		fmt.Fprintf(&b, "    %-8s  %s\n", m.Name, strings.ReplaceAll(wrapTo(m.Summary, listColumns), "\n", "\n"+strings.Repeat(" ", 14)))
	}
	return b.String()
}

// pack checks the harness and what was asked for with it.
func (v *sheetVerb) pack(s *session) (*sheets.Pack, error) {
	o := sheets.Options{Date: v.Date, Mode: v.Mode, Paper: v.Paper}
	today, err := dayOf("--date", v.Date, time.Now())
	if err != nil {
		return nil, err
	}
	if o.StepM, err = stepOf(v.Step); err != nil {
		return nil, err
	}
	run, err := one{verb: "hame sheet " + v.Name, path: v.Path, stdinName: v.StdinName, today: today}.harness(s)
	if err != nil {
		return nil, err
	}
	if err := hasMode(run.Harness, v.Mode); err != nil {
		return nil, err
	}
	return sheets.NewPack(run, o), nil
}

// chosen are the sheets that were asked for.
func (v *sheetVerb) chosen(p *sheets.Pack) []*sheet.Sheet {
	if v.Name != allSheets {
		made, _ := sheets.Of(p, v.Name) // known has looked
		return []*sheet.Sheet{made}
	}
	var list []*sheet.Sheet
	for _, m := range sheets.All() {
		made, _ := sheets.Of(p, m.Name)
		list = append(list, made)
	}
	return list
}
