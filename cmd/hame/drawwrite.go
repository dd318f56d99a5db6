package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"strings"

	"github.com/mattn/go-isatty"

	"hame/check/draw"
	"hame/check/print"
	"hame/check/sheet"
)

// write gives the pictures to where they were asked for: standard output, a file,
// or a folder.
func (v *drawVerb) write(s *session, d drawing, h sheet.Head, pictures []*draw.Picture) error {
	if strings.HasSuffix(v.Output, suffix) {
		return errHarness
	}
	if v.Format == "svg" && len(pictures) > 1 && !isFolder(v.Output) {
		return v.several(d, len(pictures))
	}
	files, err := v.files(d, h, pictures)
	switch {
	case err != nil:
		return err
	case v.Output == "" || v.Output == "-":
		return v.toOut(s, files[0].data)
	case isFolder(v.Output):
		return writeFolder(v.Output, files)
	}
	return writeFile(v.Output, files[0].data)
}

// several says that there are several pictures, and where to put them.
func (v *drawVerb) several(d drawing, n int) error {
	return fmt.Errorf("the %s takes %d sheets, each a file; name a folder for them: -o DIR/\none file with all of them: --format pdf -o FILE.pdf, or --format html -o FILE.html", strings.ToLower(d.title), n)
}

// isFolder reports whether a path names a folder: one that is there, or that ends
// in a slash.
func isFolder(path string) bool {
	if path == "" {
		return false
	}
	info, err := os.Stat(path)
	return err == nil && info.IsDir() || os.IsPathSeparator(path[len(path)-1])
}

func (v *drawVerb) toOut(s *session, data []byte) error {
	if f, ok := s.out.(*os.File); ok && v.Format == "pdf" && isatty.IsTerminal(f.Fd()) {
		return errTerminal
	}
	if _, err := s.out.Write(data); err != nil {
		return fmt.Errorf("the drawing cannot be written: %w", err)
	}
	return nil
}

// files are the pictures: as SVG each in one file, else all in one.
func (v *drawVerb) files(d drawing, h sheet.Head, pictures []*draw.Picture) ([]paper, error) {
	if v.Format == "svg" {
		var list []paper
		var failures []error
		for _, p := range pictures {
			var b bytes.Buffer
			failures = append(failures, draw.SVG(&b, p))
			list = append(list, paper{p.Name + ".svg", b.Bytes()})
		}
		return list, errors.Join(failures...)
	}
	page := &sheet.Sheet{Name: d.name, Title: d.title} // without a purpose the first page is a picture
	page.Add(sheet.Drawing{Pictures: pictures})
	var b bytes.Buffer
	var err error
	if v.Format == "pdf" {
		err = print.PDF(&b, h, []*sheet.Sheet{page}, print.PDFOptions{Paper: paperOr(v.Paper)})
	} else {
		err = print.HTML(&b, h, []*sheet.Sheet{page}, print.HTMLOptions{})
	}
	return []paper{{d.name + extensions[v.Format], b.Bytes()}}, err
}
