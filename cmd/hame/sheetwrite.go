package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/mattn/go-isatty"

	"hame/check/page"
	"hame/check/print"
	"hame/check/report"
	"hame/check/sheet"
	"hame/check/sheets"
)

// extensions are what files of a format end in.
var extensions = map[string]string{"text": ".txt", "csv": ".csv", "html": ".html", "pdf": ".pdf"}

var (
	errTerminal = errors.New("a PDF is no use on a terminal; name a file: -o FILE.pdf")
	errCSVPack  = errors.New("all tables of all sheets are many files; name a folder for them: -o DIR")
	errTableCSV = errors.New("--table goes with --format csv and one sheet")
	errHarness  = errors.New("-o names a harness file, which would be lost; name another")
)

// write gives the sheets to where they were asked for: standard output, a file,
// or a folder.
func (v *sheetVerb) write(s *session, p *sheets.Pack) error {
	list := v.chosen(p)
	switch {
	case v.Table != "" && (v.Format != "csv" || v.Name == allSheets):
		return errTableCSV
	case strings.HasSuffix(v.Output, suffix):
		return errHarness
	case v.Output == "" || v.Output == "-":
		return v.toOut(s, p, list)
	case v.intoFolder():
		files, err := v.files(p, list)
		if err != nil {
			return err
		}
		return writeFolder(v.Output, files)
	}
	data, err := v.whole(p, list)
	if err != nil {
		return err
	}
	return writeFile(v.Output, data)
}

// intoFolder reports whether -o names a folder: one that is there or ends in a
// slash, and for all sheets anything but a file of the format.
func (v *sheetVerb) intoFolder() bool {
	if info, err := os.Stat(v.Output); err == nil && info.IsDir() || os.IsPathSeparator(v.Output[len(v.Output)-1]) {
		return true
	}
	return v.Name == allSheets && (v.Format == "csv" || filepath.Ext(v.Output) != extensions[v.Format])
}

func (v *sheetVerb) toOut(s *session, p *sheets.Pack, list []*sheet.Sheet) error {
	if f, ok := s.out.(*os.File); ok && v.Format == "pdf" && isatty.IsTerminal(f.Fd()) {
		return errTerminal
	}
	data, err := v.whole(p, list)
	if err != nil {
		return err
	}
	if _, err := s.out.Write(data); err != nil {
		return fmt.Errorf("the sheet cannot be written: %w", err)
	}
	if tables := list[0].Tables(); v.Format == "csv" && v.Table == "" && len(tables) > 1 {
		_, _ = fmt.Fprintf(s.err, "hame: this is the table %s; others, with --table NAME: %s\n", tables[0].Name, namesOf(tables[1:]))
	}
	return nil
}

func namesOf(tables []*sheet.Table) string {
	names := make([]string, len(tables))
	for i, t := range tables {
		names[i] = t.Name
	}
	return strings.Join(names, ", ")
}

// whole is all that was asked for in one file; of the whole pack as HTML the page
// to look at.
func (v *sheetVerb) whole(p *sheets.Pack, list []*sheet.Sheet) ([]byte, error) {
	if v.Name != allSheets || v.Format != "html" {
		return v.one(p.Head(), list)
	}
	var b bytes.Buffer
	err := page.Write(&b, p, list)
	return b.Bytes(), err
}

// one is sheets in one file.
func (v *sheetVerb) one(h sheet.Head, list []*sheet.Sheet) ([]byte, error) {
	var b bytes.Buffer
	var err error
	switch v.Format {
	case "csv":
		err = v.oneTable(&b, list)
	case "html":
		err = print.HTML(&b, h, list, print.HTMLOptions{})
	case "pdf":
		err = print.PDF(&b, h, list, print.PDFOptions{Paper: v.Paper})
	default:
		err = print.Text(&b, h, list, print.TextOptions{})
	}
	return b.Bytes(), err
}

// oneTable writes the table that was asked for, without a name the first.
func (v *sheetVerb) oneTable(to io.Writer, list []*sheet.Sheet) error {
	if len(list) > 1 {
		return errCSVPack
	}
	tables := list[0].Tables()
	if len(tables) == 0 {
		return fmt.Errorf("the sheet %s has no table; take --format text, html or pdf", list[0].Name)
	}
	for _, t := range tables {
		if v.Table == "" || t.Name == v.Table {
			return print.CSV(to, t)
		}
	}
	return fmt.Errorf("the sheet %s has no table `%s`\ntables: %s", list[0].Name, report.Plain(v.Table), namesOf(tables))
}

// files are the sheets each in a file of its own, or each table, and for the
// whole pack a page that lists them.
func (v *sheetVerb) files(p *sheets.Pack, list []*sheet.Sheet) ([]paper, error) {
	h := p.Head()
	all, entries, err := v.lookAt(p)
	if err != nil {
		return nil, err
	}
	for _, s := range list {
		made, err := v.filesOf(h, s)
		if err != nil {
			return nil, err
		}
		for _, f := range made {
			entries = append(entries, print.Entry{File: f.name, Title: s.Title, Summary: s.Purpose})
		}
		all = append(all, made...)
	}
	if v.Name != allSheets {
		return all, nil
	}
	index, err := v.index(h, entries)
	return append(all, index), err
}

// lookAt is the page to look at, where the pack is one of pages.
func (v *sheetVerb) lookAt(p *sheets.Pack) ([]paper, []print.Entry, error) {
	if v.Name != allSheets || v.Format != "html" {
		return nil, nil, nil
	}
	var b bytes.Buffer
	err := page.Write(&b, p, nil)
	entry := print.Entry{File: page.Name + extensions["html"], Title: page.Title, Summary: page.Purpose}
	return []paper{{entry.File, b.Bytes()}}, []print.Entry{entry}, err
}

func (v *sheetVerb) filesOf(h sheet.Head, s *sheet.Sheet) ([]paper, error) {
	if v.Format != "csv" {
		data, err := v.one(h, []*sheet.Sheet{s})
		return []paper{{s.Name + extensions[v.Format], data}}, err
	}
	var list []paper
	for i, t := range s.Tables() {
		if v.Table != "" && t.Name != v.Table {
			continue
		}
		var b bytes.Buffer
		if err := print.CSV(&b, t); err != nil {
			return nil, err
		}
		name := s.Name
		if i > 0 {
			name += "-" + t.Name
		}
		list = append(list, paper{name + extensions["csv"], b.Bytes()})
	}
	return list, nil
}

// index lists the files of a pack: for reading in a browser, unless all else is
// text.
func (v *sheetVerb) index(h sheet.Head, entries []print.Entry) (paper, error) {
	var b bytes.Buffer
	if v.Format == "text" {
		err := print.TextIndex(&b, h, entries)
		return paper{"index.txt", b.Bytes()}, err
	}
	err := print.HTMLIndex(&b, h, entries)
	return paper{"index.html", b.Bytes()}, err
}
