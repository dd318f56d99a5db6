package sheets

import (
	"crypto/sha256"
	"encoding/hex"
	"strings"

	"hame/check/draw/wiring"
	"hame/check/network"
	"hame/check/report"
	"hame/check/sheet"
	"hame/lang/finding"
	"hame/lang/harness"
	"hame/lang/kinds"
)

var _ = register(Maker{
	Name: "record", Title: "Record for the machine's manual",
	Summary: "What stays with the machine: circuits, drawing, fuses as fitted, what was allowed, what is open, changes",
	Make:    record,
})

func record(p *Pack) *sheet.Sheet {
	s := &sheet.Sheet{}
	s.Add(sheet.Heading{Words: "Circuits"}, p.circuitTable())
	s.Add(sheet.Heading{Words: "Fuses as fitted"}, p.fittedTable())
	s.Add(sheet.Heading{Words: "What the author allows"}, p.allowedTable())
	s.Add(sheet.Heading{Words: "Open items"}, p.openTable())
	s.Add(sheet.Heading{Words: "Made from"}, p.filesTable(), small("SHA-256 of all files together: "+p.hash()))
	s.Add(sheet.Heading{Words: "Changes"}, changeTable(), sheet.Text{Words: "Keep this with the machine. Whoever changes a wire, a fuse or a load writes it down here, changes the text, and checks it again."})
	// Last, for it takes pages of its own.
	s.Add(sheet.Heading{Words: "Wiring"}, sheet.Drawing{Pictures: wiring.Pictures(p.Run, wiring.Options{Mode: p.Options.Mode, Paper: p.Options.Paper, InPage: true})})
	return s
}

// fuses lists the elements of the protective devices.
func (p *Pack) fuses() []int {
	var all []int
	for i := range p.Facts.Network.Elements {
		if p.Facts.Network.Elements[i].Kind == network.Fuse {
			all = append(all, i)
		}
	}
	return all
}

// circuitTable is the legend: each device with what hangs on it.
func (p *Pack) circuitTable() *sheet.Table {
	t := &sheet.Table{Name: "circuits", Empty: "There is no protective device.", Columns: []sheet.Column{
		{Name: "circuit", Title: "circuit"},
		{Name: "label", Title: "label"},
		{Name: "device", Title: "device"},
		{Name: "rating_a", Title: "rating", Unit: "A", Right: true},
		{Name: "place", Title: "place"},
		{Name: "wires", Title: "leaves by"},
		{Name: "feeds", Title: "feeds"},
		{Name: "whose", Title: "whose"},
	}}
	for _, i := range p.fuses() {
		e := &p.Facts.Network.Elements[i]
		d := e.Fuse
		place := unknown
		if d.AtPlace != nil {
			place = d.AtPlace.Name
		}
		t.Rows = append(t.Rows, sheet.Row{Name: d.Name, Cells: []sheet.Cell{
			sheet.Is(d.Name), sheet.Is(labelOf(d)), sheet.Is(sortOf(d)), maybe(d.RatingA, d.RatingA > 0), sheet.Is(place),
			sheet.Is(p.leaving(e)), sheet.Is(p.fed(i)), sheet.Is(own(d.Of.Existing)),
		}})
	}
	for _, d := range p.Harness.Devices {
		t.Rows = append(t.Rows, spareRows(d)...)
	}
	return t
}

// leaving names the wires on a device's outgoing terminal, with their colours.
func (p *Pack) leaving(e *network.Element) string {
	var all []string
	for _, d := range p.Harness.Devices {
		for _, t := range d.Terminals {
			if d != e.Device || t.Index != e.B && !d.Is(kinds.Supply, "tap") {
				continue
			}
			for _, w := range t.Wires {
				all = append(all, strings.TrimSuffix(w.Name+" "+colour(w), " "+unknown))
			}
		}
	}
	return strings.Join(all, ", ")
}

// fed names the loads behind a device, or counts them where they are many.
func (p *Pack) fed(element int) string {
	loads, either := p.Facts.Behind(element)
	if either {
		return "sources lie on both sides"
	}
	var names []string
	for _, i := range loads {
		if e := &p.Facts.Network.Elements[i]; !e.Load.Hidden() {
			names = once(names, e.Device.Name)
		}
	}
	const most = 8
	if len(names) > most {
		return strings.Join(names[:most-1], ", ") + " and " + count(len(names)-most+1) + " more"
	}
	return strings.Join(names, ", ")
}

// spareRows are a panel's empty ways.
func spareRows(d *harness.Device) []sheet.Row {
	var rows []sheet.Row
	if !d.Is(kinds.Protection, "panel") {
		return nil
	}
	for _, args := range d.Given("way") {
		if t := d.Terminal(args.RepeatKey()); t != nil && args.Word("device") == "spare" {
			rows = append(rows, sheet.Row{Name: d.Name, Cells: []sheet.Cell{
				sheet.Is(t.FullName()), sheet.Is(args.Word("label")), sheet.Is("spare"), {}, sheet.Is(placeOf(d)), {}, {}, sheet.Is(own(d.Existing)),
			}})
		}
	}
	return rows
}

