package print

import (
	"io"

	"hame/check/sheet"
)

// Entry is a file of a pack, as its index page lists it.
type Entry struct {
	File    string // its name in the folder of the index
	Title   string
	Summary string
}

const (
	indexTitle   = "The pack"
	indexPurpose = "All sheets of one harness, in the order of work: make it, fit it, prove it, keep it."
)

// TextIndex writes the index page of a pack as text.
func TextIndex(to io.Writer, h sheet.Head, entries []Entry) error {
	t := &sheet.Table{Columns: []sheet.Column{{Title: "file"}, {Title: "sheet"}, {Title: "what for"}}, Empty: "no sheet"}
	for _, e := range entries {
		t.Rows = append(t.Rows, sheet.Cells(e.File, e.Title, e.Summary))
	}
	s := &sheet.Sheet{Title: indexTitle, Purpose: indexPurpose}
	s.Add(t)
	return Text(to, h, []*sheet.Sheet{s}, TextOptions{})
}
