package report

import (
	"net/url"
	"strings"

	"hame/lang/parts"
	"hame/lang/source"
)

// uriOf is a file's name as a URI: relative where the name is, and what ships
// inside the program as `use` writes it.
func uriOf(name string) string {
	switch {
	case strings.HasPrefix(name, parts.Prefix):
		return parts.Prefix + (&url.URL{Path: strings.TrimPrefix(name, parts.Prefix)}).EscapedPath()
	case strings.HasPrefix(name, "/"):
		return (&url.URL{Scheme: "file", Path: name}).String()
	case len(name) > 2 && name[1] == ':' && name[2] == '/': // a drive letter
		return (&url.URL{Scheme: "file", Path: "/" + name}).String()
	}
	return (&url.URL{Path: name}).String()
}

// columnCounter counts columns in UTF-16 code units from 0. Places come in
// order, so it goes on from where it stopped: one long line with many findings
// is read once, not once for each.
type columnCounter struct {
	file      *source.File
	at, units int
	line      int
}

func (c *columnCounter) utf16(f *source.File, offset int) int {
	offset = min(max(offset, 0), len(f.Text))
	line := f.Position(offset).Line
	if c.file != f || c.line != line || offset < c.at {
		*c = columnCounter{file: f, at: f.LineStart(line), line: line}
	}
	for _, r := range f.Text[c.at:offset] {
		if c.units++; r >= 0x10000 {
			c.units++
		}
	}
	c.at = offset
	return c.units
}