func (p *Pack) fittedTable() *sheet.Table {
	t := &sheet.Table{Name: "fitted", Empty: "There is no fuse.", Columns: []sheet.Column{
		{Name: "device", Title: "device"},
		{Name: "what", Title: "what it is"},
		{Name: "rating_a", Title: "to be fitted", Unit: "A", Right: true},
		{Name: "found_a", Title: "found in it", Unit: "A", Right: true},
		{Name: "fitted_a", Title: "fitted", Unit: "A", Blank: true},
		{Name: "date", Title: "date", Blank: true},
		{Name: "by", Title: "by whom", Blank: true},
	}}
	for _, i := range p.fuses() {
		d := p.Facts.Network.Elements[i].Fuse
		found := sheet.Cell{}
		if amps, ok := d.Of.SI("fitted"); ok && d.Way == nil {
			found = figure(amps)
			found.Strong = amps != d.RatingA
		}
		t.Rows = append(t.Rows, sheet.Row{Name: d.Name, Cells: []sheet.Cell{sheet.Is(d.Name), sheet.Is(sortOf(d)), maybe(d.RatingA, d.RatingA > 0), found, {}, {}, {}}})
	}
	return t
}

func (p *Pack) allowedTable() *sheet.Table {
	t := &sheet.Table{Name: "allowances", Empty: "Nothing is allowed that the check found.", Columns: []sheet.Column{
		{Name: "rule", Title: "rule"}, {Name: "on", Title: "on"}, {Name: "because", Title: "because"}, {Name: "until", Title: "until"}, {Name: "findings", Title: "findings", Right: true},
	}}
	for _, a := range p.Harness.Allows {
		until := a.Until
		if until == "" {
			until = "no end"
		}
		t.Rows = append(t.Rows, sheet.Row{Name: a.On, Cells: []sheet.Cell{sheet.Is(a.Rule), sheet.Is(a.On), sheet.Is(a.Because), sheet.Is(until), sheet.Is(count(p.covered(a)))}})
	}
	return t
}

// covered counts the findings that an allowance takes in.
func (p *Pack) covered(a *harness.Allow) int {
	n := 0
	for _, f := range p.Run.Findings {
		if f.Allowed != nil && f.Rule == a.Rule && f.Allowed.Because == a.Because && f.Allowed.Until == a.Until {
			n++
		}
	}
	return n
}

// openTable lists what is not settled: every finding that nobody allows, but for
// advice; what waits for one fact in one line.
func (p *Pack) openTable() *sheet.Table {
	t := &sheet.Table{Name: "open_items", Empty: "No finding is open under practice " + p.Harness.Practice + ", advice left out.", Columns: []sheet.Column{
		{Name: "severity", Title: "severity"}, {Name: "rule", Title: "rule"}, {Name: "about", Title: "about"}, {Name: "what", Title: "what"}, {Name: "settled", Title: "settled, date", Blank: true},
	}}
	var waiting []finding.Finding
	for _, f := range p.Run.Findings {
		if f.Allowed != nil || f.Severity == finding.Advice {
			continue
		}
		if f.Severity == finding.Open {
			waiting = append(waiting, f)
			continue
		}
		severity := sheet.Cell{Words: f.Severity.String(), Strong: f.Severity == finding.Error}
		t.Rows = append(t.Rows, sheet.Row{Name: f.Subject, Cells: []sheet.Cell{severity, sheet.Is(f.Rule), sheet.Is(f.Subject), sheet.Is(strings.ReplaceAll(f.Message, "`", "")), {}}})
	}
	for _, l := range report.Lacks(report.Run{Files: p.Run.Files, Harness: p.Harness, Findings: waiting}) {
		t.Rows = append(t.Rows, sheet.Row{Name: l.Need.Name, Cells: []sheet.Cell{
			sheet.Is("not judged"), sheet.Is(strings.Join(l.Rules, ", ")), sheet.Is(l.Need.Name), sheet.Is(l.Need.Setting + " is not declared"), {},
		}})
	}
	return t
}

func (p *Pack) filesTable() *sheet.Table {
	t := &sheet.Table{Name: "files", Columns: []sheet.Column{{Name: "file", Title: "file"}, {Name: "sha256", Title: "SHA-256 of its text"}}}
	for _, f := range p.Run.Files {
		sum := sha256.Sum256([]byte(f.Text))
		t.Rows = append(t.Rows, sheet.Cells(p.FileName(f.Name), hex.EncodeToString(sum[:])))
	}
	return t
}

// changeTable is room for what happens to the machine later.
func changeTable() *sheet.Table {
	t := &sheet.Table{Name: "changes", Columns: []sheet.Column{
		{Name: "date", Title: "date", Blank: true}, {Name: "what", Title: "what was changed", Blank: true}, {Name: "by", Title: "by whom", Blank: true}, {Name: "checked", Title: "checked again", Blank: true},
	}}
	const lines = 8
	for range lines {
		t.Rows = append(t.Rows, sheet.Cells("", "", "", ""))
	}
	return t
}
